/** A value at a time: `x` in decimal years, `y` in the unit of the analyte. */
export interface Dated {
  readonly x: number;
  readonly y: number;
  /** The bags that `y` is the mean of; absent for one. */
  readonly bags?: readonly unknown[] | undefined;
}

/**
 * Are two numbers one, but for the computer's dust? Means of bags and slopes of one-decimal pH differ in the sixteenth
 * digit where on paper they are equal. The tolerance is a billionth, of the number itself where it is above one.
 */
export const alike = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b));

/** -1, 0 or 1: does `b` lie below, with or above `a`? */
export const direction = (a: number, b: number): -1 | 0 | 1 => (alike(a, b) ? 0 : b > a ? 1 : -1);

/** How many numbers there are of each value, lowest value first. */
export const groupSizes = (numbers: readonly number[]): number[] => {
  const sorted = [...numbers].sort((a, b) => a - b);
  const sizes: number[] = [];
  sorted.forEach((n, i) => {
    if (i > 0 && alike(sorted[i - 1]!, n)) sizes[sizes.length - 1]!++;
    else sizes.push(1);
  });
  return sizes;
};

/** The middle of a sorted list, or the mean of the two in the middle. The list must hold something. */
export const median = (sorted: readonly number[]): number => {
  const half = sorted.length / 2;
  return Number.isInteger(half) ? (sorted[half - 1]! + sorted[half]!) / 2 : sorted[Math.floor(half)]!;
};

export const mean = (numbers: readonly number[]): number => numbers.reduce((sum, n) => sum + n, 0) / numbers.length;
