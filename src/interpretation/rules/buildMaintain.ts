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
import { conditionLabel, conditionSteps, factStep, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { limits, outsideLimits } from "./limits.ts";
import type { NutrientRate, RatePlace } from "./nutrientRate.ts";
import { cropRemoval } from "./removal.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";

const level = z
  .strictObject({
    when: when.optional(),
    critical: sourcedNumber.describe("critical level: below it the soil is built up"),
    maintenanceLimit: sourcedNumber.describe("maintenance limit: at and above it nothing is applied"),
  })
  .refine((l) => l.critical.value < l.maintenanceLimit.value, "the maintenance limit must be above the critical level");

/** lb per acre and year for each unit of test below the critical level: a constant, or linear in CEC. */
const perUnit = z.union([
  z.strictObject({ value: z.number().positive(), ...provenance }).check(graded),
  z.strictObject({ intercept: z.number(), perCec: z.number(), ...provenance }).check(graded),
]);

const equation = z.strictObject(provenance).check(graded);

/** Build up to a critical level, keep by replacing crop removal, stop at a maintenance limit. */
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
  equations: z.strictObject({ buildUp: equation, maintenance: equation, none: equation }),
});
export type BuildMaintainRule = z.infer<typeof buildMaintainRule>;

/** The rule's three ranges as bands: the critical level belongs to the middle one, the maintenance limit to the top. */
export const bandsOfLevel = (rule: BuildMaintainRule, chosen: z.infer<typeof level>): Band[] => [
  { name: rule.classes.below, position: "below" },
  { name: rule.classes.within, position: "within", from: chosen.critical.value },
  { name: rule.classes.above, position: "above", from: chosen.maintenanceLimit.value },
];

/** The level that holds for a place, or why none does. */
export const levelFor = (rule: BuildMaintainRule, facts: Facts, pack: string): Outcome<z.infer<typeof level>> => {
  const chosen = firstMatch(rule.levels, facts);
  if (chosen.found) return answer(chosen.found, []);
  return chosen.missing
    ? noAnswer(`${missingFactLabel(chosen.missing)} is not known, and ${pack} sets the ${analyteInSentence(rule.analyte)} level by it`, [
        chosen.missing,
      ])
    : noAnswer(`${pack} gives no critical level for this crop and soil`, ["a guideline for this crop and soil"]);
};

/**
 * Rate a result against the critical level and the maintenance limit. Test units in, class out.
 * A result equal to the critical level is in the middle range, one equal to the limit in the top one.
 */
export const rateByLevels = (rule: BuildMaintainRule, m: Measurement, place: RatePlace): Outcome<Rating> => {
  const outside = outsideLimits(rule.limits, m, place.facts.crop, place.pack);
  if (outside) return outside;
  const chosen = levelFor(rule, place.facts, place.pack);
  if (chosen.kind === "noAnswer") return chosen;
  const rating = bandOfMeasurement(m, bandsOfLevel(rule, chosen.value));
  if (!rating)
    return noAnswer(`the laboratory says ${measurementLabel(m)}, which may lie on either side of a level`, [`${m.analyte} as a number`]);
  return answer(rating, [resultStep(m, "Laboratory result"), ...conditionSteps(chosen.value.when, place.facts), ...levelSteps(rule, chosen.value)]);
};

const levelSteps = (rule: BuildMaintainRule, chosen: z.infer<typeof level>): Step[] => {
  const condition = conditionLabel(chosen.when);
  const named = (what: string, of: z.infer<typeof sourcedNumber>): Step => ({
    what: condition ? `${what} for ${condition}` : what,
    result: `${plain(of.value)} ${rule.limits.unit}`,
    source: of.source,
    evidence: of.evidence,
    ...(of.note && { note: of.note }),
  });
  return [named("Critical level", chosen.critical), named("Maintenance limit", chosen.maintenanceLimit)];
};

/**
 * The yearly rate, lb/ac of the nutrient (an oxide for P and K).
 * Below the critical level: (critical - test) x lb per unit + removal + extra. From the critical level up to, but not
 * including, the maintenance limit: removal + extra. At and above the limit: 0, which is an answer.
 * No answer outside the limits, without a yield goal where removal is needed, or without CEC where the factor is CEC-linear.
 */
