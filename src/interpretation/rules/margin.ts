import * as z from "zod";
import { analyteIds, methodIds, soilTestUnits } from "../vocabulary.ts";
import { graded, provenance } from "./sourced.ts";

/** The difference between two areas, or two samplings, that is too small to farm them differently. A convention, in test units. */
export const marginRule = z.strictObject({
  kind: z.literal("margin"),
  id: z.string(),
  analyte: z.enum(analyteIds),
  methods: z.array(z.enum(methodIds)).min(1).describe("the methods it was stated for"),
  unit: z.enum(soilTestUnits),
  within: z.strictObject({ value: z.number().positive(), ...provenance }).check(graded),
});
export type MarginRule = z.infer<typeof marginRule>;
