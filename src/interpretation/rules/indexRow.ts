import { list } from "../list.ts";
import type { Measurement } from "../measurement.ts";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { convert, sameDimension } from "../units.ts";
import type { CropId } from "../vocabulary.ts";
import { crops, nutrients } from "../vocabulary.ts";
import type { Rating } from "./bands.ts";
import { conditionLabel, conditionSteps, meets } from "./conditions.ts";
import type { Facts } from "./facts.ts";
import { exceptionFor } from "./indexExceptions.ts";
import { partRate } from "./indexRates.ts";
import type { Dose, NutrientRate, RatePlace } from "./nutrientRate.ts";
import type { IndexClass, IndexCrop, IndexOfftakeRule, IndexSplit } from "./indexRule.ts";

interface InRow {
  readonly row: IndexCrop;
  readonly crop: CropId;
  readonly at: IndexClass;
  readonly classes: readonly IndexClass[];
  readonly rating: Rating;
  readonly lead: readonly Step[];
}

/** What one row of the crop's tables gives at a class; `lead` holds the lines of the sum that come before. */
export const rateInRow = (
  rule: IndexOfftakeRule,
  m: Measurement,
  place: RatePlace,
  { row, crop, at, classes, rating, lead }: InRow,
): Outcome<NutrientRate> => {
  const { facts, pack } = place;
  const steps: Step[] = [...lead, ...conditionSteps(row.when, facts)];

  const except = exceptionFor(rule, m, at, facts, pack);
  if (except.kind === "noAnswer") return except;
  if (except.value) {
    const { symbol } = nutrients[rule.nutrient];
    const from = { source: except.value.source, evidence: except.value.evidence, note: except.value.note };
    const what = [
      conditionLabel(except.value.when),
      except.value.testAbove !== undefined && `result above ${plain(except.value.testAbove)} ${rule.limits.unit}`,
    ];
    steps.push(...conditionSteps(except.value.when, facts));
    steps.push({
      what: `In place of the table, for ${what.filter(Boolean).join(", ")}`,
      result: `${plain(except.value.rate)} ${rule.unit} ${symbol}`,
      ...from,
    });
    return answer({ rate: { value: except.value.rate, unit: rule.unit }, rating }, steps);
  }

  const yieldTonnes = yieldIn(crop, place);
  const doses: Dose[] = [];
  const doubts: string[] = [];
  const parts = row.parts.filter((part) => part.crops === undefined || part.crops.includes(crop));
  for (const part of parts) {
    const read = partRate(part, { classes, at, row, rule, crop, yieldTonnes, pack });
    if (read.kind === "noAnswer") return read;
    steps.push(...read.steps);
    if (read.value.doubt !== undefined) doubts.push(read.value.doubt);
    doses.push({ when: part.dose ?? "", value: read.value.rate });
  }
  const total = doses.reduce((sum, dose) => sum + dose.value, 0);
  const split = doses.filter((dose) => dose.value > 0);
  if (parts.length > 1)
    steps.push({
      what: "The doses of the season together",
      expression: doses.map((d) => plain(d.value, 1)).join(" + "),
      result: `${plain(total, 1)} ${rule.unit} ${nutrients[rule.nutrient].symbol}`,
    });
  const dressings = parts.length > 1 ? split : dressingsOf(row.split, total, rule, facts, steps);
  return answer(
    {
      rate: { value: total, unit: rule.unit },
      rating,
      ...(dressings.length > 0 && { doses: dressings }),
      ...(doubts.length > 0 && { doubt: doubts.join(" ") }),
    },
    steps,
  );
};

/** The parts of a rate that the publication does not have spread at one time; none where it is one dressing. */
const dressingsOf = (split: IndexSplit | undefined, total: number, rule: IndexOfftakeRule, facts: Facts, steps: Step[]): Dose[] => {
  if (!split || total <= split.above || (split.unless && meets(split.unless, facts).matches)) return [];
  const { above, doses, source, evidence, note } = split;
  const each = total / doses.length;
  steps.push({
    what: `More than ${plain(above)} ${rule.unit} is split: one part each ${list(doses)}`,
    expression: `${plain(total, 1)} ÷ ${doses.length}`,
    result: `${plain(each, 1)} ${rule.unit} ${nutrients[rule.nutrient].symbol}`,
    source,
    evidence,
    note,
  });
  return doses.map((when) => ({ when, value: each }));
};

/** The yield in t/ha with the record it stands in, `undefined` where none is set, or why it cannot be had. */
const yieldIn = (crop: CropId, place: RatePlace): Outcome<{ value: number; step: Step }> => {
  const goal = place.yieldGoal;
  if (!goal) return noAnswer("no yield goal is set, and the rate depends on the yield", ["yieldGoal"]);
  if (!sameDimension(goal.unit, "t/ha"))
    return noAnswer(`the yield of ${crops[crop].label} is in ${goal.unit} and ${place.pack} reads t/ha`, ["a yield in t/ha"]);
  // The computer's dust of a converted yield would put 8.5 t/ha outside a table that ends there.
  const value = Number(convert(goal.value, goal.unit, "t/ha").toPrecision(12));
  const from = place.facts.origins?.yieldGoal;
  return answer({ value, step: { what: "Yield goal", result: `${plain(value, 2)} t/ha`, ...(from && { source: from }) } }, []);
};
