import { cationInformation } from "./cations.ts";
import type { Said } from "./cautionTriggers.ts";
import type { CautionId } from "./cautions.ts";
import { cautionsFor } from "./cautions.ts";
import { limeAdvice } from "./lime/lime.ts";
import { nitrogenAdvice } from "./nitrogen/nitrogen.ts";
import { nutrientRates } from "./nutrientRates.ts";
import { rate } from "./rating.ts";
import type { Sample } from "./sample.ts";

/** All that the chosen guidelines say of one sample, with the cautions that it calls for. */
export interface Advice extends Omit<Said, "sample"> {
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
