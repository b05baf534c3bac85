import type { Guideline } from "../interpretation/guideline.ts";
import { sectionsOf } from "../interpretation/guideline.ts";
import type { PurposeId } from "../interpretation/vocabulary.ts";
import { purposes } from "../interpretation/vocabulary.ts";
import type { Sampling } from "../records/model.ts";

/** What a sampling is called: "routine sampling", and in a row of counts "routine". */
export interface SamplingName {
  readonly label: string;
  readonly short: string;
}

/** Mineral nitrogen is nitrate and ammonium: its test is no nitrate test. */
const nitrogen: SamplingName = { label: "nitrogen sampling", short: "nitrogen" };

/** Of a sampling that was taken, by what its package tests. */
export const samplingName = ({ purpose, measures }: Sampling): SamplingName =>
  purpose === "nitrate" && measures.mineralN ? nitrogen : purposes[purpose];

const readsNitrate = ["nitrateLinear", "nitrateTable", "yieldLessNitrate", "profileNitrate"] as const;
const readsMineral = ["nitrogenNeed", "nitrogenSupply"] as const;

/** Of one to come, by what the guidelines read. */
export const plannedName = (guidelines: readonly Guideline[], purpose: PurposeId): SamplingName => {
  const some = (kinds: typeof readsNitrate | typeof readsMineral): boolean =>
    guidelines.some((pack) => kinds.some((kind) => sectionsOf(pack, kind).length > 0));
  return purpose === "nitrate" && some(readsMineral) && !some(readsNitrate) ? nitrogen : purposes[purpose];
};

/** "14 routine", "2 pH check", "1 nitrate": how many of each there are. */
export const samplingCounts = (
  samplings: readonly Sampling[],
): { readonly n: number; readonly purpose: PurposeId; readonly name: SamplingName }[] =>
  (["routine", "phCheck", "nitrate"] as const).flatMap((purpose) => {
    const some = samplings.filter((s) => s.purpose === purpose);
    return [...Map.groupBy(some, samplingName)].map(([name, { length }]) => ({ n: length, purpose, name }));
  });
