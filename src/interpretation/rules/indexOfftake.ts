import * as z from "zod";
import type { Answer, Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { plain } from "../show.ts";
import { convert, rateUnits, sameDimension } from "../units.ts";
import type { CropId } from "../vocabulary.ts";
import { analyteIds, crops, nutrientIds, nutrients } from "../vocabulary.ts";
import { conditionLabel, conditionSteps, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { classesFor, indexTable, rateByIndex } from "./indexClasses.ts";
import { exception, exceptionFor } from "./indexExceptions.ts";
import type { IndexPart } from "./indexRates.ts";
import { indexPart, partRate } from "./indexRates.ts";
import { classOnOrganic, organicMost } from "./indexOrganic.ts";
import { limits } from "./limits.ts";
import type { Rating } from "./bands.ts";
import type { BuildUp, Dose, NutrientRate, RatePlace } from "./nutrientRate.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";

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
  if (!chosen.found) return noCrop(rule, chosen.missing, facts.crop, pack);
  const row = chosen.found;
  const steps: Step[] = [...rated.steps, ...allowed.steps, ...conditionSteps(row.when, facts)];

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
    return answer({ rate: { value: except.value.rate, unit: rule.unit }, rating: rated.value }, steps);
  }

  const yieldTonnes = yieldIn(facts.crop, place);
  const doses: Dose[] = [];
  const doubts: string[] = [];
  const { crop: grown } = facts;
  const parts = row.parts.filter((part) => part.crops === undefined || part.crops.includes(grown));
  for (const part of parts) {
    const read = partRate(part, { classes: table.value.classes, at, row, rule, crop: facts.crop, yieldTonnes, pack });
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
  return answer(
    {
      rate: { value: total, unit: rule.unit },
      rating: rated.value,
      ...(parts.length > 1 && split.length > 0 && { doses: split }),
      ...(doubts.length > 0 && { doubt: doubts.join(" ") }),
    },
    steps,
  );
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

/** Does one of the rule's tables name this crop? A guideline's rules for other crops have no say in it. */
export const coversCrop = (rule: IndexOfftakeRule, crop: CropId): boolean =>
  rule.crops.some((c) => c.when?.crops === undefined || c.when.crops.includes(crop));
