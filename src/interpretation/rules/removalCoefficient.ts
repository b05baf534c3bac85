import type { Amount, YieldUnit } from "../units.ts";
import { convert, sameDimension } from "../units.ts";
import type { NoAnswer, Outcome, Source, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { CropId, NutrientId } from "../vocabulary.ts";
import { crops, nutrients } from "../vocabulary.ts";
import type { Provenance } from "./sourced.ts";

/** What one unit of a harvest takes away, as one publication prints it. */
export interface Coefficient extends Provenance {
  readonly value: number;
  /** Upper end, where a range is printed. */
  readonly to?: number | undefined;
  /** lb for each of the crop's own units of yield, or kg for each t. */
  readonly per: "crop's unit" | "t";
  readonly moisture?: string | undefined;
  readonly moisturePercent?: number | undefined;
  /** Straw that left the field is in it: it counts with the grain, not by its own weight. */
  readonly withStraw?: boolean | undefined;
}

/** Where in a printed range a sum is worked: its middle, or one of its ends to see how far the range reaches. */
export type RangeEnd = "lower" | "middle" | "upper";

const valueAt = ({ value, to }: Coefficient, end: RangeEnd): number =>
  to === undefined || end === "lower" ? value : end === "upper" ? to : (value + to) / 2;

/** "0.2 lb per bu", "0.65 to 1 lb per bu", "8.4 kg per t" */
export const coefficientWords = (c: Coefficient, crop: CropId): string =>
  `${plain(c.value)}${c.to === undefined ? "" : ` to ${plain(c.to)}`} ${c.per === "t" ? "kg per t" : `lb per ${crops[crop].per}`}`;

/** The yield in the unit its removal is stated for, or why it cannot be had. */
export const yieldFor = (crop: CropId, yieldGoal: Amount<YieldUnit>, wanted: YieldUnit = crops[crop].yieldUnit): number | NoAnswer => {
  if (!sameDimension(yieldGoal.unit, wanted))
    return noAnswer(
      `the yield of ${crops[crop].label} is in ${yieldGoal.unit} and its removal is stated per ${wanted === "t/ha" ? "t" : crops[crop].per}`,
      [`a yield in ${wanted}`],
    );
  return convert(yieldGoal.value, yieldGoal.unit, wanted);
};

/** lb/ac that a yield takes away: yield x coefficient, worked in the coefficient's own system of units. */
export const takenAway = (
  c: Coefficient,
  crop: CropId,
  nutrient: NutrientId,
  yieldGoal: Amount<YieldUnit>,
  yieldName: string,
  yieldSource?: Source,
  end: RangeEnd = "middle",
): Outcome<number> => {
  const [yieldUnit, per, weight, unit] =
    c.per === "t" ? (["t/ha", "t", "kg", "kg/ha"] as const) : ([crops[crop].yieldUnit, crops[crop].per, "lb", "lb/ac"] as const);
  const amount = yieldFor(crop, yieldGoal, yieldUnit);
  if (typeof amount !== "number") return amount;
  const value = valueAt(c, end);
  const note = [
    c.to !== undefined && `${end === "middle" ? "the middle" : `the ${end} end`} of the printed ${plain(c.value)} to ${plain(c.to)}`,
    c.note,
  ]
    .filter(Boolean)
    .join("; ");
  const step: Step = {
    what: `Taken away by the harvest of ${crops[crop].label}${c.withStraw ? " and its straw" : ""}`,
    expression: `${plain(amount)} ${per}/${unit === "kg/ha" ? "ha" : "ac"} × ${plain(value)} ${weight} ${nutrients[nutrient].symbol} per ${per}`,
    result: `${plain(amount * value, 1)} ${unit}`,
    source: c.source,
    evidence: c.evidence,
    note: note || undefined,
  };
  const goal: Step = { what: yieldName, result: `${plain(amount)} ${yieldUnit}`, ...(yieldSource && { source: yieldSource }) };
  return answer(convert(amount * value, unit, "lb/ac"), [goal, step]);
};
