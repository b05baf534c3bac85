import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { measurementLabel } from "../measurement.ts";
import { plain } from "../show.ts";
import { analyteIds, analyteInSentence, nutrientIds, nutrients } from "../vocabulary.ts";
import type { Band, Rating } from "./bands.ts";
import { bandOfMeasurement, resultStep } from "./bands.ts";
import type { Facts } from "./conditions.ts";
import { conditionLabel, conditionSteps, factLabel, factStep, firstMatch, meets, missingFactLabel, when } from "./conditions.ts";
import { assumptionSteps, limits, outsideLimits } from "./limits.ts";
import type { NutrientRate, RatePlace } from "./nutrientRate.ts";
import { cropRemoval } from "./removal.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";

/** A number, or one that rises with the cation exchange capacity (meq/100 g). */
const critical = z.union([sourcedNumber, z.strictObject({ intercept: z.number(), perCec: z.number(), ...provenance }).check(graded)]);

const level = z
  .strictObject({
    when: when.optional(),
    critical: critical.describe("critical level: below it the soil is built up"),
    maintenanceLimit: sourcedNumber.optional().describe("maintenance limit: at and above it nothing is applied, or the drawdown begins"),
    plateau: sourcedNumber.optional().describe("the same limit as units of test above the critical level"),
    atLimit: z.literal("maintain").optional().describe("where a test exactly at the limit is still maintained"),
    drawdown: sourcedNumber.optional().describe("units of test above the limit over which maintenance falls to nothing"),
  })
  .refine((l) => (l.maintenanceLimit === undefined) !== (l.plateau === undefined), "needs either maintenanceLimit or plateau")
  .refine((l) => l.maintenanceLimit === undefined || !("value" in l.critical) || l.critical.value < l.maintenanceLimit.value, "the maintenance limit must be above the critical level")
  .refine((l) => (l.plateau?.value ?? 1) >= 0 && (l.drawdown?.value ?? 1) > 0, "the plateau must not be negative, and the drawdown must be above 0");

/** lb per acre and year for each unit of test below the critical level: a constant, or linear in CEC. */
const perUnit = z.union([
  z.strictObject({ value: z.number().positive(), ...provenance }).check(graded),
  z.strictObject({ intercept: z.number(), perCec: z.number(), ...provenance }).check(graded),
]);

const equation = z.strictObject(provenance).check(graded);

/**
 * Build up to a critical level, keep by replacing crop removal, stop at a maintenance limit: at once (2020), or falling to
 * nothing over a drawdown range (1995).
 */
export const buildMaintainRule = z.strictObject({
  kind: z.literal("buildMaintain"),
  id: z.string(),
  analyte: z.enum(analyteIds),
  nutrient: z.enum(nutrientIds),
  limits,
  levels: z.array(level).min(1),
  classes: z
    .strictObject({ below: z.string(), within: z.string(), above: z.string(), ...provenance })
    .check(graded)
    .describe("the publication's names for the three ranges"),
  buildUp: z.strictObject({ perUnit, years: sourcedNumber.optional() }),
  extra: sourcedNumber.optional().describe("lb/ac added to removal wherever anything is applied"),
  cecInstead: z
    .array(z.strictObject({ when, value: z.number().positive(), ...provenance }).check(graded))
    .optional()
    .describe("soils for which a set CEC is read instead of the measured one; used only where the place is known to be such"),
  maximum: z
    .array(z.strictObject({ when: when.optional(), value: z.number().positive(), ...provenance }).check(graded))
    .optional()
    .describe("the most to apply in a year, lb/ac"),
  equations: z.strictObject({ buildUp: equation, maintenance: equation, drawdown: equation.optional(), none: equation }),
})
  .refine((r) => r.equations.drawdown !== undefined || r.levels.every((l) => l.drawdown === undefined), "has a drawdown and no equation for it");
export type BuildMaintainRule = z.infer<typeof buildMaintainRule>;

/** How the CEC is called in a line of the sum, so that it stands there once. */
const cecWord = factLabel("cec");

type Sourced = z.infer<typeof sourcedNumber>;

