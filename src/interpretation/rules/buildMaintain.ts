import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { boundWords } from "../measurement.ts";
import { plain } from "../show.ts";
import { nutrients } from "../vocabulary.ts";
import { rateAtLevel } from "./buildMaintainLevels.ts";
import { buildUpStep, capped, drawnDown } from "./buildMaintainTerms.ts";
import type { BuildUp, NutrientRate, RatePlace } from "./nutrientRate.ts";
import { cropRemoval } from "./removal.ts";
import type { BuildMaintainRule } from "./buildMaintainRule.ts";

/**
 * The yearly rate, lb/ac of the nutrient (an oxide for P and K).
 * Below the critical level: (critical - test) x lb per unit + removal + extra. From the critical level up to the maintenance
 * limit: removal + extra. At and above the limit: 0, which is an answer; where the rule has a drawdown, removal + extra
 * falls from the limit to 0 along a straight line over the drawdown, and is 0 from there on.
 * A maximum, where the rule has one, cuts off what is above it.
 * No answer outside the limits, without a yield goal where removal is needed, or without CEC where the factor is CEC-linear.
 */
export const rateByBuildMaintain = (rule: BuildMaintainRule, m: Measurement, place: RatePlace): Outcome<NutrientRate> => {
  const rated = rateAtLevel(rule, m, place);
  if (rated.kind === "noAnswer") return rated;
  const { rating, level } = rated.value;
  const { symbol } = nutrients[rule.nutrient];
  const steps: Step[] = [...rated.steps];
  const done = (value: number): Outcome<NutrientRate> => answer({ rate: { value, unit: "lb/ac" }, rating }, steps);

  const above = rating.position === "above";
  if (above && m.value >= (level.end?.value ?? -Infinity)) {
    const { none } = rule.equations;
    const name = level.end ? "the drawdown is over" : rule.classes.above;
    steps.push({
      what: `${name[0]!.toUpperCase()}${name.slice(1)}: nothing is applied`,
      result: `0 lb ${symbol}/ac`,
      source: none.source,
      evidence: none.evidence,
      note: none.note,
    });
    return done(0);
  }
  if (m.qualifier && rating.position !== "within")
    return noAnswer(`${boundWords(m)}, and the rate needs a number`, [`${m.analyte} as a number`]);
  if (!place.facts.crop) return noAnswer("no crop is planned", ["crop"]);
  if (!place.yieldGoal) return noAnswer("no yield goal is set, and the rate replaces what the crop removes", ["yieldGoal"]);
  if (!place.removal) return noAnswer(`${place.pack} holds no removal table`, ["removal"]);
  const removed = cropRemoval(place.removal, place.facts.crop, rule.nutrient, place.yieldGoal, place.pack, place.facts.origins?.yieldGoal);
  if (removed.kind === "noAnswer") return removed;

  const terms: number[] = [];
  if (rating.position === "below") {
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
      note: rule.extra.note,
    });
  }
  const total = terms.reduce((sum, term) => sum + term, 0);
  const used = rating.position === "below" ? rule.equations.buildUp : rule.equations.maintenance;
  const kept = { source: used.source, evidence: used.evidence, note: used.note };
  steps.push({
    what: rating.position === "below" ? "Build-up and removal together, for one year" : "Replace what the crop removes",
    expression: terms.map((t) => plain(t, 1)).join(" + "),
    result: `${plain(total, 1)} lb ${symbol}/ac`,
    ...kept,
  });
  return done(
    capped(rule, level.facts, above && level.end ? drawnDown(rule, m, level.limit.value, level.end.value, total, steps) : total, steps),
  );
};

/**
 * What it takes to reach the critical level, lb/ac of the nutrient: the yearly build-up times its years, or the yearly build-up alone
 * where the rule says no number of years; removal is not in it, and a most for one year does not make it less. 0 from the level up.
 */
export const buildUpByBuildMaintain = (rule: BuildMaintainRule, m: Measurement, place: RatePlace): Outcome<BuildUp> => {
  const rated = rateAtLevel(rule, m, place);
  if (rated.kind === "noAnswer") return rated;
  const { rating, level } = rated.value;
  if (rating.position !== "below") return answer({ amount: { value: 0, unit: "lb/ac" }, over: "all years" }, rated.steps);
  if (m.qualifier) return noAnswer(`${boundWords(m)}, and the amount needs a number`, [`${m.analyte} as a number`]);
  const build = buildUpStep(rule, m, level, rated.steps);
  if (build.kind === "noAnswer") return build;
  const steps = [...rated.steps, ...build.steps];
  const { years } = rule.buildUp;
  if (!years) return answer({ amount: { value: build.value, unit: "lb/ac" }, over: "each year" }, steps);
  const value = build.value * years.value;
  steps.push({
    what: "Build-up over all its years, removal not counted",
    expression: `${plain(build.value, 1)} × ${plain(years.value)}`,
    result: `${plain(value, 1)} lb ${nutrients[rule.nutrient].symbol}/ac`,
    source: years.source,
    evidence: years.evidence,
    note: years.note,
  });
  return answer({ amount: { value, unit: "lb/ac" }, over: "all years", years: years.value }, steps);
};
