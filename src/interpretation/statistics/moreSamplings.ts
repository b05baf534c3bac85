import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { Noise } from "./noise.ts";
import { sdAt } from "./noise.ts";
import { minimumDetectableSlope } from "./power.ts";
import { fewestForTrend, mostPlanned, rankDetectableSlope } from "./rankPower.ts";

export interface MoreSamplings {
  /** Samplings in all, and how many of them are still to come. `more` is 0 where there are enough already and the slope still did not show. */
  readonly total: number;
  readonly more: number;
  /** Samplings in all by the least-squares t test, which needs somewhat fewer than the rank test that the verdict rests on. */
  readonly totalByLine: number;
  /** Years between samplings, as they have been. */
  readonly interval: number;
  /** The sampling that would show it, in decimal years. */
  readonly until: number;
}

interface Seen {
  readonly samplings: number;
  readonly slope: number;
  /** Mean level, for noise in percent. */
  readonly level: number;
  readonly first: number;
  readonly last: number;
}

/**
 * How many more samplings at the present interval would show a slope such as the one seen, four times out of five, if it is
 * real. The noise of one result is taken at the mean level. No answer for a slope of zero, and beyond thirty samplings.
 */
export const moreSamplings = ({ samplings, slope, level, first, last }: Seen, noise: Outcome<Noise>): Outcome<MoreSamplings> => {
  if (noise.kind === "noAnswer") return noise;
  const interval = (last - first) / (samplings - 1);
  const sd = sdAt(noise.value, level);
  if (!(interval > 0)) return noAnswer("the samplings are all of one time", ["samplings"]);
  if (slope === 0) return noAnswer("the values seen do not rise or fall, so there is no slope to look for", []);
  if (sd === 0) return noAnswer("the results are zero, where noise in percent says nothing", ["a result above zero"]);
  const perStep = (Math.abs(slope) * interval) / sd;
  const total = firstFrom(fewestForTrend, (n) => rankDetectableSlope(n) <= perStep);
  if (total === undefined)
    return noAnswer(`the slope seen is so small beside the noise that more than ${mostPlanned} samplings are needed to show it`, [
      "samplings",
    ]);
  // The t test needs no more than the rank test, so its number is found on the way there.
  const totalByLine = firstFrom(3, (n) => minimumDetectableSlope(n, 1) <= perStep) ?? total;
  const more = Math.max(0, total - samplings);
  return answer({ total, more, totalByLine, interval, until: last + more * interval }, [
    {
      what: "Slope seen, in standard deviations of one result between two samplings",
      expression: `${plain(Math.abs(slope), 4)} × ${plain(interval, 2)} ÷ ${plain(sd)}`,
      result: plain(perStep, 2),
    },
    {
      what: "Samplings that show such a slope four times out of five, by Mann-Kendall",
      result: `${total}`,
      note: `by the least-squares t test ${totalByLine}`,
    },
  ]);
};

const firstFrom = (from: number, enough: (n: number) => boolean): number | undefined => {
  for (let n = from; n <= mostPlanned; n++) if (enough(n)) return n;
  return undefined;
};
