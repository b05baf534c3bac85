import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { measurementLabel } from "../measurement.ts";
import { plain } from "../show.ts";
import { convert, rateUnits, sameDimension } from "../units.ts";
import type { CropId } from "../vocabulary.ts";
import { analyteIds, crops, nutrientIds, nutrients } from "../vocabulary.ts";
import type { Band, Rating } from "./bands.ts";
import { bandOfMeasurement, positions, resultStep } from "./bands.ts";
import type { Facts } from "./conditions.ts";
import { conditionLabel, conditionSteps, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { limits, outsideLimits } from "./limits.ts";
import type { Dose, NutrientRate, RatePlace } from "./nutrientRate.ts";
import type { IndexPart } from "./indexRates.ts";
import { indexPart, partRate } from "./indexRates.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";

/** An index class: a band that may be one half of a whole class, such as 2- and 2+ of 2. */
const indexClass = z
  .strictObject({
    name: z.string().min(1),
    of: z.string().min(1).optional().describe("the whole class this one is a part of: crops whose table is not split read that"),
    position: z.enum(positions).optional(),
    from: z.number().optional(),
    above: z.number().optional(),
  })
  .refine((c) => c.from === undefined || c.above === undefined, "has both from and above; keep one");
export type IndexClass = z.infer<typeof indexClass>;

const startOf = (c: IndexClass): number => c.from ?? c.above ?? -Infinity;

const indexTable = z
  .strictObject({
    when: when.optional(),
    classes: z
      .array(indexClass)
      .min(2)
      .refine(
        (all) => all.every((c, i) => (i === 0 ? startOf(c) === -Infinity : startOf(c) > startOf(all[i - 1]!))),
        "must rise: the first class without from or above, each later one beginning higher",
      ),
    ...provenance,
  })
  .check(graded);

/** What changes with the yield: tons (t) over or under the table's own, times what one takes away. */
const correction = z.strictObject({
  perTonne: sourcedNumber.describe("in the rule's rate unit per t of yield"),
  upTo: z.string().describe("the highest class that is corrected; above it the table's rate stands"),
  note: z.string().optional(),
});

const crop = z
  .strictObject({
    when: when.optional(),
    condition: z.string().optional().describe("what else the publication states the rates for, such as tops ploughed in; printed, not tested"),
    tableYield: sourcedNumber.optional().describe("t/ha that the table's rates are for"),
    correction: correction.optional(),
    parts: z.array(indexPart).min(1).describe("one, or one for each dose of the year"),
    ...provenance,
  })
  .check(graded)
  .refine((c) => c.correction === undefined || c.tableYield !== undefined, "corrects for yield and needs tableYield")
  .refine((c) => c.correction === undefined || c.parts.length === 1, "corrects for yield and must have one part, or the doses would not sum");
export type IndexCrop = z.infer<typeof crop>;

/** In place of the table's rate, where a second condition holds: it may reopen a zero, or close a rate. */
const exception = z
  .strictObject({
    when: when.optional(),
    classes: z.array(z.string()).min(1).describe("the classes it holds in"),
    testAbove: z.number().optional().describe("it also needs a result above this, in the rule's test unit"),
    rate: z.number().nonnegative(),
    ...provenance,
  })
  .check(graded);

/** A rate by index class and crop: from a table, corrected for yield, or from offtake with steps below the target. */
export const indexOfftakeRule = z
  .strictObject({
    kind: z.literal("indexOfftake"),
    id: z.string(),
    analyte: z.enum(analyteIds),
    nutrient: z.enum(nutrientIds).describe("what the publication prints its rates in: oxides or elements, never turned into the other"),
    unit: z.enum(rateUnits),
    limits,
    roundTo: z.number().int().min(0).optional().describe("decimals the result is rounded to before it is classed, where the printed classes leave gaps"),
    on: z.string().optional().describe("the land, where a publication has one set of tables for each, such as grass"),
    indexName: z.string().default("index").describe("what the publication calls a class"),
    indexes: z.array(indexTable).min(1),
    crops: z.array(crop).min(1),
    exceptions: z.array(exception).default([]),
  })
  .check(({ value, issues }) => {
    const known = new Set(value.indexes.flatMap((t) => t.classes.flatMap((c) => [c.name, ...(c.of === undefined ? [] : [c.of])])));
    const named = [
      ...value.crops.flatMap((c) => [...(c.correction ? [c.correction.upTo] : []), ...c.parts.flatMap(classesOf)]),
      ...value.exceptions.flatMap((e) => e.classes),
    ];
    for (const name of new Set(named))
      if (!known.has(name)) issues.push({ code: "custom", input: value, path: [], message: `names class "${name}", which no index table has` });
  });
export type IndexOfftakeRule = z.infer<typeof indexOfftakeRule>;

const classesOf = (part: IndexPart): string[] => [
  ...Object.keys(part.rates ?? {}),
  ...Object.keys(part.offtake?.add ?? {}),
  ...(part.byYield ?? []).flatMap((y) => Object.keys(y.rates)),
  ...(part.doubtful ?? []).map((d) => d.class),
  ...(part.withheld ?? []).map((w) => w.class),
];

/** The classes that hold for a place. */
export const classesFor = (rule: IndexOfftakeRule, facts: Facts, pack: string): Outcome<z.infer<typeof indexTable>> => {
  const chosen = firstMatch(rule.indexes, facts);
  if (chosen.found) return answer(chosen.found, []);
  return chosen.missing
    ? noAnswer(`${missingFactLabel(chosen.missing)} is not known, and ${pack} sets the classes by it`, [chosen.missing])
    : noAnswer(`${pack} has no classes for this crop or soil`, ["a guideline for this crop and soil"]);
};

/** The classes as bands, for a chart, a map and the rating. */
export const bandsOfIndex = (rule: IndexOfftakeRule, classes: readonly IndexClass[]): Band[] =>
  classes.map((c) => ({ name: `${rule.indexName} ${c.name}`.trim(), position: c.position, from: c.from, above: c.above }));

/**
 * The index class of a result. Test value in the rule's unit in, class out; with `roundTo` the value is rounded first.
 * A value on a printed lower bound belongs to the class that begins there. No answer outside the rule's limits, where a
 * fact that decides the classes is missing, or where a "<" or ">" result spans classes.
 */
export const rateByIndex = (rule: IndexOfftakeRule, m: Measurement, facts: Facts, pack: string): Outcome<Rating> => {
  const outside = outsideLimits(rule.limits, m, facts.crop, pack);
  if (outside) return outside;
  const table = classesFor(rule, facts, pack);
  if (table.kind === "noAnswer") return table;
  const { classes } = table.value;
  const rating = bandOfMeasurement(m, bandsOfIndex(rule, classes), rule.roundTo);
  if (!rating) return noAnswer(`the laboratory says ${measurementLabel(m)}, which spans more than one class`, [`${m.analyte} as a number`]);
  const condition = conditionLabel(table.value.when);
  const bounds = classes.map((c) => (c.from !== undefined ? `${c.name} from ${plain(c.from)}` : c.above !== undefined ? `${c.name} above ${plain(c.above)}` : c.name));
  return answer(rating, [
    resultStep(m, "Laboratory result"),
    {
      what: condition ? `Classes for ${condition}` : "Classes",
      expression: `${bounds.join(", ")} ${rule.limits.unit}`,
      result: rating.band,
      source: table.value.source,
      evidence: table.value.evidence,
      ...(table.value.note && { note: table.value.note }),
    },
  ]);
};

/**
 * The rate for the season, in the rule's own unit and nutrient form (an oxide or an element), never below zero.
 * Result -> class -> the crop's table, or offtake and steps -> correction for yield, at the class the publication names
 * and below -> doses. A second condition may put another rate in its place.
 * No answer outside the limits, for a crop or class the publication leaves out, between two facts that are not known,
 * without a yield where the rate depends on it, or outside the yields that are printed.
 */
export const rateByIndexOfftake = (rule: IndexOfftakeRule, m: Measurement, place: RatePlace): Outcome<NutrientRate> => {
  const { facts, pack } = place;
  const rated = rateByIndex(rule, m, facts, pack);
  if (rated.kind === "noAnswer") return rated;
  const table = classesFor(rule, facts, pack);
  if (table.kind === "noAnswer") return table;
  const at = table.value.classes[rated.value.rank]!;
  if (!facts.crop) return noAnswer("no crop is planned", ["crop"]);
  const chosen = firstMatch(rule.crops, facts);
  if (!chosen.found) return noCrop(rule, chosen.missing, facts.crop, pack);
  const row = chosen.found;
  const steps: Step[] = [...rated.steps, ...conditionSteps(row.when, facts)];

  const except = exceptionFor(rule, m, at, facts, pack);
  if (except.kind === "noAnswer") return except;
  if (except.value) {
    const { symbol } = nutrients[rule.nutrient];
    const from = { source: except.value.source, evidence: except.value.evidence, ...(except.value.note && { note: except.value.note }) };
    const what = [conditionLabel(except.value.when), except.value.testAbove !== undefined && `result above ${plain(except.value.testAbove)} ${rule.limits.unit}`];
    steps.push(...conditionSteps(except.value.when, facts));
    steps.push({ what: `In place of the table, for ${what.filter(Boolean).join(", ")}`, result: `${plain(except.value.rate)} ${rule.unit} ${symbol}`, ...from });
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
    steps.push({ what: "The doses of the season together", expression: doses.map((d) => plain(d.value, 1)).join(" + "), result: `${plain(total, 1)} ${rule.unit} ${nutrients[rule.nutrient].symbol}` });
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

const noCrop = (rule: IndexOfftakeRule, missing: string | undefined, crop: CropId, pack: string): Outcome<never> => {
  const wanted = `${nutrients[rule.nutrient].label.toLowerCase()} table`;
  return missing
    ? noAnswer(`${missingFactLabel(missing)} is not known, and the ${wanted} of ${pack} depends on it`, [missing])
    : noAnswer(`${pack} has no ${wanted} for ${crops[crop].label}`, [`a guideline for ${crops[crop].label}`]);
};

/** The exception that holds, if one does. A fact that an exception for this class asks for must be known. */
const exceptionFor = (rule: IndexOfftakeRule, m: Measurement, at: IndexClass, facts: Facts, pack: string): Outcome<z.infer<typeof exception> | undefined> => {
  const possible = rule.exceptions.filter((e) => e.classes.includes(at.name) || (at.of !== undefined && e.classes.includes(at.of)));
  for (const each of possible) {
    const chosen = firstMatch([each], facts);
    if (!chosen.found) {
      if (chosen.missing) return noAnswer(`${missingFactLabel(chosen.missing)} is not known, and ${pack} decides by it in this class`, [chosen.missing]);
      continue;
    }
    if (each.testAbove === undefined) return answer(each, []);
    if (m.qualifier && !(m.qualifier === ">" && m.value >= each.testAbove) && !(m.qualifier === "<" && m.value <= each.testAbove))
      return noAnswer(`the laboratory says ${measurementLabel(m)}, and ${pack} decides by whether it is above ${plain(each.testAbove)}`, [`${m.analyte} as a number`]);
    if (m.qualifier === ">" || (m.qualifier === undefined && m.value > each.testAbove)) return answer(each, []);
  }
  return answer(undefined, []);
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
export const coversCrop = (rule: IndexOfftakeRule, crop: CropId): boolean => rule.crops.some((c) => c.when?.crops === undefined || c.when.crops.includes(crop));
