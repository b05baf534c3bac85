import { alike, mean } from "./dated.ts";

/** Fewer pairs than this say too little of a farm's own noise: from three the true standard deviation may still be 0.6 to 3.7 times the estimate (chi-squared, 95 %). */
export const fewestPairs = 3;

/** The results of bags of one zone on one day by one method. */
export type Bags = readonly number[];

export interface PooledDuplicates {
  /** Standard deviation of one bag: percent of the value, or in units. */
  readonly value: number;
  readonly as: "percent" | "units";
  /** Pairs, or degrees of freedom: three bags of one day count as two pairs. */
  readonly pairs: number;
}

/**
 * A farm's own noise: the variance within duplicates, pooled over days and zones. As percent of the mean where noise grows
 * with the value. For pairs it is the root of the sum of squared differences over twice their number. `undefined` under
 * three pairs, and where all bags agree to the printed digit: rounding then hides the noise, which is not zero. Every zone of
 * a farm asks of the same list, so each list is pooled once.
 */
export const pooledDuplicates = (days: readonly Bags[], as: "percent" | "units"): PooledDuplicates | undefined => {
  let pooled = known[as].get(days);
  if (!pooled) known[as].set(days, (pooled = { of: pool(days, as) }));
  return pooled.of;
};

type Pooled = WeakMap<readonly Bags[], { readonly of: PooledDuplicates | undefined }>;
const known: Readonly<Record<"percent" | "units", Pooled>> = { percent: new WeakMap(), units: new WeakMap() };

const pool = (days: readonly Bags[], as: "percent" | "units"): PooledDuplicates | undefined => {
  let [squares, pairs] = [0, 0];
  for (const bags of days) {
    if (bags.length < 2) continue;
    const middle = mean(bags);
    if (as === "percent" && !(middle > 0)) continue;
    const scale = as === "percent" ? 100 / middle : 1;
    squares += bags.reduce((sum, b) => sum + ((b - middle) * scale) ** 2, 0);
    pairs += bags.length - 1;
  }
  return pairs < fewestPairs || alike(squares, 0) ? undefined : { value: Math.sqrt(squares / pairs), as, pairs };
};

/** How many pairs there are, of whatever worth. */
export const countPairs = (days: readonly Bags[]): number => days.reduce((sum, bags) => sum + Math.max(0, bags.length - 1), 0);
