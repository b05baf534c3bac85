import { tAbove, tQuantile } from "./distributions.ts";

/** Nobody takes more composites of one area than this to settle a question. */
export const mostComposites = 30;

/** Four times out of five. */
const power = 0.8;

/** A difference shows, and what is found lies beyond the margin. */
const beyond = (size: number, over: number, error: number, df: number): boolean => over / error >= tQuantile(power, df) && size / error >= tQuantile(0.975, df) + tQuantile(power, df);

export interface Settled {
  /** Composites of each area in all that would settle it four times out of five. */
  readonly perArea: number;
  /** How many of them are still to take of either area. */
  readonly more: readonly [number, number];
}

/**
 * Composites of each area that would settle four times out of five whether two areas are alike, if the difference and the
 * spread stay as they are seen: by the usual approximation of the power of two one-sided tests where the difference is within
 * the margin; where it is beyond, a difference must show and be found beyond again. `sds` are those of one composite in each
 * area. `undefined` where thirty each would not do it, which is so where the difference is near the margin itself.
 */
export const compositesToSettle = (difference: number, margin: number, sds: readonly [number, number], have: readonly [number, number]): Settled | undefined => {
  const size = Math.abs(difference);
  for (let n = 2; n <= mostComposites; n++) {
    const counts = have.map((h) => Math.max(h, n)) as [number, number];
    const error = Math.sqrt(sds[0] ** 2 / counts[0] + sds[1] ** 2 / counts[1]);
    const df = counts[0] + counts[1] - 2;
    const missed = (room: number): number => tAbove(room / error - tQuantile(0.95, df), df);
    const settled = size < margin ? missed(margin - size) + missed(margin + size) <= 1 - power : beyond(size, size - margin, error, df);
    if (settled && (counts[0] > have[0] || counts[1] > have[1])) return { perArea: n, more: [counts[0] - have[0], counts[1] - have[1]] };
  }
  return undefined;
};
