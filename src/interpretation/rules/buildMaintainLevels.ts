import type * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { boundWords } from "../measurement.ts";
import { plain } from "../show.ts";
import { analyteInSentence } from "../vocabulary.ts";
import type { Band, Rating } from "./bands.ts";
import { bandOfMeasurement, resultStep } from "./bands.ts";
import { conditionLabel, metLabel, conditionSteps, factLabel, factStep, firstMatch, meets, missingFactLabel } from "./conditions.ts";
import { assumptionSteps, outsideLimits } from "./limits.ts";
import type { RatePlace } from "./nutrientRate.ts";
import { isOrganic } from "./soilDoubts.ts";
import type { sourcedNumber } from "./sourced.ts";
import type { BuildMaintainRule } from "./buildMaintainRule.ts";
import type { Facts } from "./facts.ts";
import { numericFacts } from "./facts.ts";

/** How the CEC is called in a line of the sum, so that it stands there once. */
export const cecWord = factLabel("cec");

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
export const bandsOfLevel = ({ classes }: BuildMaintainRule, { critical: lowest, limit, atLimit }: Level): Band[] => {
  const below: Band = { name: classes.below, position: "below" };
  const above: Band = atLimit
    ? { name: classes.above, position: "above", above: limit.value }
    : { name: classes.above, position: "above", from: limit.value };
  return lowest.value < limit.value ? [below, { name: classes.within, position: "within", from: lowest.value }, above] : [below, above];
};

/**
 * The CEC to read a rule with: the soil's own, or the one the rule sets for such soils, each with its line in the sum. `undecided` is a
 * fact that is not known where all else says that the soil may be such a one: limy soil read by its own CEC gets twice the potash.
 */
const cecFor = (rule: BuildMaintainRule, facts: Facts): { facts: Facts; steps: Step[]; undecided?: string } => {
  const steps: Step[] = [];
  for (const set of rule.cecInstead ?? []) {
    const match = meets(set.when, facts);
    const from = { source: set.source, evidence: set.evidence, note: set.note };
    if (match.matches)
      return {
        facts: { ...facts, cec: set.value },
        steps: [
          ...conditionSteps(set.when, facts),
          { what: `CEC read for ${conditionLabel(set.when)}`, result: `${plain(set.value)} meq/100 g`, ...from },
        ],
      };
    if (match.missing === undefined) continue;
    if (
      numericFacts.some((f) => set.when[f] !== undefined && facts[f] !== undefined) ||
      (match.missing === "organicMatter" && isOrganic(facts))
    )
      return { facts, steps, undecided: match.missing };
    steps.push({
      what: `CEC is set for ${conditionLabel(set.when)}`,
      result: `not used: ${missingFactLabel(match.missing)} is not known`,
      ...from,
    });
  }
  if (facts.cec !== undefined) steps.push(factStep("cec", facts));
  return { facts, steps };
};

const readsCec = (rule: BuildMaintainRule, chosen: BuildMaintainRule["levels"][number]): boolean =>
  chosen.when?.cec !== undefined || !("value" in chosen.critical) || rule.cecInstead !== undefined;

/** The level that holds for a place, with its lines in the sum, or why none does. */
const levelFor = (rule: BuildMaintainRule, known: Facts, pack: string): Outcome<Level> => {
  const { facts, steps: cecSteps, undecided } = cecFor(rule, known);
  const needs = (fact: string): Outcome<Level> =>
    noAnswer(`${missingFactLabel(fact)} is not known, and ${pack} sets the ${analyteInSentence(rule.analyte)} level by it`, [fact]);
  if (undecided !== undefined) return needs(undecided);
  const choice = firstMatch(rule.levels, facts);
  const { found } = choice;
  if (!found)
    return choice.missing
      ? needs(choice.missing)
      : noAnswer(`${pack} gives no critical level for this crop and soil`, ["a guideline for this crop and soil"]);
  const asked = conditionSteps(found.when, facts);
  const steps = readsCec(rule, found) ? [...cecSteps, ...asked.filter((s) => s.what !== cecWord)] : asked;
  const condition = metLabel(found.when, facts);
  const { unit } = rule.limits;
  const named = (what: string, of: Omit<Sourced, "value">, value: number, expression?: string): void => {
    steps.push({
      what: condition ? `${what} for ${condition}` : what,
      expression,
      result: `${plain(value)} ${unit}`,
      source: of.source,
      evidence: of.evidence,
      note: of.note,
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
  if (end) named("End of the drawdown", end, end.value, `${plain(limit.value)} + ${plain(drawdown.value)}`);
  return answer({ critical: lowest, limit, atLimit: found.atLimit, end, facts }, steps);
};

/** A result's class, and the level it was read against. */
export interface AtLevel {
  readonly rating: Rating;
  readonly level: Level;
}

/**
 * Rate a result against the critical level and the maintenance limit. Test units in, class out.
 * A result equal to the critical level is in the middle range; one equal to the limit is in the top one, unless the rule says otherwise.
 */
export const rateAtLevel = (rule: BuildMaintainRule, m: Measurement, place: Pick<RatePlace, "facts" | "pack">): Outcome<AtLevel> => {
  const outside = outsideLimits(rule.limits, m, place.facts.crop, place.pack);
  if (outside) return outside;
  const chosen = levelFor(rule, place.facts, place.pack);
  if (chosen.kind === "noAnswer") return chosen;
  const rating = bandOfMeasurement(m, bandsOfLevel(rule, chosen.value));
  if (!rating) return noAnswer(`${boundWords(m)}, which may lie on either side of a level`, [`${m.analyte} as a number`]);
  return answer({ rating, level: chosen.value }, [resultStep(m, "Laboratory result"), ...assumptionSteps(rule.limits, m), ...chosen.steps]);
};
