import * as z from "zod";
import type { Amount, YieldUnit } from "../units.ts";
import { convert, sameDimension } from "../units.ts";
import type { NoAnswer, Outcome, Source, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { CropId, NutrientId } from "../vocabulary.ts";
import { cropIds, crops, nutrientIds, nutrients } from "../vocabulary.ts";
import { graded, provenance } from "./sourced.ts";

const removalRow = z
  .strictObject({
    crop: z.enum(cropIds),
    nutrient: z.enum(nutrientIds),
    value: z.number().nonnegative(),
    moisture: z.string().optional().describe("the moisture the yield is stated at, in the publication's words"),
    moisturePercent: z.number().min(0).lt(100).optional().describe("the same as percent of water, where it is a number; 0: dry matter"),
    ...provenance,
  })
  .check(graded);

/** Nutrient taken away with the harvest, lb per unit of yield (bushel, or short ton). */
export const removalRule = z.strictObject({
  kind: z.literal("removal"),
  id: z.string(),
  unit: z.literal("lb per unit of yield"),
  rows: z.array(removalRow).min(1),
});
export type RemovalRule = z.infer<typeof removalRule>;

/** The yield in the unit the crop's removal is stated for, or why it cannot be had. */
export const yieldFor = (crop: CropId, yieldGoal: Amount<YieldUnit>): number | NoAnswer => {
  const wanted = crops[crop].yieldUnit;
  if (!sameDimension(yieldGoal.unit, wanted))
    return noAnswer(`the yield of ${crops[crop].label} is in ${yieldGoal.unit} and its removal is stated per ${crops[crop].per}`, [
      `a yield in ${wanted}`,
    ]);
  return convert(yieldGoal.value, yieldGoal.unit, wanted);
};

/** What the table says of a crop and a nutrient, if anything. */
export const removalRowFor = (rule: RemovalRule, crop: CropId, nutrient: NutrientId): RemovalRule["rows"][number] | undefined =>
  rule.rows.find((r) => r.crop === crop && r.nutrient === nutrient);

/** Nutrient removed by a yield of a crop, lb/ac: yield x coefficient. No answer for a crop or nutrient the table lacks. */
export const cropRemoval = (
  rule: RemovalRule,
  crop: CropId,
  nutrient: NutrientId,
  yieldGoal: Amount<YieldUnit>,
  pack: string,
  yieldSource?: Source,
  yieldName = "Yield goal",
): Outcome<number> => {
  const row = removalRowFor(rule, crop, nutrient);
  if (!row)
    return noAnswer(`${pack} gives no ${nutrients[nutrient].symbol} removal for ${crops[crop].label}`, [
      `${nutrients[nutrient].symbol} removal of ${crops[crop].label}`,
    ]);
  const amount = yieldFor(crop, yieldGoal);
  if (typeof amount !== "number") return amount;
  const removed = amount * row.value;
  const { per } = crops[crop];
  const step: Step = {
    what: `Taken away by the harvest of ${crops[crop].label}`,
    expression: `${plain(amount)} ${per}/ac × ${plain(row.value)} lb ${nutrients[nutrient].symbol} per ${per}`,
    result: `${plain(removed, 1)} lb/ac`,
    source: row.source,
    evidence: row.evidence,
    ...(row.note && { note: row.note }),
  };
  const goal: Step = { what: yieldName, result: `${plain(amount)} ${crops[crop].yieldUnit}`, ...(yieldSource && { source: yieldSource }) };
  return answer(removed, [goal, step]);
};
