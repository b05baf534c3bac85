import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { plain } from "../show.ts";
import { nutrients } from "../vocabulary.ts";
import type { Level } from "./buildMaintainLevels.ts";
import { cecWord } from "./buildMaintainLevels.ts";
import { conditionLabel, factStep, firstMatch } from "./conditions.ts";
import type { BuildMaintainRule } from "./buildMaintainRule.ts";
import type { Facts } from "./facts.ts";

/** Maintenance falling to nothing along a straight line from the limit to the end of the drawdown. */
export const drawnDown = (
  rule: BuildMaintainRule,
  m: Measurement,
  limit: number,
  end: number,
  maintenance: number,
  steps: Step[],
): number => {
  const value = maintenance * (1 - (m.value - limit) / (end - limit));
  const { source, evidence, note } = rule.equations.drawdown!;
  steps.push({
    what: "Drawdown: less than removal, so that the test falls",
    expression: `${plain(maintenance, 2)} − ${plain(maintenance, 2)} × (${plain(m.value)} − ${plain(limit)}) ÷ ${plain(end - limit)}`,
    result: `${plain(value, 1)} lb ${nutrients[rule.nutrient].symbol}/ac`,
    source,
    evidence,
    note,
  });
  return value;
};

/** The rate, or the most that may be applied in a year where it is above that. */
export const capped = (rule: BuildMaintainRule, facts: Facts, value: number, steps: Step[]): number => {
  const most = firstMatch(rule.maximum ?? [], facts).found;
  if (!most || value <= most.value) return value;
  steps.push({
    what: `The most to apply in one year${most.when ? `, for ${conditionLabel(most.when)}` : ""}`,
    expression: `${plain(value, 1)}, at most ${plain(most.value)}`,
    result: `${plain(most.value)} lb ${nutrients[rule.nutrient].symbol}/ac`,
    source: most.source,
    evidence: most.evidence,
    note: most.note,
  });
  return most.value;
};

/** (critical - test) x lb per unit of test, with the factor's own line where it depends on CEC. */
export const buildUpStep = (rule: BuildMaintainRule, m: Measurement, level: Level, before: readonly Step[]): Outcome<number> => {
  const { perUnit: factor } = rule.buildUp;
  const steps: Step[] = [];
  let pounds: number;
  const unit = `lb ${nutrients[rule.nutrient].symbol}/ac per ${rule.limits.unit}`;
  const graded = { source: factor.source, evidence: factor.evidence, note: factor.note };
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
