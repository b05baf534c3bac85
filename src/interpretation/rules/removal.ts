import * as z from "zod";
import type { Amount, YieldUnit } from "../units.ts";
import type { Outcome, Source } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import type { CropId, NutrientId } from "../vocabulary.ts";
import { cropIds, crops, nutrientIds, nutrients } from "../vocabulary.ts";
import type { Coefficient } from "./removalCoefficient.ts";
import { takenAway } from "./removalCoefficient.ts";
import { graded, provenance } from "./sourced.ts";

const removalRow = z
  .strictObject({
    crop: z.enum(cropIds),
    nutrient: z.enum(nutrientIds),
    value: z.number().nonnegative(),
    to: z.number().positive().optional().describe("the upper end, where the publication prints a range"),
    moisture: z.string().optional().describe("the moisture the yield is stated at, in the publication's words"),
    moisturePercent: z.number().min(0).lt(100).optional().describe("the same as percent of water, where it is a number; 0: dry matter"),
    ...provenance,
  })
  .check(graded)
  .refine((r) => r.to === undefined || r.to > r.value, "to must be above value");

/** Nutrient taken away with the harvest: lb per unit of yield (bushel, or short ton), or kg per t. */
export const removalRule = z
  .strictObject({
    kind: z.literal("removal"),
    id: z.string(),
    unit: z.enum(["lb per unit of yield", "kg per t of yield"]),
    rows: z.array(removalRow).min(1),
  })
  .check(({ value, issues }) => {
    value.rows.forEach(({ crop }, i) => {
      if (value.unit === "lb per unit of yield" && crops[crop].yieldUnit === "t/ha")
        issues.push({
          code: "custom",
          input: value,
          path: ["rows", i, "crop"],
          message: `the yield of ${crops[crop].label} is in t/ha; state its removal in a section of its own, in kg per t of yield`,
        });
    });
  });
export type RemovalRule = z.infer<typeof removalRule>;

/** What the table says of a crop and a nutrient, if anything. */
export const removalRowFor = (rule: RemovalRule, crop: CropId, nutrient: NutrientId): Coefficient | undefined => {
  const row = rule.rows.find((r) => r.crop === crop && r.nutrient === nutrient);
  return row && { ...row, per: rule.unit === "kg per t of yield" ? "t" : "crop's unit" };
};

/** Nutrient removed by a yield of a crop, lb/ac: yield x coefficient. No answer for a crop or nutrient the table lacks. */
export const cropRemoval = (
  rule: RemovalRule,
  crop: CropId,
  nutrient: NutrientId,
  yieldGoal: Amount<YieldUnit>,
  pack: string,
  yieldSource?: Source,
): Outcome<number> => {
  const row = removalRowFor(rule, crop, nutrient);
  const { symbol } = nutrients[nutrient];
  if (!row) return noAnswer(`${pack} gives no ${symbol} removal for ${crops[crop].label}`, [`${symbol} removal of ${crops[crop].label}`]);
  return takenAway(row, crop, nutrient, yieldGoal, "Yield goal", yieldSource);
};
