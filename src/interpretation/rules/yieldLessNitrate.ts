import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { convert, sameDimension, yieldUnits } from "../units.ts";
import { resultStep } from "./bands.ts";
import { limits } from "./limits.ts";
import type { NitrogenPlace } from "./nitrateFacts.ts";
import { chooseRow, historySteps, nitrateWhen, notChosen } from "./factTests.ts";
import { atLeastNothing } from "./nitrateFacts.ts";
import { checkNitrateTest, precondition } from "./preconditions.ts";
import type { NutrientRate } from "./nutrientRate.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";

const choice = z.strictObject({ when: nitrateWhen.optional(), value: z.number().nonnegative() });
const term = z.strictObject({ name: z.string().min(1), choices: z.array(choice).min(1), ...provenance }).check(graded);

/** Pounds per unit of yield, less pounds per ppm of nitrate-N that may depend on the field's history. */
export const yieldLessNitrateRule = z.strictObject({
  kind: z.literal("yieldLessNitrate"),
  id: z.string(),
  unit: z.literal("lb/ac"),
  limits,
  requires: z.array(precondition).default([]),
  yieldUnit: z.enum(yieldUnits),
  perYield: sourcedNumber.describe("lb N an acre per unit of yield"),
  perPpm: z.array(term).min(1).describe("lb N an acre for each ppm: the sum of these terms"),
  none: sourcedNumber.optional().describe("ppm at and above which no nitrogen is called for"),
});
export type YieldLessNitrateRule = z.infer<typeof yieldLessNitrateRule>;

/**
 * Nitrogen, lb/ac: a x yield - b x nitrate-N in ppm of a 0 to 12 in sample. Zero at and above the cut-off where one is
 * printed, and where the sum is negative. `b` is the sum of terms of the field's history; a term that hangs on a fact
 * nobody recorded gives no rate. At and above the cut-off neither yield nor history is asked for.
 */
export const rateByYieldLessNitrate = (rule: YieldLessNitrateRule, m: Measurement, place: NitrogenPlace): Outcome<NutrientRate> => {
  const { pack, history, yieldGoal } = place;
  const checked = checkNitrateTest(rule, m, place);
  if (checked.refused) return checked.refused;
  const steps = [...checked.steps, resultStep(m, "Nitrate-N")];
  if (rule.none && m.value >= rule.none.value) {
    const { source, evidence, note, value } = rule.none;
    steps.push({ what: `At and above ${plain(value)} ppm: no nitrogen`, result: "0 lb N/ac", source, evidence, note });
    return answer({ rate: { value: 0, unit: "lb/ac" } }, steps, checked.cautions);
  }
  if (!yieldGoal) return noAnswer("no yield goal is set, and the rate depends on the yield", ["yieldGoal"]);
  if (!sameDimension(yieldGoal.unit, rule.yieldUnit))
    return noAnswer(`the yield is in ${yieldGoal.unit} and ${pack} reads ${rule.yieldUnit}`, [`a yield in ${rule.yieldUnit}`]);
  const goal = convert(yieldGoal.value, yieldGoal.unit, rule.yieldUnit);
  let perPpm = 0;
  const used: string[] = [];
  for (const each of rule.perPpm) {
    const chosen = chooseRow(each.choices, history);
    if (!chosen.found) return notChosen(chosen.missing, pack);
    perPpm += chosen.found.value;
    used.push(plain(chosen.found.value));
    steps.push(
      ...historySteps(
        each.choices.flatMap((c) => c.when ?? []),
        history,
      ),
    );
    steps.push({
      what: each.name,
      result: `${plain(chosen.found.value)} lb per ppm`,
      source: each.source,
      evidence: each.evidence,
      note: each.note,
    });
  }
  if (used.length > 1) steps.push({ what: "Together", expression: used.join(" + "), result: `${plain(perPpm)} lb per ppm` });
  const need = rule.perYield.value * goal;
  const credit = perPpm * m.value;
  const { source, evidence, note } = rule.perYield;
  steps.push({
    what: "Yield goal",
    result: `${plain(goal)} ${rule.yieldUnit}`,
    ...(place.facts.origins?.yieldGoal && { source: place.facts.origins.yieldGoal }),
  });
  steps.push({
    what: "For the yield",
    expression: `${plain(rule.perYield.value)} × ${plain(goal)}`,
    result: `${plain(need, 1)} lb N/ac`,
    source,
    evidence,
    note,
  });
  steps.push({ what: "For the nitrate", expression: `${plain(perPpm)} × ${plain(m.value)}`, result: `${plain(credit, 1)} lb N/ac` });
  const value = atLeastNothing(need - credit);
  steps.push(
    need <= credit
      ? { what: "The nitrate covers the yield", result: "0 lb N/ac" }
      : { what: "Nitrogen", expression: `${plain(need, 1)} − ${plain(credit, 1)}`, result: `${plain(value, 1)} lb N/ac` },
  );
  return answer({ rate: { value, unit: "lb/ac" } }, steps, checked.cautions);
};