export const rateByBuildMaintain = (rule: BuildMaintainRule, m: Measurement, place: RatePlace): Outcome<NutrientRate> => {
  const rated = rateByLevels(rule, m, place);
  if (rated.kind === "noAnswer") return rated;
  const { symbol } = nutrients[rule.nutrient];
  const steps: Step[] = [...rated.steps];
  const done = (value: number): Outcome<NutrientRate> =>
    answer({ rate: { value, unit: "lb/ac" }, rating: rated.value }, steps);

  if (rated.value.position === "above") {
    const { none } = rule.equations;
    steps.push({
      what: `${rule.classes.above[0]!.toUpperCase()}${rule.classes.above.slice(1)}: nothing is applied`,
      result: `0 lb ${symbol}/ac`,
      source: none.source,
      evidence: none.evidence,
      ...(none.note && { note: none.note }),
    });
    return done(0);
  }
  if (m.qualifier && rated.value.position === "below")
    return noAnswer(`the laboratory says ${measurementLabel(m)}, and the rate needs a number`, [`${m.analyte} as a number`]);
  if (!place.facts.crop) return noAnswer("no crop is planned", ["crop"]);
  if (!place.yieldGoal) return noAnswer("no yield goal is set, and the rate replaces what the crop removes", ["yieldGoal"]);
  if (!place.removal) return noAnswer(`${place.pack} holds no removal table`, ["removal"]);
  const removed = cropRemoval(place.removal, place.facts.crop, rule.nutrient, place.yieldGoal, place.pack, place.facts.origins?.yieldGoal);
  if (removed.kind === "noAnswer") return removed;

  const terms: number[] = [];
  if (rated.value.position === "below") {
    const build = buildUpStep(rule, m, place);
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
  steps.push({
    what: rated.value.position === "below" ? "Build-up and removal together, for one year" : "Replace what the crop removes",
    expression: terms.map((t) => plain(t, 1)).join(" + "),
    result: `${plain(total, 1)} lb ${symbol}/ac`,
    source: used.source,
    evidence: used.evidence,
    ...(used.note && { note: used.note }),
  });
  return done(total);
};

/** (critical - test) x lb per unit of test, with the factor's own line where it depends on CEC. */
const buildUpStep = (rule: BuildMaintainRule, m: Measurement, place: RatePlace): Outcome<number> => {
  const chosen = levelFor(rule, place.facts, place.pack);
  if (chosen.kind === "noAnswer") return chosen;
  const { perUnit: factor } = rule.buildUp;
  const steps: Step[] = [];
  let pounds: number;
  const unit = `lb ${nutrients[rule.nutrient].symbol}/ac per ${rule.limits.unit}`;
  const graded = { source: factor.source, evidence: factor.evidence, ...(factor.note && { note: factor.note }) };
  if ("value" in factor) {
    pounds = factor.value;
    steps.push({ what: "To raise the test by one unit, each year", result: `${plain(pounds)} ${unit}`, ...graded });
  } else {
    const { cec } = place.facts;
    if (cec === undefined) return noAnswer("the cation exchange capacity is not known, and build-up depends on it", ["cec"]);
    pounds = factor.intercept + factor.perCec * cec;
    if (!chosen.value.when?.cec) steps.push(factStep("cec", place.facts));
    steps.push({
      what: "To raise the test by one unit, each year, at this CEC",
      expression: `${plain(factor.intercept)} + ${plain(factor.perCec)} × ${plain(cec)} meq/100 g`,
      result: `${plain(pounds)} ${unit}`,
      ...graded,
    });
  }
  const { critical } = chosen.value;
  const value = (critical.value - m.value) * pounds;
  const { years } = rule.buildUp;
  steps.push({
    what: years ? `Build-up towards the critical level, one of ${plain(years.value)} years` : "Build-up towards the critical level",
    expression: `(${plain(critical.value)} − ${plain(m.value)}) × ${plain(pounds)}`,
    result: `${plain(value, 1)} lb/ac`,
    ...(years && { source: years.source, evidence: years.evidence }),
  });
  return answer(value, steps);
};
