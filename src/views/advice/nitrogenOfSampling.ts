import { nitrogenAdvice } from "../../interpretation/nitrogen/nitrogen.ts";
import type { Farm, Field, Sampling, Zone } from "../../records/model.ts";
import { isAnswered } from "../results/awaited.ts";
import { nitrogenOf, zoneSample } from "./sample.ts";
import { nitrogenRate } from "../units.ts";

/** What a nitrate test called for in one zone: the rate in words, and whose rule it is or why there is none. */
export interface NitrogenCalled {
  readonly rate: string;
  readonly by: string;
}

/** As the guidelines chosen today read the test; `undefined` where none of them has a nitrogen rule for the crop that stood then. */
export const nitrogenOfSampling = (farm: Farm, field: Field, zone: Zone, sampling: Sampling): NitrogenCalled | undefined => {
  const routine = field.samplings.findLast((s) => s.purpose === "routine" && s.date <= sampling.date && isAnswered(s, zone.id));
  const { organicMatter, origins } = (routine && zoneSample(farm, field, zone, routine)?.sample.facts) ?? {};
  const tested =
    organicMatter === undefined || !origins?.organicMatter ? undefined : { value: organicMatter, source: origins.organicMatter };
  const { basis, question } = nitrogenOf(farm, field, zone, sampling.date, sampling.date, tested);
  if (basis.sampling !== sampling) return undefined;
  const { nitrogen, nitrogenPack } = nitrogenAdvice(field.guidelines, question);
  if (!nitrogen) return undefined;
  if (nitrogen.kind === "noAnswer") return { rate: "", by: `no nitrogen rate for ${zone.name}, because ${nitrogen.because}` };
  const shown = nitrogenRate(nitrogen.value, farm.units);
  const amount = `${shown.value} ${shown.unit} of nitrogen`;
  return {
    rate: nitrogen.value.atMost
      ? `at most ${amount} allowed`
      : `${amount} called for${nitrogen.value.level === undefined ? "" : `, at ${nitrogen.value.level}`}`,
    by: `nitrogen by ${nitrogenPack?.short ?? ""}`,
  };
};