/** The levels that hold for one place, in test units. */
export interface Level {
  readonly critical: Sourced;
  readonly limit: Sourced;
  readonly atLimit: "maintain" | undefined;
  /** Nothing is applied at and above it; absent where the limit itself is the end. */
  readonly end: Sourced | undefined;
  /** The facts the levels were read with: a CEC that the rule sets instead of the measured one stands in them. */
  readonly facts: Facts;
}

/** The rule's three ranges as bands: the critical level belongs to the middle one, the maintenance limit to the top unless `atLimit` says otherwise. */
export const bandsOfLevel = (rule: BuildMaintainRule, { critical: lowest, limit, atLimit }: Level): Band[] =>
  [
    { name: rule.classes.below, position: "below" as const },
    { name: rule.classes.within, position: "within" as const, from: lowest.value },
    { name: rule.classes.above, position: "above" as const, ...(atLimit ? { above: limit.value } : { from: limit.value }) },
  ].filter((_, i) => i !== 1 || lowest.value < limit.value);

/** The CEC to read a rule with: the soil's own, or the one the rule sets for such soils, each with its line in the sum. */
const cecFor = (rule: BuildMaintainRule, facts: Facts): { facts: Facts; steps: Step[] } => {
  const steps: Step[] = [];
  for (const set of rule.cecInstead ?? []) {
    const match = meets(set.when, facts);
    const from = { source: set.source, evidence: set.evidence, ...(set.note && { note: set.note }) };
    if (match.matches)
      return {
        facts: { ...facts, cec: set.value },
        steps: [...conditionSteps(set.when, facts), { what: `CEC read for ${conditionLabel(set.when)}`, result: `${plain(set.value)} meq/100 g`, ...from }],
      };
    if (match.missing !== undefined)
      steps.push({ what: `CEC is set for ${conditionLabel(set.when)}`, result: `not used: ${missingFactLabel(match.missing)} is not known`, ...from });
  }
  if (facts.cec !== undefined) steps.push(factStep("cec", facts));
  return { facts, steps };
};

const readsCec = (rule: BuildMaintainRule, chosen: z.infer<typeof level>): boolean => chosen.when?.cec !== undefined || !("value" in chosen.critical) || rule.cecInstead !== undefined;

/** The level that holds for a place, with its lines in the sum, or why none does. */
export const levelFor = (rule: BuildMaintainRule, known: Facts, pack: string): Outcome<Level> => {
  const { facts, steps: cecSteps } = cecFor(rule, known);
  const needs = (fact: string): Outcome<Level> =>
    noAnswer(`${missingFactLabel(fact)} is not known, and ${pack} sets the ${analyteInSentence(rule.analyte)} level by it`, [fact]);
  const choice = firstMatch(rule.levels, facts);
  const { found } = choice;
  if (!found) return choice.missing ? needs(choice.missing) : noAnswer(`${pack} gives no critical level for this crop and soil`, ["a guideline for this crop and soil"]);
  const steps = [...(readsCec(rule, found) ? cecSteps : []), ...conditionSteps(found.when, facts).filter((s) => !readsCec(rule, found) || s.what !== cecWord)];
  const condition = conditionLabel(found.when);
  const { unit } = rule.limits;
  const named = (what: string, of: Omit<Sourced, "value">, value: number, expression?: string): void => {
    steps.push({
      what: condition ? `${what} for ${condition}` : what,
      ...(expression && { expression }),
      result: `${plain(value)} ${unit}`,
      source: of.source,
      evidence: of.evidence,
      ...(of.note && { note: of.note }),
    });
  };
  let lowest: Sourced;
  if ("value" in found.critical) {
    lowest = found.critical;
    named("Critical level", lowest, lowest.value);
  } else {
    if (facts.cec === undefined) return needs("cec");
    const { intercept, perCec, ...from } = found.critical;
    lowest = { value: intercept + perCec * facts.cec, ...from };
    named("Critical level", from, lowest.value, `${plain(intercept)} + ${plain(perCec)} × ${plain(facts.cec)} meq/100 g`);
  }
  const limit = found.maintenanceLimit ?? { ...found.plateau!, value: lowest.value + found.plateau!.value };
  named("Maintenance limit", limit, limit.value, found.plateau && `${plain(lowest.value)} + ${plain(found.plateau.value)}`);
  const { drawdown } = found;
  const end = drawdown && { ...drawdown, value: limit.value + drawdown.value };
  if (end) named("Nothing from", end, end.value, `${plain(limit.value)} + ${plain(drawdown.value)}`);
  return answer({ critical: lowest, limit, atLimit: found.atLimit, end, facts }, steps);
};

