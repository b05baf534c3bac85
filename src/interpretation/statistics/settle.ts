import { tAbove, tQuantile } from "./distributions.ts";

/** Nobody takes more composites of one area than this to settle a question. */
const mostComposites = 30;

/** Four times out of five. */
const power = 0.8;

/** A difference shows, and what is found lies beyond the margin. */
const beyond = (size: number, over: number, error: number, df: number, alpha: number): boolean =>
  over / error >= tQuantile(power, df) && size / error >= tQuantile(1 - alpha / 2, df) + tQuantile(power, df);

export interface Settled {
  /** Composites of each area in all that would settle it four times out of five. */
  readonly perArea: number;
  /** How many of them are still to take of either area. */
  readonly more: readonly [number, number];
}

/** How well so many composites of each area would know the difference. */
export type Precision = (counts: readonly [number, number]) => { readonly error: number; readonly df: number };

/** Composites of one event, with the standard deviation of one composite in each area. */
export const ofComposites =
  (sds: readonly [number, number]): Precision =>
  ([a, b]) => ({ error: Math.sqrt(sds[0] ** 2 / a + sds[1] ** 2 / b), df: a + b - 2 });

/** Events at which both areas are sampled, with the standard deviation of one event's difference. */
export const ofEvents =
  (sd: number): Precision =>
  ([n]) => ({ error: sd / Math.sqrt(n), df: n - 1 });

/**
 * Composites of each area that would settle four times out of five whether two areas are alike, if the difference and the
 * spread stay as they are seen: by the usual approximation of the power of two one-sided tests where the difference is within
 * the margin; where it is beyond, a difference must show and be found beyond again. `undefined` where thirty each would not do
 * it, which is so where the difference is near the margin itself. `alpha`: below which p a difference shows.
 */
export const compositesToSettle = (
  difference: number,
  margin: number,
  have: readonly [number, number],
  precision: Precision,
  alpha = 0.05,
): Settled | undefined => {
  const size = Math.abs(difference);
  for (let n = 2; n <= mostComposites; n++) {
    const counts = have.map((h) => Math.max(h, n)) as [number, number];
    const { error, df } = precision(counts);
    const missed = (room: number): number => tAbove(room / error - tQuantile(0.95, df), df);
    const settled =
      size < margin ? missed(margin - size) + missed(margin + size) <= 1 - power : beyond(size, size - margin, error, df, alpha);
    if (settled && (counts[0] > have[0] || counts[1] > have[1])) return { perArea: n, more: [counts[0] - have[0], counts[1] - have[1]] };
  }
  return undefined;
};
