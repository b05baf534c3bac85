import type { Guideline, Section } from "./guideline.ts";
import { sectionsOf } from "./guideline.ts";
import type { Measurement } from "./measurement.ts";
import type { NoAnswer, Outcome } from "./outcome.ts";
import { noAnswer } from "./outcome.ts";
import { rateByBandRates } from "./rules/bandRates.ts";
import { rateByBuildMaintain } from "./rules/buildMaintain.ts";
import { outsideLimits, readsMethod } from "./rules/limits.ts";
import { coversCrop, rateByIndexOfftake } from "./rules/indexOfftake.ts";
import { rateByLinearYield } from "./rules/linearYield.ts";
import type { NutrientRate, RatePlace } from "./rules/nutrientRate.ts";
import { rateByQuadraticIndex } from "./rules/quadraticIndex.ts";
import type { Sample } from "./sample.ts";
import type { AnalyteId, CropId, NutrientId } from "./vocabulary.ts";
import { analyteInSentence, nutrientIds, nutrients } from "./vocabulary.ts";
import type { Try } from "./firstAnswer.ts";
import { firstAnswer, onNitrateSampling } from "./firstAnswer.ts";
import { isDeepTest } from "./nitrogen/nitrateNitrogen.ts";

export interface RateAdvice {
  readonly nutrient: NutrientId;
  readonly analyte: AnalyteId;
  readonly outcome: Outcome<NutrientRate>;
  readonly pack: Guideline | undefined;
}

/** The rule kinds that turn one soil test into a rate of one nutrient. A new kind is added here and in `rateByRule`. */
const rateKinds = ["buildMaintain", "bandRates", "linearYield", "indexOfftake", "quadraticIndex"] as const;
export type RateRule = Extract<Section, { kind: (typeof rateKinds)[number] }>;

const sorted = new WeakMap<Guideline, readonly RateRule[]>();

/** A pack's rules of these kinds; sorted out once, since every nutrient asks. */
const rateRulesOf = (pack: Guideline): readonly RateRule[] => {
  let rules = sorted.get(pack);
  if (!rules) sorted.set(pack, (rules = rateKinds.flatMap((kind): readonly RateRule[] => sectionsOf(pack, kind))));
  return rules;
};

const byNutrient = new WeakMap<Guideline, ReadonlyMap<string, readonly PackRule[]>>();

export interface PackRule {
  readonly pack: Guideline;
  readonly rule: RateRule;
}

/** A pack's rules for one nutrient, sorted out once. */
const rateRulesFor = (pack: Guideline, nutrient: NutrientId): readonly PackRule[] => {
  let rules = byNutrient.get(pack);
  if (!rules)
    byNutrient.set(
      pack,
      (rules = new Map(
        Object.entries(
          Object.groupBy(
            rateRulesOf(pack).map((rule) => ({ pack, rule })),
            ({ rule }) => rule.nutrient,
          ),
        ),
      )),
    );
  return rules.get(nutrient) ?? [];
};

/** The rate a rule gives for one measurement. */
export const rateByRule = (rule: RateRule, m: Measurement, place: RatePlace): Outcome<NutrientRate> => {
  switch (rule.kind) {
    case "buildMaintain":
      return rateByBuildMaintain(rule, m, place);
    case "bandRates":
      return rateByBandRates(rule, m, place);
    case "linearYield":
      return rateByLinearYield(rule, m, place);
    case "quadraticIndex":
      return rateByQuadraticIndex(rule, m, place);
    case "indexOfftake":
      return rateByIndexOfftake(rule, m, place);
  }
};

/**
 * A rate, or why there is none, for every nutrient that one of the chosen guidelines reads from a soil test. Phosphate and
 * phosphorus, potash and potassium are one question: of an answered one the first guideline that answers it is told alone.
 */
export const nutrientRates = (sample: Sample): RateAdvice[] => {
  const all = askedOf(sample.packs, sample.facts.crop).map(({ nutrient, analyte, rules }) => {
    const tries = rules.map((each) => putTo(each, sample, (m, place) => rateByRule(each.rule, m, place)));
    const nobody = sample.measurements.some((m) => m.analyte === analyte)
      ? noAnswer("none of the chosen guidelines gives a rate from this test", [`a guideline for ${nutrients[nutrient].symbol}`])
      : notTested(analyte);
    return { nutrient, analyte, ...firstAnswer(tries, nobody, sample.facts) };
  });
  const turn = (pack: Guideline | undefined): number => (pack ? sample.packs.indexOf(pack) : sample.packs.length);
  return all.flatMap(({ ended, ...rate }): RateAdvice[] => {
    const twin = all.find((r) => asElement[r.nutrient] === rate.nutrient || r.nutrient === asElement[rate.nutrient]);
    return twin?.ended && !(ended && turn(rate.pack) <= turn(twin.pack)) ? [] : [rate];
  });
};

