import * as z from "zod";
import { analyteIds, methodIds } from "../vocabulary.ts";
import { graded, provenance } from "./sourced.ts";

const spread = z
  .strictObject({
    value: z.number().positive(),
    as: z.enum(["percent", "units"]).describe("percent of the value, or the analyte's own units"),
    ...provenance,
  })
  .check(graded);
export type Spread = z.infer<typeof spread>;

/**
 * How far a result strays from the mean of its area, as standard deviations: of single cores and of the laboratory, or of
 * sampling and analysis together where only that was published.
 */
export const noiseRule = z
  .strictObject({
    kind: z.literal("noise"),
    id: z.string(),
    analyte: z.enum(analyteIds),
    methods: z.array(z.enum(methodIds)).min(1).optional().describe("absent: every method"),
    core: spread.optional().describe("between single cores of one area"),
    lab: spread.optional().describe("between results of one laboratory on one soil"),
    labs: spread.optional().describe("between laboratories on one soil"),
    together: spread.optional().describe("sampling and analysis of one composite, cores not counted"),
  })
  .refine((r) => r.together !== undefined || (r.core !== undefined && r.lab !== undefined), {
    error: "needs together, or both core and lab",
  });
export type NoiseRule = z.infer<typeof noiseRule>;
