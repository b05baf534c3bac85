import type { Measurement } from "../../interpretation/measurement.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { Rating } from "../../interpretation/rules/bands.ts";
import { edgesWithinNoise } from "../../interpretation/statistics/change.ts";
import type { Classes } from "../../interpretation/statistics/margins.ts";
import type { Noise } from "../../interpretation/statistics/noise.ts";
import type { AnalyteId, MethodId } from "../../interpretation/vocabulary.ts";
import { edgesOf } from "../trends/trendVerdict.ts";

/** A zone's newest result, and the class that a guideline gives it. */
export interface Classed extends Classes {
  readonly measurement: Measurement;
  readonly rating: Rating;
}

/** The class of two zones, and by which guideline. */
export interface OneClass {
  readonly name: string;
  readonly by: string;
}

/**
 * The class that both of two zones surely have and that wants nothing raised: neither result lies within noise of a bound, each asked on
 * one side at 5 %. A soil rich in magnesium is, whether or not its zones differ by the margin.
 */
export const oneClass = (
  zones: readonly Classed[],
  noise: (analyte: AnalyteId, method: MethodId) => Outcome<Noise>,
): OneClass | undefined => {
  const [first, second] = zones;
  if (!first || !second || first.by !== second.by || first.rating.band !== second.rating.band) return undefined;
  const sure = [first, second].every(({ measurement, rating, bands }) => {
    const spread = noise(measurement.analyte, measurement.method);
    return (
      rating.position !== undefined &&
      rating.position !== "below" &&
      bands.length > 0 &&
      !measurement.qualifier &&
      spread.kind === "answer" &&
      edgesWithinNoise(measurement, edgesOf(bands), spread.value).length === 0
    );
  });
  return sure ? { name: first.rating.band, by: first.by } : undefined;
};
