import * as z from "zod";
import type { Answer, Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { plain } from "../show.ts";
import { rateUnits } from "../units.ts";
import type { CropId } from "../vocabulary.ts";
import { analyteIds, crops, nutrientIds, nutrients } from "../vocabulary.ts";
import { firstMatch, missingFactLabel, when } from "./conditions.ts";
import { classesFor, indexTable, rateByIndex } from "./indexClasses.ts";
import { exception } from "./indexExceptions.ts";
import type { IndexPart } from "./indexRates.ts";
import { indexPart } from "./indexRates.ts";
import { classOnOrganic, organicMost } from "./indexOrganic.ts";
import { rateInRow } from "./indexRow.ts";
import { limits } from "./limits.ts";
import type { Rating } from "./bands.ts";
import type { BuildUp, NutrientRate, RatePlace } from "./nutrientRate.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";
import { noMatterStep, possibleRows } from "./unknownFact.ts";

/** What changes with the yield: tons (t) over or under the table's own, times what one takes away. */
const correction = z.strictObject({
  perTonne: sourcedNumber.describe("in the rule's rate unit per t of yield"),
  upTo: z.string().describe("the highest class that is corrected; above it the table's rate stands"),
  note: z.string().optional(),
});

const crop = z
  .strictObject({
    when: when.optional(),
    condition: z
      .string()
      .optional()
      .describe("what else the publication states the rates for, such as tops ploughed in; printed, not tested"),
    tableYield: sourcedNumber.optional().describe("t/ha that the table's rates are for"),
    correction: correction.optional(),
    parts: z.array(indexPart).min(1).describe("one, or one for each dose of the year"),
    ...provenance,
  })
  .check(graded)
  .refine((c) => c.correction === undefined || c.tableYield !== undefined, "corrects for yield and needs tableYield")
  .refine(
    (c) => c.correction === undefined || c.parts.length === 1,
    "corrects for yield and must have one part, or the doses would not sum",
  );
export type IndexCrop = z.infer<typeof crop>;

/** A rate by index class and crop: from a table, corrected for yield, or from offtake with steps below the target. */
export const indexOfftakeRule = z
  .strictObject({
    kind: z.literal("indexOfftake"),
    id: z.string(),
    analyte: z.enum(analyteIds),
    nutrient: z.enum(nutrientIds).describe("what the publication prints its rates in: oxides or elements, never turned into the other"),
    unit: z.enum(rateUnits),
    limits,
    roundTo: z
      .number()
      .int()
      .min(0)
      .optional()
      .describe("decimals the result is rounded to before it is classed, where the printed classes leave gaps"),
    on: z.string().optional().describe("the land, where a publication has one set of tables for each, such as grass"),
    indexName: z.string().default("index").describe("what the publication calls a class"),
    indexes: z.array(indexTable).min(1),
    crops: z.array(crop).min(1),
    exceptions: z.array(exception).default([]),
    organicMost: organicMost.optional().describe("the class whose rate organic soil gets at most"),
  })
  .check(({ value, issues }) => {
    const known = new Set(value.indexes.flatMap((t) => t.classes.flatMap((c) => [c.name, ...(c.of === undefined ? [] : [c.of])])));
    const named = [
      ...value.crops.flatMap((c) => [...(c.correction ? [c.correction.upTo] : []), ...c.parts.flatMap(classesOf)]),
      ...value.exceptions.flatMap((e) => e.classes),
      ...(value.organicMost ? [value.organicMost.class] : []),
    ];
    for (const name of new Set(named))
      if (!known.has(name))
        issues.push({ code: "custom", input: value, path: [], message: `names class "${name}", which no index table has` });
  });
export type IndexOfftakeRule = z.infer<typeof indexOfftakeRule>;

const classesOf = (part: IndexPart): string[] => [
  ...Object.keys(part.rates ?? {}),
  ...Object.keys(part.offtake?.add ?? {}),
  ...(part.byYield ?? []).flatMap((y) => Object.keys(y.rates)),
  ...(part.doubtful ?? []).map((d) => d.class),
  ...(part.withheld ?? []).map((w) => w.class),
];

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
