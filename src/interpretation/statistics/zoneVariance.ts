import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { mean } from "./dated.ts";
import { fAbove } from "./distributions.ts";

export interface ZoneVariance {
  readonly n: number;
  readonly zones: number;
  readonly total: number;
  readonly within: number;
  /** Share of the sum of squares that the zones account for. */
  readonly rSquared: number;
  /** 1 - within variance / total variance, the zones' variances pooled. Below zero where the map separates nothing. */
  readonly reduction: number;
  /** The same with each zone's variance weighed by its share of the samples. */
  readonly reductionByShare: number;
  readonly f: number;
  readonly p: number;
}

/**
 * How much of the spread of one analyte a map of zones takes away. Each zone is a list of results, two or more; two or more
 * zones. Compare a map with two zones merged by its pooled reduction: if that does not fall, the line between them told nothing.
 */
export const zoneVariance = (zones: readonly (readonly number[])[]): Outcome<ZoneVariance> => {
  if (zones.length < 2 || zones.some((z) => z.length < 2))
    return noAnswer("a map is judged by two or more results in each of two or more zones", ["results in each zone"]);
  const all = zones.flat();
  const squares = (list: readonly number[]): number => list.reduce((sum, v) => sum + (v - mean(list)) ** 2, 0);
  const [n, k, sst] = [all.length, zones.length, squares(all)];
  if (sst === 0) return noAnswer("every result is the same", ["results that differ"]);
  const ssw = zones.reduce((sum, z) => sum + squares(z), 0);
  const total = sst / (n - 1);
  const within = ssw / (n - k);
  const byShare = zones.reduce((sum, z) => sum + (z.length / n) * (squares(z) / (z.length - 1)), 0);
  const f = (sst - ssw) / (k - 1) / within;
  const value: ZoneVariance = {
    n,
    zones: k,
    total,
    within,
    rSquared: 1 - ssw / sst,
    reduction: 1 - within / total,
    reductionByShare: 1 - byShare / total,
    f,
    p: fAbove(f, k - 1, n - k),
  };
  return answer(value, [
    { what: "Variance of all results", result: plain(total) },
    { what: "Variance within the zones, pooled", result: plain(within) },
    {
      what: "Share of the variance that the zones take away",
      expression: `1 − ${plain(within)} ÷ ${plain(total)}`,
      result: plain(value.reduction),
    },
  ]);
};