/**
 * Rate a result against the critical level and the maintenance limit. Test units in, class out.
 * A result equal to the critical level is in the middle range; one equal to the limit is in the top one, unless the rule says otherwise.
 */
export const rateByLevels = (rule: BuildMaintainRule, m: Measurement, place: RatePlace): Outcome<Rating> => {
  const outside = outsideLimits(rule.limits, m, place.facts.crop, place.pack);
  if (outside) return outside;
  const chosen = levelFor(rule, place.facts, place.pack);
  if (chosen.kind === "noAnswer") return chosen;
  const rating = bandOfMeasurement(m, bandsOfLevel(rule, chosen.value));
  if (!rating)
    return noAnswer(`the laboratory says ${measurementLabel(m)}, which may lie on either side of a level`, [`${m.analyte} as a number`]);
  return answer(rating, [resultStep(m, "Laboratory result"), ...assumptionSteps(rule.limits), ...chosen.steps]);
};

/**
 * The yearly rate, lb/ac of the nutrient (an oxide for P and K).
 * Below the critical level: (critical - test) x lb per unit + removal + extra. From the critical level up to the maintenance
 * limit: removal + extra. At and above the limit: 0, which is an answer; where the rule has a drawdown, removal + extra
 * falls from the limit to 0 along a straight line over the drawdown, and is 0 from there on.
 * A maximum, where the rule has one, cuts off what is above it.
 * No answer outside the limits, without a yield goal where removal is needed, or without CEC where the factor is CEC-linear.
 */
export const rateByBuildMaintain = (rule: BuildMaintainRule, m: Measurement, place: RatePlace): Outcome<NutrientRate> => {
  const rated = rateByLevels(rule, m, place);
  if (rated.kind === "noAnswer") return rated;
  const chosen = levelFor(rule, place.facts, place.pack);
  if (chosen.kind === "noAnswer") return chosen;
  const level = chosen.value;
  const { symbol } = nutrients[rule.nutrient];
  const steps: Step[] = [...rated.steps];
  const done = (value: number): Outcome<NutrientRate> =>
    answer({ rate: { value, unit: "lb/ac" }, rating: rated.value }, steps);

  const above = rated.value.position === "above";
  if (above && m.value >= (level.end?.value ?? -Infinity)) {
    const { none } = rule.equations;
    const name = level.end ? "the drawdown is over" : rule.classes.above;
    steps.push({
      what: `${name[0]!.toUpperCase()}${name.slice(1)}: nothing is applied`,
      result: `0 lb ${symbol}/ac`,
      source: none.source,
      evidence: none.evidence,
      ...(none.note && { note: none.note }),
    });
    return done(0);
  }
  if (m.qualifier && rated.value.position !== "within")
    return noAnswer(`the laboratory says ${measurementLabel(m)}, and the rate needs a number`, [`${m.analyte} as a number`]);
  if (!place.facts.crop) return noAnswer("no crop is planned", ["crop"]);
  if (!place.yieldGoal) return noAnswer("no yield goal is set, and the rate replaces what the crop removes", ["yieldGoal"]);
  if (!place.removal) return noAnswer(`${place.pack} holds no removal table`, ["removal"]);
  const removed = cropRemoval(place.removal, place.facts.crop, rule.nutrient, place.yieldGoal, place.pack, place.facts.origins?.yieldGoal);
  if (removed.kind === "noAnswer") return removed;

  const terms: number[] = [];
  if (rated.value.position === "below") {
    const build = buildUpStep(rule, m, level, steps);
    if (build.kind === "noAnswer") return build;
    terms.push(build.value);
    steps.push(...build.steps);
  }
  terms.push(removed.value);
  steps.push(...removed.steps);
  if (rule.extra) {
    terms.push(rule.extra.value);
    steps.push({
      what: "Added to removal",
      result: `${plain(rule.extra.value)} lb/ac`,
      source: rule.extra.source,
      evidence: rule.extra.evidence,
      ...(rule.extra.note && { note: rule.extra.note }),
    });
  }
  const total = terms.reduce((sum, term) => sum + term, 0);
  const used = rated.value.position === "below" ? rule.equations.buildUp : rule.equations.maintenance;
  const kept = { source: used.source, evidence: used.evidence, ...(used.note && { note: used.note }) };
  steps.push({
    what: rated.value.position === "below" ? "Build-up and removal together, for one year" : "Replace what the crop removes",
    expression: terms.map((t) => plain(t, 1)).join(" + "),
    result: `${plain(total, 1)} lb ${symbol}/ac`,
    ...kept,
  });
  return done(capped(rule, level.facts, above && level.end ? drawnDown(rule, m, level.limit.value, level.end.value, total, steps) : total, steps));
};

