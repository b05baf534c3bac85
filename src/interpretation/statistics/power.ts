import { tQuantile } from "./distributions.ts";
import { noncentralTAbove } from "./noncentralT.ts";
import { normalQuantile } from "./normal.ts";

/** What a test of a slope is asked for: how often a flat series may be called a trend, on how many sides, and how often a true one must be found. */
export interface Demand {
  readonly alpha: number;
  readonly sides: 1 | 2;
  readonly power: number;
}

/** Five in a hundred on both sides, four out of five: the usual demand. */
export const usualDemand: Demand = { alpha: 0.05, sides: 2, power: 0.8 };

/** How often the least-squares t test on `df` degrees of freedom finds a slope that lies `delta` of its own standard errors from zero. */
export const powerOfSlope = (delta: number, df: number, { alpha, sides }: Pick<Demand, "alpha" | "sides">): number => {
  const critical = tQuantile(1 - alpha / sides, df);
  return noncentralTAbove(critical, df, delta) + (sides === 2 ? noncentralTAbove(critical, df, -delta) : 0);
};

const known = new Map<string, number>();

/**
 * The slope, in its own standard errors, that the t test finds as often as asked. The power rises with it about as the normal
 * curve does, so the miss is read off that curve, where it falls nearly along a line: the secant reaches the last digit in a few steps.
 */
const detectableDelta = (df: number, demand: Demand): number => {
  const key = `${df} ${demand.alpha} ${demand.sides} ${demand.power}`;
  let delta = known.get(key);
  if (delta === undefined) {
    const wanted = normalQuantile(demand.power);
    const missAt = (at: number): number => wanted - normalQuantile(powerOfSlope(at, df, demand));
    delta = tQuantile(1 - demand.alpha / demand.sides, df);
    for (let miss = missAt(delta), step = miss, i = 0; i < 50 && Math.abs(step) > 1e-12 * delta; i++) {
      delta += step;
      const left = missAt(delta);
      step = left === miss ? 0 : (step * left) / (miss - left);
      miss = left;
    }
    known.set(key, delta);
  }
  return delta;
};

/**
 * The smallest steady change per year that the least-squares t test finds as often as asked, in standard deviations of one
 * result. `samplings` (3 or more) results, `interval` years apart. Multiply by the standard deviation of one result.
 * Noncentral t with n - 2 degrees of freedom; the sum of squares of n equally spaced times is interval^2 n (n^2 - 1) / 12.
 */
export const minimumDetectableSlope = (samplings: number, interval: number, demand: Demand = usualDemand): number => {
  if (!Number.isInteger(samplings) || samplings < 3 || !(interval > 0))
    throw new Error(`a slope needs three samplings and time between them, not ${samplings} at ${interval} years`);
  return detectableDelta(samplings - 2, demand) / (interval * Math.sqrt((samplings * (samplings * samplings - 1)) / 12));
};
