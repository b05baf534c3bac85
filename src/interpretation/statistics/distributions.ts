import fCdf from "@stdlib/stats-base-dists-f-cdf";
import cdfOfNormal from "@stdlib/stats-base-dists-normal-cdf";
import quantileOfNormal from "@stdlib/stats-base-dists-normal-quantile";
import cdfOfT from "@stdlib/stats-base-dists-t-cdf";
import quantileOfT from "@stdlib/stats-base-dists-t-quantile";

/** P(Z <= z) of the standard normal. */
export const normalCdf = (z: number): number => cdfOfNormal(z, 0, 1);

/** The z that a standard normal stays below with probability `p`. */
export const normalQuantile = (p: number): number => quantileOfNormal(p, 0, 1);

/** P(T > t) of Student's t, taken from the near tail so that a tiny one keeps its digits. `df` may be Infinity: the normal. */
export const tAbove = (t: number, df: number): number => (df === Infinity ? normalCdf(-t) : cdfOfT(-t, df));

/** P(|T| > |t|) of Student's t. */
export const tBeyond = (t: number, df: number): number => 2 * tAbove(Math.abs(t), df);

/** The t that Student's t with `df` degrees of freedom (not necessarily whole, or Infinity) stays below with probability `p`. */
export const tQuantile = (p: number, df: number): number => (df === Infinity ? normalQuantile(p) : quantileOfT(p, df));

/** P(F > f) with `df1` and `df2` degrees of freedom, turned over so that a tiny one keeps its digits. */
export const fAbove = (f: number, df1: number, df2: number): number => fCdf(1 / f, df2, df1);

/** An even number of steps for Simpson's rule; with so many the tail is right to nine digits and more. */
const steps = 1000;

/**
 * P(T > t) of the noncentral t: T = (Z + delta) / R, where R is the ratio of an estimated to a true standard deviation on
 * `df` degrees of freedom. Worked out as the mean of P(Z > t r - delta) over R, by Simpson's rule; no library at hand has it.
 */
export const noncentralTAbove = (t: number, df: number, delta: number): number => {
  // R keeps near 1, within about 1 / sqrt(2 df) of it; beyond these ends nothing is left that nine digits would show.
  const [start, end] = [Math.max(0, 1 - 6 / Math.sqrt(2 * df)), 1 + 9 / Math.sqrt(2 * df)];
  let [sum, whole] = [0, 0];
  for (let i = 0; i <= steps; i++) {
    const r = start + ((end - start) * i) / steps;
    // The density of R up to its constant, which cancels: at r = 1 it is 1, so nothing runs over.
    const density = r ** (df - 1) * Math.exp((df * (1 - r * r)) / 2);
    const weight = (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * density;
    whole += weight;
    sum += weight * normalCdf(delta - t * r);
  }
  return sum / whole;
};
