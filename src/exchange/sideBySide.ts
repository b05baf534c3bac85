import { distanceToLines } from "./distanceToLines.ts";
import type { Area, Plane, Point } from "./geometry.ts";
import { boundsOf, middleOf, planeAround, polygonsOf } from "./geometry.ts";

const ringsOf = (area: Area, plane: Plane): Point[][] =>
  polygonsOf(area).flatMap((rings) => rings.map((ring) => ring.map((position) => plane.toPlane(position))));

const apart = (a: readonly Point[], b: readonly Point[], axis: "x" | "y"): number => {
  const ends = (points: readonly Point[]) =>
    points.reduce(([least, most], p) => [Math.min(least, p[axis]), Math.max(most, p[axis])] as const, [Infinity, -Infinity] as const);
  const [[aLeast, aMost], [bLeast, bMost]] = [ends(a), ends(b)];
  return Math.max(aLeast - bMost, bLeast - aMost);
};

/** Do two areas that do not overlap come within so many meters of each other, a corner of one included? Neighbors drawn by hand leave a gap. */
export const sideBySide = (a: Area, b: Area, meters: number): boolean => {
  const plane = planeAround(middleOf(boundsOf([a, b])));
  const [mine, yours] = [ringsOf(a, plane), ringsOf(b, plane)];
  const [points, others] = [mine.flat(), yours.flat()];
  if (apart(points, others, "x") > meters || apart(points, others, "y") > meters) return false;
  return points.some((p) => distanceToLines(p, yours) <= meters) || others.some((p) => distanceToLines(p, mine) <= meters);
};
