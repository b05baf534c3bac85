import { cationInformation } from "./cations.ts";
import type { CautionId } from "./cautions.ts";
import { cautionsFor } from "./cautions.ts";
import type { LimeAdvice } from "./lime.ts";
import { limeAdvice } from "./lime.ts";
import type { NitrogenAdvice } from "./nitrogen.ts";
import { nitrogenAdvice } from "./nitrogen.ts";
import type { RateAdvice } from "./nutrientRates.ts";
import { nutrientRates } from "./nutrientRates.ts";
import type { Outcome } from "./outcome.ts";
import type { RatingAdvice } from "./rating.ts";
import { rate } from "./rating.ts";
import type { Cations } from "./rules/cationSum.ts";
import type { Sample } from "./sample.ts";

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
  const ratings = sample.measurements.map((m) => rate(sample, m));
  const nitrogen = sample.nitrogen && nitrogenAdvice(sample.packs, sample.nitrogen);
  const said = { ...nitrogen, ratings, rates, lime, cations: cationInformation(sample.packs, sample.measurements) };
  return { ...said, cautions: cautionsFor({ ...said, sample }) };
};
