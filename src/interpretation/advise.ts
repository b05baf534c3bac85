import type { CautionId } from "./cautions.ts";
import type { Guideline } from "./guideline.ts";
import { sectionsOf } from "./guideline.ts";
import type { LimeAdvice, LimePlace } from "./lime.ts";
import { limeAdvice } from "./lime.ts";
import type { Measurement } from "./measurement.ts";
import type { NoAnswer, Outcome } from "./outcome.ts";
import { noAnswer } from "./outcome.ts";
import type { Band, Rating } from "./rules/bands.ts";
import { bandOfMeasurement, rateByBands, resultStep } from "./rules/bands.ts";
import type { NutrientRate } from "./rules/buildMaintain.ts";
import { bandsOfLevel, levelFor, rateByBuildMaintain, rateByLevels } from "./rules/buildMaintain.ts";
import type { Cations } from "./rules/cationSum.ts";
import { sumCations } from "./rules/cationSum.ts";
import type { Facts } from "./rules/conditions.ts";
import { outsideLimits } from "./rules/limits.ts";
import { phBands, targetPhFor } from "./rules/targetPh.ts";
import { firstMatch } from "./rules/conditions.ts";
import type { Amount, YieldUnit } from "./units.ts";
import type { AnalyteId, NutrientId } from "./vocabulary.ts";
import { analyteInSentence } from "./vocabulary.ts";

/** One sample from one place, and all that a guideline may ask about the place. */
export interface Sample extends Omit<LimePlace, "pH" | "buffers"> {
  readonly measurements: readonly Measurement[];
  readonly facts: Facts;
  readonly yieldGoal: Amount<YieldUnit> | undefined;
  /** In order of preference: the first that answers a question answers it. */
  readonly packs: readonly Guideline[];
}

export interface RatingAdvice {
  readonly measurement: Measurement;
  readonly outcome: Outcome<Rating>;
  /** The guideline that gave the answer, or the first that was asked. */
  readonly pack: Guideline | undefined;
  /** The bands the rating was read from, for charts and maps. */
  readonly bands: readonly Band[];
}

export interface RateAdvice {
  readonly nutrient: NutrientId;
  readonly analyte: AnalyteId;
  readonly outcome: Outcome<NutrientRate>;
  readonly pack: Guideline | undefined;
}

export interface Advice {
  readonly ratings: readonly RatingAdvice[];
  readonly rates: readonly RateAdvice[];
  readonly lime: LimeAdvice;
  readonly cations: Outcome<Cations>;
  readonly cautions: readonly CautionId[];
}

interface Try<T> {
  readonly outcome: Outcome<T>;
  readonly pack: Guideline;
}

/** The first answer, else the first refusal: packs are asked in the order the farm lists them. */
const firstAnswer = <T>(tries: readonly Try<T>[], nobody: NoAnswer): { outcome: Outcome<T>; pack: Guideline | undefined } => {
  const best = tries.find((t) => t.outcome.kind === "answer") ?? tries[0];
  return best ? { outcome: best.outcome, pack: best.pack } : { outcome: nobody, pack: undefined };
};

/** Everything the chosen guidelines say of one sample. Pure: the same sample gives the same advice on any machine. */
export const advise = (sample: Sample): Advice => {
  const lime = limeAdvice({
    ...sample,
    pH: sample.measurements.find((m) => m.analyte === "pH"),
    buffers: sample.measurements.filter((m) => m.analyte === "bufferPh"),
  });
  const rates = nutrientRates(sample);
  const limed = lime.rates.some((r) => r.outcome.kind === "answer");
  const applies = (nutrient: NutrientId): boolean =>
    rates.some((r) => r.nutrient === nutrient && r.outcome.kind === "answer" && r.outcome.value.rate.value > 0);
  const cautions: CautionId[] = ["localCodes"];
  if (limed) cautions.push("limeDust", "limeAndAmmonia");
  if (applies("P2O5")) cautions.push("phosphorusNearWater");
  return {
    ratings: sample.measurements.map((m) => rate(sample, m)),
    rates,
    lime,
    cations: cationInformation(sample),
    cautions,
  };
};

