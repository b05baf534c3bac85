import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { resultStep } from "./bands.ts";
import { limits } from "./limits.ts";
import type { NitrogenPlace } from "./nitrateFacts.ts";
import { chooseRow, historySteps, nitrateWhen, notChosen } from "./factTests.ts";
import { atLeastNothing, historyStep } from "./nitrateFacts.ts";
import { checkNitrateTest, precondition } from "./preconditions.ts";
import type { NutrientRate } from "./nutrientRate.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";

const critical = z.strictObject({ when: nitrateWhen.optional(), value: z.number().positive(), ...provenance }).check(graded);
const cap = z.strictObject({ when: nitrateWhen.optional(), value: z.number().positive(), ...provenance }).check(graded);

/** A rate that falls by so many pounds for each ppm of nitrate-N: from a critical level down, or from the normal rate. */
export const nitrateLinearRule = z
  .strictObject({
    kind: z.literal("nitrateLinear"),
    id: z.string(),
    unit: z.literal("lb/ac"),
    limits,
    requires: z.array(precondition).default([]),
    perPpm: sourcedNumber.describe("lb N an acre for each ppm"),
    criticals: z.array(critical).min(1).describe("ppm; the first whose condition holds; at and above it no nitrogen"),
    caps: z.array(cap).default([]).describe("lb N an acre that the rate never passes"),
    lessFromNormal: sourcedNumber
      .optional()
      .describe("ppm; present where the slope comes off the normal rate: below this the normal rate stands"),
  })
  .refine((r) => r.perPpm.value > 0, { path: ["perPpm", "value"], error: "must be above 0" });
export type NitrateLinearRule = z.infer<typeof nitrateLinearRule>;

/**
 * Nitrogen, lb/ac, from nitrate-N of a 0 to 12 in sample in ppm: (critical - measured) x lb per ppm, zero at and above the
 * critical level, never over a cap that the publication sets. With `lessFromNormal`: the normal rate below that level, the
 * normal rate less measured x lb per ppm from it up to and including the critical level, zero above it. Preconditions are
 * checked first. A critical level that hangs on a fact nobody recorded gives no rate, unless the result is above all of them.
 */
export const rateByNitrateLinear = (rule: NitrateLinearRule, m: Measurement, place: NitrogenPlace): Outcome<NutrientRate> => {
  const { pack, history } = place;
  const checked = checkNitrateTest(rule, m, place);
  if (checked.refused) return checked.refused;
  const choice = chooseRow(rule.criticals, history);
  const highest =
    choice.found ??
    (choice.open.length > 0 && choice.open.every((c) => m.value >= c.value)
      ? choice.open.reduce((a, b) => (b.value > a.value ? b : a))
      : undefined);
  if (!highest) return notChosen(choice.missing, pack);
  const start = [...checked.steps, resultStep(m, "Nitrate-N")];
  const criticalStep: Step = {
    what: choice.found ? "Critical level" : "Highest critical level; the others give the same rate here",
    result: `${plain(highest.value)} ppm`,
    source: highest.source,
    evidence: highest.evidence,
    note: highest.note,
  };
  const steps = [
    ...start,
    ...historySteps(
      rule.criticals.flatMap((c) => c.when ?? []),
      history,
    ),
    criticalStep,
  ];
  return rule.lessFromNormal
    ? fromNormal(rule, m, place, highest.value, steps, checked.cautions)
    : belowCritical(rule, m, place, highest.value, steps, checked.cautions);
};

const belowCritical = (
  rule: NitrateLinearRule,
  m: Measurement,
  { pack, history }: NitrogenPlace,
  level: number,
  steps: Step[],
  cautions: readonly string[],
): Outcome<NutrientRate> => {
  const from = { source: rule.perPpm.source, evidence: rule.perPpm.evidence, note: rule.perPpm.note };
  if (m.value >= level)
    return answer(
      { rate: { value: 0, unit: "lb/ac" } },
      [...steps, { what: "At and above the critical level: no nitrogen", result: "0 lb N/ac", ...from }],
      cautions,
    );
  const raw = (level - m.value) * rule.perPpm.value;
  steps.push({
    what: "Nitrogen",
    expression: `(${plain(level)} − ${plain(m.value)}) × ${plain(rule.perPpm.value)} lb per ppm`,
    result: `${plain(raw, 1)} lb N/ac`,
    ...from,
  });
  const most = chooseRow(rule.caps, history);
  if (!most.found && most.missing && most.open.some((c) => raw > c.value)) return notChosen(most.missing, pack);
  if (!most.found || raw <= most.found.value) return answer({ rate: { value: raw, unit: "lb/ac" } }, steps, cautions);
  const { value, source, evidence, note } = most.found;
  steps.push({ what: "Never more than", result: `${plain(value)} lb N/ac`, source, evidence, note });
  return answer({ rate: { value, unit: "lb/ac" } }, steps, cautions);
};

const fromNormal = (
  rule: NitrateLinearRule,
  m: Measurement,
  { pack, history }: NitrogenPlace,
  level: number,
  steps: Step[],
  cautions: readonly string[],
): Outcome<NutrientRate> => {
  const least = rule.lessFromNormal!;
  const from = { source: rule.perPpm.source, evidence: rule.perPpm.evidence, note: rule.perPpm.note };
  if (m.value > level)
    return answer(
      { rate: { value: 0, unit: "lb/ac" } },
      [...steps, { what: "Above this level: no nitrogen", result: "0 lb N/ac", ...from }],
      cautions,
    );
  const normal = history.plannedNitrogen;
  if (!normal)
    return noAnswer(`the nitrogen rate planned before the test is not recorded, and ${pack} takes the test off it`, ["plannedNitrogen"]);
  steps.push(historyStep("plannedNitrogen", history));
  if (m.value < least.value) {
    steps.push({
      what: `Below ${plain(least.value)} ppm: the planned rate stands`,
      result: `${plain(normal.value, 1)} lb N/ac`,
      source: least.source,
      evidence: least.evidence,
    });
    return answer({ rate: { value: normal.value, unit: "lb/ac" } }, steps, cautions);
  }
  const less = m.value * rule.perPpm.value;
  const left = atLeastNothing(normal.value - less);
  steps.push({
    what: "Nitrogen the test counts",
    expression: `${plain(m.value)} × ${plain(rule.perPpm.value)} lb per ppm`,
    result: `${plain(less, 1)} lb N/ac`,
    ...from,
  });
  steps.push(
    less >= normal.value
      ? { what: "It covers the planned rate", result: "0 lb N/ac" }
      : {
          what: "Planned rate less the test",
          expression: `${plain(normal.value, 1)} − ${plain(less, 1)}`,
          result: `${plain(left, 1)} lb N/ac`,
        },
  );
  return answer({ rate: { value: left, unit: "lb/ac" } }, steps, cautions);
};
