import { distanceToLines } from "./distanceToLines.ts";
import type { Area, Plane, Point } from "./geometry.ts";
import { boundsOf, middleOf, planeAround, polygonsOf } from "./geometry.ts";

const ringsOf = (area: Area, plane: Plane): Point[][] =>
  polygonsOf(area).flatMap((rings) => rings.map((ring) => ring.map((position) => plane.toPlane(position))));

const span = (points: readonly Point[], axis: "x" | "y"): { least: number; most: number } => {
  let [least, most] = [Infinity, -Infinity];
  for (const point of points) {
    least = Math.min(least, point[axis]);
    most = Math.max(most, point[axis]);
  }
  return { least, most };
};

const apart = (a: readonly Point[], b: readonly Point[], axis: "x" | "y"): number => {
  const [mine, yours] = [span(a, axis), span(b, axis)];
  return Math.max(mine.least - yours.most, yours.least - mine.most);
};

/** Do two areas that do not overlap come within so many meters of each other, a corner of one included? Neighbors drawn by hand leave a gap. */
export const sideBySide = (a: Area, b: Area, meters: number): boolean => {
  const plane = planeAround(middleOf(boundsOf([a, b])));
  const [mine, yours] = [ringsOf(a, plane), ringsOf(b, plane)];
  const [points, others] = [mine.flat(), yours.flat()];
  // Most areas lie far apart, which tells at once what every point against every edge would take long to.
  if (apart(points, others, "x") > meters || apart(points, others, "y") > meters) return false;
  return points.some((p) => distanceToLines(p, yours) <= meters) || others.some((p) => distanceToLines(p, mine) <= meters);
};