/** Maintenance falling to nothing along a straight line from the limit to the end of the drawdown. */
const drawnDown = (rule: BuildMaintainRule, m: Measurement, limit: number, end: number, maintenance: number, steps: Step[]): number => {
  const value = maintenance * (1 - (m.value - limit) / (end - limit));
  const { source, evidence, note } = rule.equations.drawdown!;
  steps.push({
    what: "Drawdown: less than removal, so that the test falls",
    expression: `${plain(maintenance, 1)} − ${plain(maintenance, 1)} × (${plain(m.value)} − ${plain(limit)}) ÷ ${plain(end - limit)}`,
    result: `${plain(value, 1)} lb ${nutrients[rule.nutrient].symbol}/ac`,
    source,
    evidence,
    ...(note && { note }),
  });
  return value;
};

const capped = (rule: BuildMaintainRule, facts: Facts, value: number, steps: Step[]): number => {
  const most = firstMatch(rule.maximum ?? [], facts).found;
  if (!most || value <= most.value) return value;
  steps.push({
    what: `The most to apply in one year${most.when ? `, for ${conditionLabel(most.when)}` : ""}`,
    expression: `${plain(value, 1)}, at most ${plain(most.value)}`,
    result: `${plain(most.value)} lb ${nutrients[rule.nutrient].symbol}/ac`,
    source: most.source,
    evidence: most.evidence,
    ...(most.note && { note: most.note }),
  });
  return most.value;
};

/** (critical - test) x lb per unit of test, with the factor's own line where it depends on CEC. */
const buildUpStep = (rule: BuildMaintainRule, m: Measurement, level: Level, before: readonly Step[]): Outcome<number> => {
  const { perUnit: factor } = rule.buildUp;
  const steps: Step[] = [];
  let pounds: number;
  const unit = `lb ${nutrients[rule.nutrient].symbol}/ac per ${rule.limits.unit}`;
  const graded = { source: factor.source, evidence: factor.evidence, ...(factor.note && { note: factor.note }) };
  if ("value" in factor) {
    pounds = factor.value;
    steps.push({ what: "To raise the test by one unit, each year", result: `${plain(pounds)} ${unit}`, ...graded });
  } else {
    const { cec } = level.facts;
    if (cec === undefined) return noAnswer("the cation exchange capacity is not known, and build-up depends on it", ["cec"]);
    pounds = factor.intercept + factor.perCec * cec;
    if (!before.some((s) => s.what === cecWord)) steps.push(factStep("cec", level.facts));
    steps.push({
      what: "To raise the test by one unit, each year, at this CEC",
      expression: `${plain(factor.intercept)} + ${plain(factor.perCec)} × ${plain(cec)} meq/100 g`,
      result: `${plain(pounds)} ${unit}`,
      ...graded,
    });
  }
  const lowest = level.critical.value;
  const value = (lowest - m.value) * pounds;
  const { years } = rule.buildUp;
  steps.push({
    what: years ? `Build-up towards the critical level, one of ${plain(years.value)} years` : "Build-up towards the critical level",
    expression: `(${plain(lowest)} − ${plain(m.value)}) × ${plain(pounds)}`,
    result: `${plain(value, 1)} lb/ac`,
    ...(years && { source: years.source, evidence: years.evidence }),
  });
  return answer(value, steps);
};
