import * as z from "zod";
import { analyteIds } from "../../interpretation/vocabulary.ts";
import { id, longText, text } from "./primitives.ts";
import { measuring } from "./sampling.ts";

/** labs/<lab>.yaml: what a laboratory measures and how, by package. */
export const lab = z.strictObject({
  name: text,
  packages: z.record(
    id,
    z.strictObject({
      name: text,
      fee: z.number().nonnegative().optional().describe("per composite, in the farm's currency"),
      measures: z.partialRecord(z.enum(analyteIds), measuring),
    }),
  ),
  note: longText.optional(),
});
export type LabRecord = z.infer<typeof lab>;
