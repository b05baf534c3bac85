import type { Guideline } from "../guideline.ts";
import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { SamplingDepth } from "../rules/samplingParts.ts";
import { samplingDepthLabel } from "../rules/samplingParts.ts";
import type { CropId, PurposeId } from "../vocabulary.ts";

/** Common practice in inches: the plow layer, and the top foot for the June nitrate test. */
export const commonDepths = {
  routine: { from: 0, to: 6, toMost: 9, unit: "in" },
  phCheck: { from: 0, to: 6, toMost: 9, unit: "in" },
  nitrate: { from: 0, to: 12, unit: "in" },
} as const satisfies Record<PurposeId, SamplingDepth>;

interface Place {
  readonly packs: readonly Guideline[];
  /** The next crop, where one is planned. */
  readonly crop: CropId | undefined;
  /** Sod, hay or pasture. */
  readonly sod: boolean;
}

/** The depths at which a guideline reads phosphorus and potassium, of that crop where it is known; each once. */
const readAt = (pack: Guideline, crop: CropId | undefined) => {
  const depths = pack.sections.flatMap((s) =>
    "limits" in s &&
    "analyte" in s &&
    "depth" in s.limits &&
    s.limits.depth &&
    (s.analyte === "P" || s.analyte === "K") &&
    (crop === undefined || (s.limits.crops?.includes(crop) ?? true))
      ? [s.limits.depth]
      : [],
  );
  return depths.filter((d, i) => depths.findIndex((o) => o.from === d.from && o.to === d.to && o.unit === d.unit) === i);
};

/**
 * How deep to sample where no guideline says and nothing was sampled before: as deep as the first chosen guideline reads phosphorus
 * and potassium at, because results of another depth get no rate from it; else common practice. Sod has no common practice: how deep
 * it is sampled differs between places. A guideline with several depths for the crop is not guessed at.
 */
export const usualDepth = (purpose: PurposeId, { packs, crop, sod }: Place): Outcome<SamplingDepth> => {
  const pack = purpose === "nitrate" ? undefined : packs.find((p) => readAt(p, crop).length > 0);
  const [depth, ...more] = pack ? readAt(pack, crop) : [];
  if (pack && depth) {
    if (more.length > 0)
      return noAnswer(`${pack.short} reads results from ${[depth, ...more].map(samplingDepthLabel).join(" and from ")}, by what is grown`, [
        "depth",
      ]);
    const { from, to, unit, source, evidence } = depth;
    return answer({ from, to, unit }, [
      { what: `The depth at which ${pack.short} reads phosphorus and potassium`, result: samplingDepthLabel(depth), source, evidence },
    ]);
  }
  if (sod && purpose !== "nitrate") return noAnswer("how deep sod is sampled differs between places", ["depth"]);
  return answer(commonDepths[purpose], [
    {
      what: purpose === "nitrate" ? "Common practice for the test in June; one before planting goes deeper" : "Common practice",
      result: samplingDepthLabel(commonDepths[purpose]),
      source: "common-practice",
    },
  ]);
};
