import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { Dated } from "./dated.ts";
import { alike, mean } from "./dated.ts";
import { tBeyond, tQuantile } from "./distributions.ts";

export interface LeastSquares {
  readonly slope: number;
  readonly intercept: number;
  readonly slopeError: number;
  readonly interceptError: number;
  readonly residualSd: number;
  readonly df: number;
  /** Absent where the values do not vary. */
  readonly rSquared: number | undefined;
  /** Two-sided; absent where every value lies on the line, so that no error is known. */
  readonly p: number | undefined;
  /** The t that the limits were taken with, and the limits of the slope. */
  readonly t: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The straight line of least squares, for comparison beside Theil-Sen: it is the more exact where the noise is even and
 * normal, and is carried away by one wild result. Three or more results at two or more times. Slope per unit of x.
 */
export const leastSquares = (points: readonly Dated[], confidence = 0.95): Outcome<LeastSquares> => {
  const n = points.length;
  if (n < 3) return noAnswer("there are fewer than three results, so a line would have no error", ["samplings"]);
  // About the means, so that years near 2000 cost no digits.
  const [x0, y0] = [mean(points.map((p) => p.x)), mean(points.map((p) => p.y))];
  let [xx, xy, yy] = [0, 0, 0];
  for (const { x, y } of points) {
    xx += (x - x0) ** 2;
    xy += (x - x0) * (y - y0);
    yy += (y - y0) ** 2;
  }
  if (points.every((p) => alike(p.x, points[0]!.x))) return noAnswer("all results are of one time", ["samplings"]);
  const flat = points.every((p) => alike(p.y, points[0]!.y));
  const slope = flat ? 0 : xy / xx;
  const df = n - 2;
  const rest = flat ? 0 : points.reduce((sum, { x, y }) => sum + (y - y0 - slope * (x - x0)) ** 2, 0);
  const residualSd = Math.sqrt(rest / df);
  const slopeError = residualSd / Math.sqrt(xx);
  const t = tQuantile((1 + confidence) / 2, df);
  const value: LeastSquares = {
    slope,
    intercept: y0 - slope * x0,
    slopeError,
    interceptError: residualSd * Math.sqrt(1 / n + x0 ** 2 / xx),
    residualSd,
    df,
    rSquared: flat ? undefined : 1 - rest / yy,
    p: slopeError === 0 || flat ? undefined : tBeyond(slope / slopeError, df),
    t,
    from: slope - t * slopeError,
    to: slope + t * slopeError,
  };
  return answer(value, [
    {
      what: "Slope by least squares, for comparison",
      result: `${plain(value.slope, 4)} a year, ${plain(value.from, 4)} to ${plain(value.to, 4)}`,
    },
  ]);
};
