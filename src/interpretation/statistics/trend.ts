import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Change } from "./change.ts";
import { changeBetween } from "./change.ts";
import type { Dated } from "./dated.ts";
import { alike, groupSizes, mean } from "./dated.ts";
import type { LeastSquares } from "./leastSquares.ts";
import { leastSquares } from "./leastSquares.ts";
import type { MannKendall } from "./mannKendall.ts";
import { mannKendall } from "./mannKendall.ts";
import type { MoreSamplings } from "./moreSamplings.ts";
import { moreSamplings } from "./moreSamplings.ts";
import type { Noise } from "./noise.ts";
import { fewestForTrend } from "./rankPower.ts";
import type { TestSeries } from "./series.ts";
import type { SlopeInterval, TheilSen } from "./theilSen.ts";
import { theilSen } from "./theilSen.ts";

/** A flat series is called a trend at most this often. */
const trendAlpha = 0.05;

interface Seen {
  /** Different dates with a result. */
  readonly samplings: number;
  readonly first: Dated;
  readonly last: Dated;
  /** First to last, beside the noise of two results. */
  readonly change: Outcome<Change>;
}

/** Every result is the same number: the slope is 0, and no test is made. */
export interface NoVariation extends Seen {
  readonly finding: "no variation";
  readonly slope: 0;
}

/** With fewer than five samplings no direction, however steady, can be told from chance at one in twenty. */
export interface TooFewSamplings extends Seen {
  readonly finding: "too few samplings";
  /** Theil-Sen, per year: what was seen, not what is shown. */
  readonly slope: number;
  readonly more: Outcome<MoreSamplings>;
}

export interface JudgedTrend extends Seen {
  readonly finding: "rising" | "falling" | "no detectable trend";
  /** Theil-Sen, per year. */
  readonly slope: number;
  readonly interval: SlopeInterval;
  readonly theilSen: TheilSen;
  readonly mannKendall: MannKendall;
  readonly leastSquares: LeastSquares | undefined;
  /** Only where no trend was detected. */
  readonly more: Outcome<MoreSamplings> | undefined;
  /** The results have a direction, but first and last are of two laboratories, which may differ by this much by themselves. */
  readonly withinLaboratories?: number;
}

export type Trend = NoVariation | TooFewSamplings | JudgedTrend;

/** Results of one day are one point of the change: their mean, taken to stray like one bag. */
const ends = (points: readonly Dated[]): [Dated, Dated] => {
  const [low, high] = [Math.min(...points.map((p) => p.x)), Math.max(...points.map((p) => p.x))];
  return [low, high].map((x) => {
    const [one, ...others] = points.filter((p) => alike(p.x, x));
    return others.length === 0 ? one : { x, y: mean([one!, ...others].map((p) => p.y)) };
  }) as [Dated, Dated];
};

/**
 * Where the comparable results of one place are going. The verdict rests on Mann-Kendall alone (exact up to ten results), the
 * slope and its limits on Theil-Sen; least squares stands beside them for comparison. Under five different dates the answer is
 * "too few samplings", with the change from first to last against the least significant change, and how many more would show
 * the slope seen. Where first and last result are of two laboratories, a direction is no trend while they differ by no more than
 * laboratories do: all results of one are off together, which no rank test sees. `noise` may be a refusal: then only what needs it is
 * refused. `ofOneLaboratory`: the noise within one, given where first and last result are of the same. No answer under two dates.
 */
export const trendOf = (
  { points, unit, labs = 1 }: Pick<TestSeries, "points" | "unit"> & Partial<Pick<TestSeries, "labs">>,
  noise: Outcome<Noise>,
  ofOneLaboratory?: Outcome<Noise>,
): Outcome<Trend> => {
  const samplings = groupSizes(points.map((p) => p.x)).length;
  if (points.length === 0) return noAnswer("nothing was measured", ["samplings"]);
  if (samplings < 2) return noAnswer("there is only one sampling, and nothing to compare it with", ["samplings"]);
  const [first, last] = ends(points);
  const seen: Seen = {
    samplings,
    first,
    last,
    change: changeBetween({ value: first.y, bags: first.bags }, { value: last.y, bags: last.bags }, ofOneLaboratory ?? noise),
  };
  if (points.every((p) => alike(p.y, points[0]!.y)))
    return answer({ ...seen, finding: "no variation", slope: 0 }, [{ what: "Every result is the same", result: "slope 0" }]);
  const rank = mannKendall(points);
  if (rank.kind === "noAnswer") return rank;
  const sen = theilSen(points, rank.value.variance, unit);
  if (sen.kind === "noAnswer") return sen;
  const { slope, interval } = sen.value;
  const opposite = Math.sign(slope) * Math.sign(last.y - first.y) < 0;
  const more = (): Outcome<MoreSamplings> =>
    opposite
      ? noAnswer("the slope seen and the change from first to last go opposite ways", ["a steady direction"])
      : moreSamplings({ samplings, slope, level: mean(points.map((p) => p.y)), first: first.x, last: last.x }, noise);
  if (samplings < fewestForTrend) {
    const wanted = more();
    return answer({ ...seen, finding: "too few samplings", slope, more: wanted }, [
      sen.steps[0]!,
      ...stepsOf(seen.change),
      ...stepsOf(wanted),
    ]);
  }
  const directed = rank.value.p < trendAlpha;
  const between = labs > 1 && ofOneLaboratory === undefined && seen.change.kind === "answer" ? seen.change.value : undefined;
  const withinLaboratories = directed && between && !between.beyondNoise ? between.least : undefined;
  const finding = !directed || withinLaboratories !== undefined ? "no detectable trend" : rank.value.s > 0 ? "rising" : "falling";
  const line = leastSquares(points);
  const wanted = directed ? undefined : more();
  return answer(
    {
      ...seen,
      finding,
      slope,
      interval,
      theilSen: sen.value,
      mannKendall: rank.value,
      leastSquares: line.kind === "answer" ? line.value : undefined,
      more: wanted,
      ...(withinLaboratories !== undefined && { withinLaboratories }),
    },
    [...(withinLaboratories === undefined ? [] : stepsOf(seen.change)), ...rank.steps, ...sen.steps, ...stepsOf(line), ...stepsOf(wanted)],
  );
};

const stepsOf = (outcome: Outcome<unknown> | undefined): readonly Step[] => (outcome?.kind === "answer" ? outcome.steps : []);
