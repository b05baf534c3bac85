import type { Guideline, Section } from "./guideline.ts";
import { sectionsOf } from "./guideline.ts";
import type { Measurement } from "./measurement.ts";
import type { NoAnswer, Outcome } from "./outcome.ts";
import { noAnswer } from "./outcome.ts";
import { rateByBuildMaintain } from "./rules/buildMaintain.ts";
import type { NutrientRate, RatePlace } from "./rules/nutrientRate.ts";
import type { Sample } from "./sample.ts";
import { firstAnswer } from "./sample.ts";
import type { AnalyteId, NutrientId } from "./vocabulary.ts";
import { analyteInSentence, nutrientIds, nutrients } from "./vocabulary.ts";

export interface RateAdvice {
  readonly nutrient: NutrientId;
  readonly analyte: AnalyteId;
  readonly outcome: Outcome<NutrientRate>;
  readonly pack: Guideline | undefined;
}

/** The rule kinds that turn one soil test into a rate of one nutrient. A new kind is added here and in `rateByRule`. */
const rateKinds = ["buildMaintain"] as const;
export type RateRule = Extract<Section, { kind: (typeof rateKinds)[number] }>;

export const rateRulesOf = (pack: Guideline): RateRule[] => rateKinds.flatMap((kind) => sectionsOf(pack, kind));

/** The rate a rule gives for one measurement. */
export const rateByRule = (rule: RateRule, m: Measurement, place: RatePlace): Outcome<NutrientRate> => rateByBuildMaintain(rule, m, place);

/** A rate, or why there is none, for every nutrient that one of the chosen guidelines reads from a soil test. */
export const nutrientRates = (sample: Sample): RateAdvice[] =>
  nutrientIds.flatMap((nutrient): RateAdvice[] => {
    const rules = sample.packs.flatMap((pack) => rateRulesOf(pack).filter((rule) => rule.nutrient === nutrient).map((rule) => ({ pack, rule })));
    const analyte = rules[0]?.rule.analyte ?? expected[nutrient];
    if (analyte === undefined) return [];
    const tries = rules.map(({ pack, rule }) => ({ pack, rule, outcome: ratedBy(pack, rule, sample) }));
    const nobody = sample.measurements.some((m) => m.analyte === analyte)
      ? noAnswer("none of the chosen guidelines gives a rate from this test", [`a guideline for ${nutrients[nutrient].symbol}`])
      : notTested(analyte);
    return [{ nutrient, analyte, ...firstAnswer(tries, nobody) }];
  });

/** Questions every reader has: where no guideline answers one of these, the page says so instead of keeping silent. */
const expected: Partial<Record<NutrientId, AnalyteId>> = { P2O5: "P", K2O: "K" };

const notTested = (analyte: AnalyteId): NoAnswer => noAnswer(`${analyteInSentence(analyte)} was not tested`, [analyte]);

/** A pack's rule on the sample's own measurement: the one by the rule's method where the laboratory made several. */
const ratedBy = (pack: Guideline, rule: RateRule, sample: Sample): Outcome<NutrientRate> => {
  const tested = sample.measurements.filter((m) => m.analyte === rule.analyte);
  const m = tested.find((each) => each.method === rule.limits.method) ?? tested[0];
  if (!m) return notTested(rule.analyte);
  return rateByRule(rule, m, {
    facts: sample.facts,
    yieldGoal: sample.yieldGoal,
    removal: sectionsOf(pack, "removal")[0],
    pack: pack.short,
  });
};
