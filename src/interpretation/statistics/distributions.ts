import { betaWeight, incompleteBeta, type Share } from "./incompleteBeta.ts";
import { normalCdf, normalQuantile } from "./normal.ts";

const shareOf = (t: number, df: number): Share => ({ x: 1 / (1 + (t * t) / df), y: 1 / (1 + df / (t * t)) });

/** P(T > t) of Student's t, taken from the near tail so that a tiny one keeps its digits. `df` may be Infinity: the normal. A&S 26.7.1. */
export const tAbove = (t: number, df: number): number => {
  if (df === Infinity) return normalCdf(-t);
  const near = incompleteBeta(shareOf(t, df), df / 2, 0.5) / 2;
  return t < 0 ? 1 - near : near;
};

/** P(|T| > |t|) of Student's t. */
export const tBeyond = (t: number, df: number): number => 2 * tAbove(Math.abs(t), df);

/**
 * The t that Student's t with `df` degrees of freedom (not necessarily whole, or Infinity) stays below with probability `p`.
 * Newton's method for the logarithm of the tail over the logarithm of t, where it is nearly straight; from Wallace's
 * transformation of the normal quantile (Annals of Mathematical Statistics 30, 1959; from memory: a start decides nothing).
 */
export const tQuantile = (p: number, df: number): number => {
  const z = normalQuantile(p);
  if (df === Infinity || !Number.isFinite(z) || z === 0) return z;
  const tail = Math.min(p, 1 - p);
  const start = (z * (8 * df + 3)) / (8 * df + 1);
  let t = Math.sqrt(df * Math.expm1((start * start) / df));
  for (let tries = 0; tries < 50; tries++) {
    const above = tAbove(t, df);
    // The slope is t times the density of t, which is this weight, over the tail.
    const step = (Math.log(above / tail) * above) / betaWeight(shareOf(t, df), df / 2, 0.5);
    t *= Math.exp(step);
    // Each step squares the error of the last.
    if (Math.abs(step) < 1e-8) break;
  }
  return Math.sign(z) * t;
};

/** P(F > f) with `df1` and `df2` degrees of freedom; a tiny one keeps its digits. A&S 26.6.2. */
export const fAbove = (f: number, df1: number, df2: number): number =>
  incompleteBeta({ x: 1 / (1 + (df1 * f) / df2), y: 1 / (1 + df2 / (df1 * f)) }, df2 / 2, df1 / 2);
