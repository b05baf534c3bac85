import { normalCdf } from "./normal.ts";

/** An even number of steps for Simpson's rule; with so many the tail is right to nine digits and more. */
const steps = 1000;

/**
 * P(T > t) of the noncentral t: T = (Z + delta) / R, where R is the ratio of an estimated to a true standard deviation on
 * `df` degrees of freedom. Worked out as the mean of P(Z > t r - delta) over R, by Simpson's rule.
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
