import type { RatingAdvice } from "../../interpretation/rating.ts";
import { pH } from "../../interpretation/show.ts";

/**
 * ", to reach pH 6.5". A dose by need names no pH to reach; and Vermont's table still prints half a ton above its own target, which no lime
 * would "reach".
 */
export const limeGoal = (ratings: readonly RatingAdvice[], target: number | undefined): string => {
  if (target === undefined) return "";
  const soilPh = ratings.find((r) => r.measurement.analyte === "pH")?.measurement.value ?? 0;
  return soilPh < target ? `, to reach pH ${pH(target)}` : `, though it is at pH ${pH(target)} already`;
};
