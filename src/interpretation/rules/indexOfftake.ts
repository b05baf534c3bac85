import type { Answer, Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { plain } from "../show.ts";
import type { CropId } from "../vocabulary.ts";
import { crops, nutrients } from "../vocabulary.ts";
import { firstMatch, missingFactLabel } from "./conditions.ts";
import { classesFor, rateByIndex } from "./indexClasses.ts";
import { classOnOrganic } from "./indexOrganic.ts";
import { rateInRow } from "./indexRow.ts";
import type { Rating } from "./bands.ts";
import type { BuildUp, NutrientRate, RatePlace } from "./nutrientRate.ts";
import { noMatterStep, possibleRows } from "./unknownFact.ts";
import type { IndexCrop, IndexOfftakeRule } from "./indexRule.ts";

/**
 * The rate for the season, in the rule's own unit and nutrient form (an oxide or an element), never below zero.
 * Result -> class -> the crop's table, or offtake and steps -> correction for yield, at the class the publication names
 * and below -> doses. A second condition may put another rate in its place.
 * No answer outside the limits, for a crop or class the publication leaves out, between two facts that are not known,
 * without a yield where the rate depends on it, or outside the yields that are printed.
 */
export const rateByIndexOfftake = (rule: IndexOfftakeRule, m: Measurement, place: RatePlace): Outcome<NutrientRate> => {
  const { facts, pack } = place;
  // No other sample would settle that no table names the crop.
  if (facts.crop !== undefined && !coversCrop(rule, facts.crop)) return noCrop(rule, undefined, facts.crop, pack);
  const rated = rateByIndex(rule, m, facts, pack);
  return rated.kind === "noAnswer" ? rated : rateAtClass(rule, m, place, rated);
};

/** The rate of one class, whichever class the result itself is in: `rated` names it, and holds the lines that led to it. */
const rateAtClass = (rule: IndexOfftakeRule, m: Measurement, place: RatePlace, rated: Answer<Rating>): Outcome<NutrientRate> => {
  const { facts, pack } = place;
  const table = classesFor(rule, facts, pack);
  if (table.kind === "noAnswer") return table;
  const allowed = classOnOrganic(rule, table.value.classes, table.value.classes[rated.value.rank]!, facts, pack);
  if (allowed.kind === "noAnswer") return allowed;
  const at = allowed.value;
  if (!facts.crop) return noAnswer("no crop is planned", ["crop"]);
  const chosen = firstMatch(rule.crops, facts);
  const lead = [...rated.steps, ...allowed.steps];
  const { classes } = table.value;
  const { crop } = facts;
  const inRow = (row: IndexCrop): Outcome<NutrientRate> => rateInRow(rule, m, place, { row, crop, at, classes, rating: rated.value, lead });
  if (chosen.found) return inRow(chosen.found);
  const { missing } = chosen;
  if (missing === undefined) return noCrop(rule, missing, facts.crop, pack);
  lead.push(noMatterStep(missing, "the rate is the same"));
  return sameRate(possibleRows(rule.crops, facts).map(inRow)) ?? noCrop(rule, missing, facts.crop, pack);
};

/** The rate that all of them give, told as the first tells it; `undefined` where one has none or another. */
const sameRate = (each: readonly Outcome<NutrientRate>[]): Outcome<NutrientRate> | undefined => {
  const rates = new Set(each.map((o) => (o.kind === "answer" ? o.value.rate.value : undefined)));
  return rates.size === 1 && !rates.has(undefined) ? each[0] : undefined;
};

/**
 * What a year's rate holds over the rate of the target class, the lowest one that is within the range: in the rule's unit, 0 from that
 * class up. No answer where no class is a target, or where one of the two rates has none.
 */
export const buildUpByIndexOfftake = (rule: IndexOfftakeRule, m: Measurement, place: RatePlace): Outcome<BuildUp> => {
  const rated = rateByIndex(rule, m, place.facts, place.pack);
  if (rated.kind === "noAnswer") return rated;
  const table = classesFor(rule, place.facts, place.pack);
  if (table.kind === "noAnswer") return table;
  const target = table.value.classes.findIndex((c) => c.position === "within");
  if (target < 0) return noAnswer(`${place.pack} names no target class`, ["a guideline with a target"]);
  if (rated.value.rank >= target) return answer({ amount: { value: 0, unit: rule.unit }, over: "all years" }, rated.steps);
  const here = rateAtClass(rule, m, place, rated);
  if (here.kind === "noAnswer") return here;
  const { name } = table.value.classes[target]!;
  const there = rateAtClass(rule, m, place, answer({ ...rated.value, rank: target }, []));
  if (there.kind === "noAnswer") return there;
  const [more, kept] = [here.value.rate.value, there.value.rate.value];
  const value = Math.max(0, more - kept);
  const last: Step = {
    what: `More each year than at ${rule.indexName} ${name}, the target`,
    expression: `${plain(more, 1)} − ${plain(kept, 1)}`,
    result: `${plain(value, 1)} ${rule.unit} ${nutrients[rule.nutrient].symbol}`,
  };
  return answer({ amount: { value, unit: rule.unit }, over: "each year" }, [...here.steps, ...there.steps, last]);
};

const noCrop = (rule: IndexOfftakeRule, missing: string | undefined, crop: CropId, pack: string): Outcome<never> => {
  const wanted = `${nutrients[rule.nutrient].label.toLowerCase()} table`;
  return missing
    ? noAnswer(`${missingFactLabel(missing)} is not known, and the ${wanted} of ${pack} depends on it`, [missing])
    : noAnswer(`${pack} has no ${wanted} for ${crops[crop].label}`, [`a guideline for ${crops[crop].label}`]);
};

/** Does one of the rule's tables name this crop? A guideline's rules for other crops have no say in it. */
export const coversCrop = (rule: IndexOfftakeRule, crop: CropId): boolean =>
  rule.crops.some((c) => c.when?.crops === undefined || c.when.crops.includes(crop));
