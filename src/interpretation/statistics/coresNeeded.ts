import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { tQuantile } from "./distributions.ts";

export interface CoresQuestion {
  /** Standard deviation between cores, percent of the mean. */
  readonly cv: number;
  /** How far the mean of the cores may miss, percent of the mean. */
  readonly error: number;
  /** How often it may miss by no more: 0.95 for 19 times in 20. */
  readonly confidence: number;
  /** Cores of a pilot that the spread was learned from: their t is used as it stands. Absent: t is that of the cores themselves. */
  readonly pilot?: number | undefined;
}

export interface Cores {
  readonly cores: number;
  /** Before rounding up, at the t that was used. */
  readonly exact: number;
}

/** Beyond this nobody walks; and the error asked for was a slip. */
const mostCores = 100_000;

/**
 * Cores needed so that their mean misses the area's by at most `error` percent: the smallest n with n >= (t CV / E)^2, where t
 * itself is that of n - 1 degrees of freedom. At least 2. Spread that is skewed, as of P, K and nitrate, makes it approximate.
 */
export const coresNeeded = ({ cv, error, confidence, pilot }: CoresQuestion): Outcome<Cores> => {
  if (!(cv > 0) || !(error > 0))
    return noAnswer("the spread between cores and the error allowed are not both above zero", ["spread between cores", "error allowed"]);
  const t = (n: number): number => tQuantile((1 + confidence) / 2, (pilot ?? n) - 1);
  const wanted = (n: number): number => ((t(n) * cv) / error) ** 2;
  // What is wanted falls as n grows, so the first n that is enough lies between 2 and any n that is.
  let [low, high] = [1, 2];
  while (high < wanted(high)) {
    if (high > mostCores)
      return noAnswer(`more than ${plain(mostCores)} cores are wanted for so small an error`, ["a larger error allowed"]);
    [low, high] = [high, high * 2];
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (middle < wanted(middle)) low = middle;
    else high = middle;
  }
  const exact = wanted(high);
  return answer({ cores: high, exact }, [
    {
      what: `Cores for a mean within ${plain(error)}%, ${plain(confidence * 100)} times in 100`,
      expression: `(${plain(t(high))} × ${plain(cv)} ÷ ${plain(error)})² = ${plain(exact, 1)}`,
      result: `${high} cores`,
      note:
        pilot === undefined
          ? `t of ${high - 1} degrees of freedom, tried until the number repeats`
          : `t of the ${pilot} cores of the pilot`,
    },
  ]);
};
