import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { Dated } from "./dated.ts";
import { direction, groupSizes } from "./dated.ts";
import { normalCdf } from "./normal.ts";
import { exactTwoSided } from "./exactRanks.ts";

/** Up to this many results every order can be counted; beyond it the normal curve is close. */
const mostExact = 10;

export interface MannKendall {
  readonly n: number;
  /** Pairs that rise less pairs that fall. */
  readonly s: number;
  /** Of S without a trend, corrected for equal values and equal times. */
  readonly variance: number;
  /** (S - sign S) / sd, and 0 where S or its variance is 0. */
  readonly z: number;
  /** Two-sided, by the normal curve; absent where the variance is 0. */
  readonly pNormal: number | undefined;
  /** Two-sided, by counting every order; absent above ten results. */
  readonly pExact: number | undefined;
  /** The one that counts: exact where there is one. 1 where every value is the same. */
  readonly p: number;
  readonly method: "every order counted" | "normal curve with continuity correction";
  /** S over all pairs. */
  readonly tauA: number;
  /** S over the geometric mean of the pairs that differ in time and in value; absent where none do. */
  readonly tauB: number | undefined;
}

const sum = (sizes: readonly number[], of: (size: number) => number): number => sizes.reduce((total, size) => total + of(size), 0);

/** The variance of S with equal values `t` and equal times `u`; the two cross terms count only where both occur. */
const varianceOfS = (n: number, t: readonly number[], u: readonly number[]): number => {
  const main = (k: number): number => k * (k - 1) * (2 * k + 5);
  const pairs = (k: number): number => k * (k - 1);
  const triples = (k: number): number => k * (k - 1) * (k - 2);
  const cross = n > 2 ? (sum(t, triples) * sum(u, triples)) / (9 * triples(n)) : 0;
  return (main(n) - sum(t, main) - sum(u, main)) / 18 + cross + (sum(t, pairs) * sum(u, pairs)) / (2 * pairs(n));
};

/** Kendall's S over all pairs. */
const kendallS = (points: readonly Dated[]): number => {
  let s = 0;
  for (let i = 0; i < points.length; i++)
    for (let j = i + 1; j < points.length; j++) s += direction(points[i]!.x, points[j]!.x) * direction(points[i]!.y, points[j]!.y);
  return s;
};

/**
 * The Mann-Kendall test for a rise or fall that keeps its direction, whatever its shape. Times need not be even and may be
 * equal; values may be equal. Two or more results; with ten or fewer the probability is exact, ties and all.
 */
export const mannKendall = (points: readonly Dated[]): Outcome<MannKendall> => {
  const n = points.length;
  if (n < 2) return noAnswer("there are fewer than two results", ["samplings"]);
  const [times, values] = [groupSizes(points.map((p) => p.x)), groupSizes(points.map((p) => p.y))];
  const s = kendallS(points);
  const pairs = (n * (n - 1)) / 2;
  const tied = (sizes: readonly number[]): number => sum(sizes, (k) => (k * (k - 1)) / 2);
  const different = Math.sqrt((pairs - tied(times)) * (pairs - tied(values)));
  const variance = different === 0 ? 0 : varianceOfS(n, values, times);
  const z = variance === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(variance);
  const pNormal = variance === 0 ? undefined : Math.min(1, 2 * normalCdf(-Math.abs(z)));
  const pExact = n <= mostExact ? exactTwoSided(times, values, s) : undefined;
  const value: MannKendall = {
    n,
    s,
    variance,
    z,
    pNormal,
    pExact,
    p: pExact ?? pNormal ?? 1,
    method: pExact === undefined ? "normal curve with continuity correction" : "every order counted",
    tauA: s / pairs,
    tauB: different === 0 ? undefined : s / different,
  };
  return answer(value, stepsOf(value, pairs));
};

const stepsOf = (m: MannKendall, pairs: number): Step[] => [
  { what: "Pairs of results, every later one against every earlier one", result: `${plain(pairs)} pairs` },
  {
    what: "Pairs that rise less pairs that fall (S)",
    result: plain(m.s),
    source: { reference: "us-epa-unified-guidance-2009", at: "chapter 17" },
    evidence: "secondary",
  },
  {
    what: `Chance of so strong a direction if nothing changes, either way (Mann-Kendall, ${m.method})`,
    result: plain(m.p, 4),
    ...(m.pExact === undefined &&
      m.variance > 0 && { expression: `z = (${plain(m.s)} − ${plain(Math.sign(m.s))}) ÷ √${plain(m.variance, 2)} = ${plain(m.z, 2)}` }),
  },
];
