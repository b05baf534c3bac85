import { mean } from "./dated.ts";
import { tAbove, tBeyond, tQuantile } from "./distributions.ts";

/** Results of one area in short. */
export interface Summary {
  readonly mean: number;
  readonly sd: number;
  readonly n: number;
}

/** Mean, standard deviation and number of two or more results; of one result the deviation is 0 and means nothing. */
export const summaryOf = (values: readonly number[]): Summary => {
  const middle = mean(values);
  const squares = values.reduce((sum, v) => sum + (v - middle) ** 2, 0);
  return { mean: middle, sd: values.length < 2 ? 0 : Math.sqrt(squares / (values.length - 1)), n: values.length };
};

/** A difference, first less second, with its standard error on `df` degrees of freedom. */
export interface Difference {
  readonly difference: number;
  readonly error: number;
  readonly df: number;
}

/** Each area keeps its own spread; degrees of freedom after Welch and Satterthwaite. Two or more results in each. */
export const welch = (a: Summary, b: Summary): Difference => {
  const [va, vb] = [a.sd ** 2 / a.n, b.sd ** 2 / b.n];
  return { difference: a.mean - b.mean, error: Math.sqrt(va + vb), df: (va + vb) ** 2 / (va ** 2 / (a.n - 1) + vb ** 2 / (b.n - 1)) };
};

/** One spread for both areas: only where somebody has reason to hold them equal. */
export const pooled = (a: Summary, b: Summary): Difference => {
  const df = a.n + b.n - 2;
  const sd = Math.sqrt(((a.n - 1) * a.sd ** 2 + (b.n - 1) * b.sd ** 2) / df);
  return { difference: a.mean - b.mean, error: sd * Math.sqrt(1 / a.n + 1 / b.n), df };
};

/** Differences between two areas that were sampled together, one for each event: what moves both areas alike drops out. Two or more. */
export const byEvent = (differences: readonly number[]): Difference => {
  const { mean: difference, sd, n } = summaryOf(differences);
  return { difference, error: sd / Math.sqrt(n), df: n - 1 };
};

export interface TwoAreas extends Difference {
  /** Of no difference at all, two-sided. */
  readonly t: number;
  readonly p: number;
  readonly limits95: readonly [number, number];
  /** Of a difference at or below the lower margin, and at or above the upper: both must be small. */
  readonly tLower: number;
  readonly pLower: number;
  readonly tUpper: number;
  readonly pUpper: number;
  /** The greater of the two. */
  readonly pEquivalent: number;
  /** Two one-sided tests at 5 % say "equivalent" exactly where these lie within the margin. */
  readonly limits90: readonly [number, number];
}

/** Both questions at once: is there a difference, and is it surely less than `margin` either way? The error must be above zero. */
export const testTwoAreas = (d: Difference, margin: number): TwoAreas => {
  const { difference, error, df } = d;
  const limits = (confidence: number): [number, number] => {
    const reach = tQuantile((1 + confidence) / 2, df) * error;
    return [difference - reach, difference + reach];
  };
  const t = difference / error;
  const [tLower, tUpper] = [(difference + margin) / error, (difference - margin) / error];
  const [pLower, pUpper] = [tAbove(tLower, df), tAbove(-tUpper, df)];
  return {
    ...d,
    t,
    p: tBeyond(t, df),
    limits95: limits(0.95),
    tLower,
    pLower,
    tUpper,
    pUpper,
    pEquivalent: Math.max(pLower, pUpper),
    limits90: limits(0.9),
  };
};