/** Rate one measurement by the first guideline that can. */
export const rate = (sample: Pick<Sample, "facts" | "packs" | "own">, m: Measurement): RatingAdvice => {
  const { facts, packs } = sample;
  const tries: (Try<Rating> & { bands: readonly Band[] })[] = [];
  for (const pack of packs) {
    for (const rule of sectionsOf(pack, "buildMaintain").filter((r) => r.analyte === m.analyte)) {
      const level = levelFor(rule, facts, pack.short);
      const bands = level.kind === "answer" ? bandsOfLevel(rule, level.value) : [];
      tries.push({ pack, bands, outcome: rateByLevels(rule, m, { facts, yieldGoal: undefined, removal: undefined, pack: pack.short }) });
    }
    for (const rule of sectionsOf(pack, "bands").filter((r) => r.analyte === m.analyte))
      tries.push({ pack, bands: firstMatch(rule.tables, facts).found?.bands ?? [], outcome: rateByBands(rule, m, facts, pack.short) });
    if (m.analyte === "pH") tries.push(...phRatings(pack, sample, m));
  }
  const nobody = noAnswer(`none of the chosen guidelines rates ${analyteInSentence(m.analyte)}`, [
    `a guideline that rates ${m.analyte}`,
  ]);
  const best = tries.find((t) => t.outcome.kind === "answer") ?? tries[0];
  return { measurement: m, ...firstAnswer(tries, nobody), bands: best?.outcome.kind === "answer" ? best.bands : [] };
};

/** Soil pH against when to lime and the range to stay in. */
const phRatings = (pack: Guideline, { facts, own }: Pick<Sample, "facts" | "own">, m: Measurement): (Try<Rating> & { bands: readonly Band[] })[] =>
  sectionsOf(pack, "targetPh").map((rule) => {
    const outside = outsideLimits({ method: rule.method, unit: "pH" }, m, facts.crop, pack.short);
    if (outside) return { pack, bands: [], outcome: outside };
    const target = targetPhFor(rule, facts, own, pack.short);
    if (target.kind === "noAnswer") return { pack, bands: [], outcome: target };
    const bands = phBands(rule, target.value);
    const rating = bandOfMeasurement(m, bands);
    if (!rating) return { pack, bands: [], outcome: noAnswer("the laboratory gives no single number", ["pH as a number"]) };
    return { pack, bands, outcome: { kind: "answer", value: rating, steps: [resultStep(m, "Laboratory result"), ...target.steps], cautions: [] } };
  });

/** Which analyte the rate of a nutrient is read from. */
const testFor = [
  ["P2O5", "P"],
  ["K2O", "K"],
] as const satisfies readonly (readonly [NutrientId, AnalyteId])[];

const nutrientRates = (sample: Sample): RateAdvice[] =>
  testFor.map(([nutrient, analyte]) => {
    const m = sample.measurements.find((each) => each.analyte === analyte);
    if (!m) return { nutrient, analyte, pack: undefined, outcome: noAnswer(`${analyteInSentence(analyte)} was not tested`, [analyte]) };
    const tries = sample.packs.flatMap((pack) =>
      sectionsOf(pack, "buildMaintain")
        .filter((rule) => rule.nutrient === nutrient && rule.analyte === analyte)
        .map((rule) => ({
          pack,
          outcome: rateByBuildMaintain(rule, m, {
            facts: sample.facts,
            yieldGoal: sample.yieldGoal,
            removal: sectionsOf(pack, "removal")[0],
            pack: pack.short,
          }),
        })),
    );
    const nobody = noAnswer("none of the chosen guidelines gives a rate from this test", [`a guideline for ${nutrient}`]);
    return { nutrient, analyte, ...firstAnswer(tries, nobody) };
  });

const cationInformation = (sample: Sample): Outcome<Cations> => {
  const tries = sample.packs.flatMap((pack) => sectionsOf(pack, "cationSum").map((rule) => ({ pack, outcome: sumCations(rule, sample.measurements) })));
  return firstAnswer(tries, noAnswer("none of the chosen guidelines sums cations", ["a cation sum"])).outcome;
};
