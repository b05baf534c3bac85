import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import { boundWords } from "../measurement.ts";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { belowZero, pH, plain } from "../show.ts";
import { analyteIds, analytes, crops, nutrientIds, nutrients } from "../vocabulary.ts";
import { resultStep } from "./bands.ts";
import { metLabel, conditionSteps, factStep, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { assumptionSteps, limits, outsideLimits } from "./limits.ts";
import type { NutrientRate, RatePlace } from "./nutrientRate.ts";
import { yieldFor } from "./removalCoefficient.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";

const coefficient = z.number().nonnegative();

/**
 * Two published shapes of one line. `perYield`: (from - perTest x test) x yield. `terms`: base + perYield x yield
 * + perPh x soil pH - perTest x test - perTestAndYield x test x yield. No coefficient is negative, so a higher test never
 * gets a higher rate; the base may be, where the soil pH lifts it.
 */
const equation = z.discriminatedUnion("shape", [
  z.strictObject({ shape: z.literal("perYield"), from: coefficient, perTest: coefficient }),
  z.strictObject({
    shape: z.literal("terms"),
    base: z.number(),
    perYield: coefficient.optional(),
    perPh: coefficient.optional().describe("for each unit of soil pH in water"),
    perTest: coefficient,
    perTestAndYield: coefficient.optional(),
  }),
]);

const row = z
  .strictObject({
    when: when.optional(),
    equation,
    zeroAbove: sourcedNumber.optional().describe("nothing above this test, whatever the equation gives"),
    ...provenance,
  })
  .check(graded);

/** A rate linear in the soil test and the yield goal, lb/ac of the nutrient. */
export const linearYieldRule = z.strictObject({
  kind: z.literal("linearYield"),
  id: z.string(),
  analyte: z.enum(analyteIds),
  nutrient: z.enum(nutrientIds),
  limits,
  unit: z.literal("lb/ac"),
  minimum: sourcedNumber.optional().describe("the least to apply where anything is due"),
  rows: z.array(row).min(1),
});
export type LinearYieldRule = z.infer<typeof linearYieldRule>;
type Equation = z.infer<typeof equation>;

const needsYield = (e: Equation): boolean => e.shape === "perYield" || (e.perYield ?? 0) > 0 || (e.perTestAndYield ?? 0) > 0;

/** A line that has come down to nothing for a bushel gives nothing at any yield: its sum, or `undefined` where it has not. */
const nothingAtAnyYield = (e: Equation, m: Measurement): Pick<Step, "expression" | "result"> | undefined => {
  if (e.shape !== "perYield" || m.qualifier === "<") return undefined;
  const each = e.from - e.perTest * m.value;
  if (each > dust) return undefined;
  const expression = `${plain(e.from, 4)} − ${plain(e.perTest, 4)} × ${plain(m.value)}`;
  return { expression, result: `${belowZero(each, 3)}0 lb, whatever the yield` };
};

const needsPh = (e: Equation): boolean => e.shape === "terms" && e.perPh !== undefined;

/** What the line is read at. `soilPh` is 0 where the equation has none. */
interface At {
  readonly test: number;
  readonly goal: number;
  readonly soilPh: number;
}

/** The equation's own number, which may be below zero. */
const valueOf = (e: Equation, { test, goal, soilPh }: At): number =>
  e.shape === "perYield"
    ? (e.from - e.perTest * test) * goal
    : e.base + (e.perYield ?? 0) * goal + (e.perPh ?? 0) * soilPh - e.perTest * test - (e.perTestAndYield ?? 0) * test * goal;

/** The equation with numbers or letters in it: "50 + 0.2 × 150 − 2.5 × 10 − 0.01 × 150 × 10". */
const written = (e: Equation, { test, goal, soilPh }: Record<keyof At, string>): string => {
  if (e.shape === "perYield") return `(${plain(e.from, 4)} − ${plain(e.perTest, 4)} × ${test}) × ${goal}`;
  const ph = e.perPh !== undefined && `${plain(e.perPh, 4)} × ${soilPh}`;
  return [
    ...(e.base < 0 && ph ? [ph, `− ${plain(-e.base, 4)}`] : [plain(e.base, 4), ph && `+ ${ph}`]),
    e.perYield !== undefined && `+ ${plain(e.perYield, 4)} × ${goal}`,
    `− ${plain(e.perTest, 4)} × ${test}`,
    e.perTestAndYield !== undefined && `− ${plain(e.perTestAndYield, 4)} × ${goal} × ${test}`,
  ]
    .filter(Boolean)
    .join(" ");
};

/** The equation in letters, for a page. */
export const equationLabel = (e: Equation, analyte: LinearYieldRule["analyte"]): string =>
  written(e, { test: analytes[analyte].short, goal: "yield", soilPh: "soil pH" });

/**
 * The rate, lb/ac of the nutrient. Test in the rule's unit, yield goal in the crop's own.
 * Below zero it is 0, which is an answer; above `zeroAbove` it is 0 whatever the equation gives; a rate that is due at all
 * is at least `minimum`. Between two printed points of a table nothing is guessed: the equation holds everywhere.
 * No answer outside the limits, for a crop without an equation, without a yield goal where the rate depends on it, without a soil pH
 * where the equation has one, or for a "<" or ">" that the equation cannot be given: "> 25" with nothing above 20 is 0.
 */
export const rateByLinearYield = (rule: LinearYieldRule, m: Measurement, place: RatePlace): Outcome<NutrientRate> => {
  const { facts, pack } = place;
  const outside = outsideLimits(rule.limits, m, facts.crop, pack);
  if (outside) return outside;
  const { symbol } = nutrients[rule.nutrient];
  const choice = firstMatch(rule.rows, facts);
  if (!choice.found)
    return choice.missing
      ? noAnswer(`${missingFactLabel(choice.missing)} is not known, and ${pack} sets the rate by it`, [choice.missing])
      : noAnswer(`${pack} has no equation for ${facts.crop ? crops[facts.crop].label : "this place"}`, [
          "a guideline for this crop and soil",
        ]);
  const { found } = choice;
  const from = { source: found.source, evidence: found.evidence, note: found.note };
  const condition = metLabel(found.when, facts);
  const steps: Step[] = [resultStep(m, "Laboratory result"), ...assumptionSteps(rule.limits, m), ...conditionSteps(found.when, facts)];
  const done = (value: number): Outcome<NutrientRate> => answer({ rate: { value, unit: rule.unit } }, steps);
  const { zeroAbove } = found;
  if (zeroAbove && m.qualifier !== "<" && (m.value > zeroAbove.value || (m.qualifier === ">" && m.value >= zeroAbove.value))) {
    const { source, evidence, note } = zeroAbove;
    steps.push({
      what: `Nothing above ${plain(zeroAbove.value)} ${rule.limits.unit}`,
      result: `0 lb ${symbol}/ac`,
      source,
      evidence,
      note,
    });
    return done(0);
  }
  let goal = 0;
  if (needsYield(found.equation)) {
    if (!facts.crop) return noAnswer("no crop is planned", ["crop"]);
    if (!place.yieldGoal) {
      const nothing = nothingAtAnyYield(found.equation, m);
      if (!nothing) return noAnswer("no yield goal is set, and the rate depends on it", ["yieldGoal"]);
      const head = `Rate for each ${crops[facts.crop].per} of yield`;
      steps.push({ what: condition ? `${head}, for ${condition}` : head, ...nothing, ...from });
      return done(0);
    }
    const wanted = yieldFor(facts.crop, place.yieldGoal);
    if (typeof wanted !== "number") return wanted;
    goal = wanted;
    steps.push({
      what: "Yield goal",
      result: `${plain(goal)} ${crops[facts.crop].yieldUnit}`,
      ...(facts.origins?.yieldGoal && { source: facts.origins.yieldGoal }),
    });
  }
  let soilPh = 0;
  if (needsPh(found.equation)) {
    if (facts.soilPh === undefined) return noAnswer("the soil pH in water is not known, and the rate depends on it", ["soilPh"]);
    soilPh = facts.soilPh;
    steps.push(factStep("soilPh", facts));
  }
  const raw = valueOf(found.equation, { test: m.value, goal, soilPh });
  // The rate falls with the test: what is nothing at a bound is nothing above it, and of all else a bound says too little.
  if (m.qualifier && !(m.qualifier === ">" && raw <= 0))
    return noAnswer(`${boundWords(m)}, and the rate needs a number`, [`${m.analyte} as a number`]);
  // A level where the publication means zero must not leave the computer's dust, which the minimum would make a rate of.
  const value = raw > dust ? raw : 0;
  steps.push({
    what: condition ? `Rate for ${condition}` : "Rate",
    expression: written(found.equation, { test: plain(m.value), goal: plain(goal), soilPh: pH(soilPh) }),
    result: `${belowZero(raw, 1)}${plain(value, 1)} lb ${symbol}/ac`,
    ...from,
  });
  const { minimum } = rule;
  if (!minimum || value === 0 || value >= minimum.value) return done(value);
  const { source, evidence, note } = minimum;
  steps.push({
    what: "The least to apply where anything is due",
    result: `${plain(minimum.value)} lb ${symbol}/ac`,
    source,
    evidence,
    note,
  });
  return done(minimum.value);
};

/** lb/ac; far below anything that can be spread, far above the rounding of a sum in the computer. */
const dust = 1e-9;
