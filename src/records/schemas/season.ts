import * as z from "zod";
import { cropIds, strawIds } from "../../interpretation/vocabulary.ts";
import { date, length, longText, named, percent, spreadAmount, text, year, yieldAmount } from "./primitives.ts";

const zones = z.array(named).min(1).optional().describe("absent: the whole field");

/** A legume's stand when it was ended. */
const stand = z.strictObject({
  plantsPerSquareFoot: z.number().nonnegative().max(100).optional(),
  percent: z.number().min(0).max(100).optional(),
  regrowth: length.optional().describe("in fall, before it was ended"),
});

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
        yield: yieldAmount.optional().describe("0 where the crop stood and nothing was taken; absent where it is not known"),
        moisture: percent.optional().describe("percent of water in the yield as it was weighed"),
        straw: z.enum(strawIds).optional().describe("what became of the straw"),
        stand: stand.optional().describe("of a legume, for the nitrogen it leaves"),
        note: text.optional(),
      }),
    )
    .default([]),
  applications: z
    .array(
      z.strictObject({
        date,
        product: named.describe("a product of farm.yaml"),
        zones,
        rate: spreadAmount.describe("by weight, or by volume of a product with density"),
        incorporated: z.boolean().optional(),
        note: text.optional(),
      }),
    )
    .default([]),
  note: longText.optional(),
});
export type SeasonRecord = z.infer<typeof season>;
