import * as z from "zod";
import { cropIds } from "../../interpretation/vocabulary.ts";
import { date, id, longText, rateAmount, text, year, yieldAmount } from "./primitives.ts";

const zones = z.array(id).min(1).optional().describe("absent: the whole field");

/** seasons/<year>.yaml: what was grown, harvested and really applied. */
export const season = z.strictObject({
  season: year,
  crops: z
    .array(
      z.strictObject({
        crop: z.enum(cropIds),
        zones,
        planted: date.optional(),
        harvested: date.optional(),
        yield: yieldAmount.optional(),
        note: text.optional(),
      }),
    )
    .default([]),
  applications: z
    .array(
      z.strictObject({
        date,
        product: id.describe("a product of farm.yaml"),
        zones,
        rate: rateAmount,
        incorporated: z.boolean().optional(),
        note: text.optional(),
      }),
    )
    .default([]),
  note: longText.optional(),
});
export type SeasonRecord = z.infer<typeof season>;
