import type { Advice } from "../../interpretation/advise.ts";
import { shortBases } from "../../interpretation/cations.ts";
import type { RateAdvice } from "../../interpretation/nutrientRates.ts";
import type { Outcome, Step } from "../../interpretation/outcome.ts";
import { weakestEvidence } from "../../interpretation/outcome.ts";
import type { Sample } from "../../interpretation/sample.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import { limeRate, nutrientSpan } from "../units.ts";
import type { LimeRequirement } from "../../interpretation/lime/limeForDepth.ts";
import { nitrogenAsked } from "./nitrogenAsked.ts";

/** What a sample came to, as data: the same keys in the same order on every machine. */
export const interpretJson = (sample: Sample, advice: Advice, { units }: { readonly units?: UnitChoice | undefined } = {}): object => {
  const { lime } = advice;
  return {
    guidelines: sample.packs.map((p) => p.id),
    ...(sample.facts.crop && { crop: sample.facts.crop }),
    ratings: Object.fromEntries(
      advice.ratings.map(({ measurement, outcome, pack }) => [
        measurement.analyte,
        asJson(outcome, (r) => ({ band: r.band, position: r.position, ...(pack && { guideline: pack.id }) })),
      ]),
    ),
    rates: Object.fromEntries(advice.rates.map((rate) => [rate.nutrient, rateJson(rate, units)])),
    lime: {
      ...asJson(lime.needed, (need) => (need === "none" ? { requirement: "none" } : requirementJson(need, units))),
      ...(lime.rates[0] && { material: materialJson(lime.rates[0], units) }),
    },
    ...(advice.cations.kind === "answer" && {
      cations: {
        ...asJson(advice.cations, ({ cec, acidity, baseSaturation, saturation }) => ({ cec, acidity, baseSaturation, saturation })),
        short: shortBases(sample.packs, advice.cations.value).map(stepJson),
      },
    }),
    ...nitrogenJson({ ...advice, nitrogen: nitrogenAsked(sample, advice) }, units),
    cautions: advice.cautions,
  };
};

const rateJson = ({ outcome, pack }: RateAdvice, units: UnitChoice | undefined): object =>
  asJson(outcome, ({ rate, to, doses }) => ({
    value: rate.value,
    ...(to !== undefined && { to }),
    unit: rate.unit,
    ...(doses && { doses }),
    ...(units && { shown: nutrientSpan({ rate, to }, units) }),
    ...(pack && { guideline: pack.id }),
  }));

const requirementJson = ({ requirement, target, pack }: LimeRequirement, units: UnitChoice | undefined): object => ({
  requirement: { value: requirement.value, unit: requirement.unit, ...(units && { shown: limeRate(requirement, units) }) },
  ...(target !== undefined && { targetPh: target }),
  guideline: pack.id,
});

/** The material at hand: tons of it as hauled, split where one application may not hold them. */
const materialJson = ({ material, outcome }: Advice["lime"]["rates"][number], units: UnitChoice | undefined): object => ({
  name: material.name,
  ...asJson(outcome, (r) => ({
    value: r.rate.value,
    unit: r.rate.unit,
    ...(units && { shown: limeRate(r.rate, units) }),
    applications: r.applications.map((a) => a.value),
    ...(r.then && { then: r.then }),
    ...(r.costPerAcre !== undefined && { costPerAcre: r.costPerAcre }),
  })),
});

const nitrogenJson = ({ nitrogen, nitrogenCredits = [] }: Advice, units: UnitChoice | undefined): Record<string, unknown> => ({
  ...(nitrogen && {
    nitrogen: asJson(nitrogen, ({ rate, to, atMost, level, guideline, rule }) => ({
      value: rate.value,
      unit: rate.unit,
      ...(to !== undefined && { to }),
      ...(atMost && { atMost }),
      ...(level !== undefined && { level }),
      ...(units && { shown: nutrientSpan({ rate, to, atMost }, units) }),
      guideline,
      rule,
    })),
  }),
  ...(nitrogenCredits.length > 0 && {
    nitrogenCredits: nitrogenCredits.map(({ id, pack, outcome }) => ({
      credit: id,
      guideline: pack.id,
      ...asJson(outcome, ({ value }) => ({ value, unit: "lb/ac" })),
    })),
  }),
});

const asJson = <T>(outcome: Outcome<T>, of: (value: T) => object): object =>
  outcome.kind === "answer"
    ? { ...of(outcome.value), steps: outcome.steps.map(stepJson), evidence: weakestEvidence(outcome.steps) }
    : { noAnswer: { because: outcome.because, missing: outcome.missing } };

const stepJson = ({ what, expression, result, source, evidence, note }: Step): object => ({
  what,
  expression,
  result,
  source,
  evidence,
  note,
});