/** A nutrient to ask for: the test it is read from, and the rules that are asked, in the order of the guidelines. */
interface Asked {
  readonly nutrient: NutrientId;
  readonly analyte: AnalyteId;
  readonly rules: readonly PackRule[];
}

const asked = new WeakMap<readonly Guideline[], Map<CropId | undefined, readonly Asked[]>>();

/** What guidelines are asked for a crop. Every sample of a field asks the same of the same guidelines, so it is sorted out once. */
const askedOf = (packs: readonly Guideline[], crop: CropId | undefined): readonly Asked[] => {
  let ofCrops = asked.get(packs);
  if (!ofCrops) asked.set(packs, (ofCrops = new Map<CropId | undefined, readonly Asked[]>()));
  let found = ofCrops.get(crop);
  if (!found) {
    found = nutrientIds.flatMap((nutrient): Asked[] => {
      const rules = rulesFor(packs, crop, nutrient);
      const analyte =
        rules?.[0]?.rule.analyte ?? (nutrient in asElement && !answeredAsElement(packs, nutrient) ? expected[nutrient] : undefined);
      return rules === undefined || analyte === undefined ? [] : [{ nutrient, analyte, rules }];
    });
    ofCrops.set(crop, found);
  }
  return found;
};

/** The rules that are asked for a nutrient, in the order of the guidelines; `undefined` where it is no question at all. */
export const rulesFor = (packs: readonly Guideline[], crop: CropId | undefined, nutrient: NutrientId): readonly PackRule[] | undefined => {
  if (expected[nutrient] === undefined && packs.every((pack) => rateRulesFor(pack, nutrient).length === 0)) return undefined;
  const all = packs.flatMap((pack) => rateRulesFor(pack, nutrient));
  const forCrop = crop === undefined ? all : all.filter(({ rule }) => speaksOf(rule, crop));
  // A rule for other crops refuses only where nobody has one for this crop, and where every reader asks.
  return forCrop.length > 0 || expected[nutrient] === undefined || answeredAsElement(packs, nutrient) ? forCrop : all;
};

/** Does the rule have anything to say of this crop? */
const speaksOf = (rule: RateRule, crop: CropId): boolean =>
  (rule.limits.crops?.includes(crop) ?? true) && (rule.kind !== "indexOfftake" || coversCrop(rule, crop));

/**
 * Questions every reader has, and the test each is read from: where no guideline answers one of these, the page says so
 * instead of keeping silent. Every other nutrient is asked about only where a guideline has a rule for it and the crop.
 */
const expected: Partial<Record<NutrientId, AnalyteId>> = { P2O5: "P", K2O: "K", P: "P", K: "K" };
const asElement: Partial<Record<NutrientId, NutrientId>> = { P2O5: "P", K2O: "K" };

/** A guideline that prints P answers the question that phosphate asks: the page must not also say that nobody does. */
const answeredAsElement = (packs: readonly Guideline[], nutrient: NutrientId): boolean =>
  asElement[nutrient] !== undefined && packs.some((pack) => rateRulesFor(pack, asElement[nutrient]!).length > 0);

const notTested = (analyte: AnalyteId): NoAnswer => noAnswer(`${analyteInSentence(analyte)} was not tested`, [analyte]);

/** A question put to a pack's rule on the sample's own measurement: the one by the rule's method where the laboratory made several. */
export const putTo = <T>({ pack, rule }: PackRule, sample: Sample, ask: (m: Measurement, place: RatePlace) => Outcome<T>): Try<T> => {
  const tested = sample.measurements.filter((m) => m.analyte === rule.analyte);
  const fits = (each: Measurement): boolean => !outsideLimits(rule.limits, each, sample.facts.crop, pack.short);
  if (sample.facts.nitrateTestsWithheld && isDeepTest(rule.analyte) && !tested.some(fits)) return { pack, outcome: onNitrateSampling };
  const m =
    // Of one element in the top soil and in two feet, each by its own unit, a rule reads its own.
    (tested.length > 1 ? tested.find(fits) : undefined) ??
    tested.find((each) => readsMethod(rule.limits, each)) ??
    tested.find((each) => each.method === rule.limits.method) ??
    tested[0];
  if (!m) return { pack, outcome: notTested(rule.analyte) };
  const place = { facts: sample.facts, yieldGoal: sample.yieldGoal, removal: sectionsOf(pack, "removal")[0], pack: pack.short };
  return { pack, outcome: ask(m, place), reads: readsMethod(rule.limits, m) };
};
