import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { Dated } from "./dated.ts";
import { alike, median } from "./dated.ts";
import { normalQuantile } from "./normal.ts";

export interface SlopeInterval {
  readonly from: number;
  readonly to: number;
  /** 0.95 for 95 %. */
  readonly confidence: number;
  /** Places in the sorted list of slopes, counted from 1, between which the limits are read. */
  readonly ranks: readonly [number, number];
  /** `stated`: ten results or more, as the method says of itself. `approximate`: five to nine. `widest`: under five the list ends before the limit. */
  readonly validity: "stated" | "approximate" | "widest";
}

export interface TheilSen {
  /** Per year: the middle of the slopes between all pairs of results at different times. */
  readonly slope: number;
  /** median(y) - slope * median(x): the convention of this site. */
  readonly intercept: number;
  /** The other convention in use, the median of y - slope * x. */
  readonly interceptOfResiduals: number;
  /** Of all pairs at different times, lowest first. */
  readonly slopes: readonly number[];
}

const sorted = (numbers: readonly number[]): number[] => [...numbers].sort((a, b) => a - b);

/** The Theil-Sen line, `undefined` where all results are of one time. One wild result does not carry it away. */
export const theilSenLine = (points: readonly Dated[]): TheilSen | undefined => {
  const slopes: number[] = [];
  for (let i = 0; i < points.length; i++)
    for (let j = i + 1; j < points.length; j++) {
      const [a, b] = [points[i]!, points[j]!];
      if (!alike(a.x, b.x)) slopes.push((b.y - a.y) / (b.x - a.x));
    }
  if (slopes.length === 0) return undefined;
  slopes.sort((a, b) => a - b);
  const slope = median(slopes);
  return {
    slope,
    intercept: median(sorted(points.map((p) => p.y))) - slope * median(sorted(points.map((p) => p.x))),
    interceptOfResiduals: median(sorted(points.map((p) => p.y - slope * p.x))),
    slopes,
  };
};

/** The value at a place in a sorted list, counted from 1; between two places along the straight line; never past the ends. */
const atRank = (list: readonly number[], rank: number): number => {
  const place = Math.min(Math.max(rank, 1), list.length) - 1;
  const low = Math.floor(place);
  const here = list[low]!;
  return here + (place - low) * ((list[low + 1] ?? here) - here);
};

/**
 * Limits of the slope: the slopes at the places (N - C) / 2 and (N + C) / 2 + 1, C = z sd(S), read along the line between
 * two places rather than at the nearest whole one. `variance` is that of S with ties; `n` the number of results.
 */
export const slopeInterval = (slopes: readonly number[], variance: number, n: number, confidence = 0.95): SlopeInterval => {
  const reach = normalQuantile((1 + confidence) / 2) * Math.sqrt(variance);
  const ranks = [(slopes.length - reach) / 2, (slopes.length + reach) / 2 + 1] as const;
  return {
    from: atRank(slopes, ranks[0]),
    to: atRank(slopes, ranks[1]),
    confidence,
    ranks,
    validity: n >= 10 ? "stated" : n >= 5 ? "approximate" : "widest",
  };
};

const validityWords: Readonly<Record<SlopeInterval["validity"], string>> = {
  stated: "",
  approximate: ", approximate with fewer than ten results",
  widest: ", the widest the pairs allow",
};

/** The Theil-Sen slope with its limits, and the steps. `unit` is that of the values; `variance` that of Mann-Kendall's S. */
export const theilSen = (
  points: readonly Dated[],
  variance: number,
  unit: string,
  confidence = 0.95,
): Outcome<TheilSen & { readonly interval: SlopeInterval }> => {
  const line = theilSenLine(points);
  if (!line) return noAnswer("all results are of one time", ["samplings"]);
  const interval = slopeInterval(line.slopes, variance, points.length, confidence);
  const perYear = unit === "pH" ? "pH a year" : `${unit} a year`;
  const steps: Step[] = [
    {
      what: "Slope: the middle one of the slopes between every two results (Theil-Sen)",
      result: `${plain(line.slope, 4)} ${perYear}`,
      source: { reference: "us-epa-unified-guidance-2009", at: "chapter 17" },
      evidence: "secondary",
    },
    {
      what: `Limits of the slope, ${plain(confidence * 100)} in 100${validityWords[interval.validity]}`,
      expression: `places ${plain(interval.ranks[0], 2)} and ${plain(interval.ranks[1], 2)} of ${line.slopes.length}, read between the nearest`,
      result: `${plain(interval.from, 4)} to ${plain(interval.to, 4)} ${perYear}`,
    },
  ];
  return answer({ ...line, interval }, steps);
};
