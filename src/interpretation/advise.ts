import type { CautionId } from "./cautions.ts";
import { sectionsOf } from "./guideline.ts";
import type { LimeAdvice } from "./lime.ts";
import { limeAdvice } from "./lime.ts";
import type { NitrogenAdvice } from "./nitrogen.ts";
import { nitrogenAdvice, nitrogenCautions } from "./nitrogen.ts";
import type { RateAdvice } from "./nutrientRates.ts";
import { nutrientRates } from "./nutrientRates.ts";
import type { Outcome } from "./outcome.ts";
import { noAnswer } from "./outcome.ts";
import type { RatingAdvice } from "./rating.ts";
import { rate } from "./rating.ts";
import type { Cations } from "./rules/cationSum.ts";
import { sumCations } from "./rules/cationSum.ts";
import type { Sample } from "./sample.ts";
import { firstAnswer } from "./sample.ts";
import type { NutrientId } from "./vocabulary.ts";

export interface Advice extends Partial<NitrogenAdvice> {
  readonly ratings: readonly RatingAdvice[];
  readonly rates: readonly RateAdvice[];
  readonly lime: LimeAdvice;
  readonly cations: Outcome<Cations>;
  readonly cautions: readonly CautionId[];
}

/** Everything the chosen guidelines say of one sample. Pure: the same sample gives the same advice on any machine. */
export const advise = (sample: Sample): Advice => {
  const lime = limeAdvice({
    ...sample,
    pH: sample.measurements.find((m) => m.analyte === "pH"),
    buffers: sample.measurements.filter((m) => m.analyte === "bufferPh"),
    acidities: sample.measurements.filter((m) => m.analyte === "exchangeableAcidity"),
    aluminums: sample.measurements.filter((m) => m.analyte === "Al"),
  });
  const rates = nutrientRates(sample);
  const limed = lime.rates.some((r) => r.outcome.kind === "answer");
  const applies = (nutrient: NutrientId): boolean =>
    rates.some((r) => r.nutrient === nutrient && r.outcome.kind === "answer" && (r.outcome.value.to ?? r.outcome.value.rate.value) > 0);
  const ratings = sample.measurements.map((m) => rate(sample, m));
  const cautions: CautionId[] = ["localCodes"];
  if (limed) cautions.push("limeDust", "limeAndAmmonia");
  if (applies("P2O5")) cautions.push("phosphorusNearWater");
  const nitrogen = sample.nitrogen && nitrogenAdvice(sample.packs, sample.nitrogen);
  if (nitrogen) cautions.push(...nitrogenCautions(nitrogen, sample.nitrogen));
  const needed = lime.needed.kind === "answer" && lime.needed.value !== "none" ? lime.needed.value.pack : undefined;
  const used = [...ratings, ...rates].map(({ outcome, pack }) => (outcome.kind === "answer" ? pack : undefined));
  if ([...used, needed, nitrogen?.nitrogen?.kind === "answer" ? nitrogen.nitrogenPack : undefined].some((p) => p?.status === "superseded")) cautions.push("superseded");
  return {
    ...nitrogen,
    ratings,
    rates,
    lime,
    cations: cationInformation(sample),
    cautions,
  };
};

const cationInformation = (sample: Sample): Outcome<Cations> => {
  const tries = sample.packs.flatMap((pack) => sectionsOf(pack, "cationSum").map((rule) => ({ pack, outcome: sumCations(rule, sample.measurements) })));
  return firstAnswer(tries, noAnswer("none of the chosen guidelines sums cations", ["a cation sum"])).outcome;
};
