import type { Position } from "geojson";
import { planeAround } from "../geometry.ts";

/** More than this share of the way is no overshoot: there the walk crosses itself for another reason. */
const mostPast = 0.1;

/**
 * How many of a walk's last points lie past its own start, beyond the place where it first crosses the way that it began with; 0 where it
 * does not. So much is sure of a walk round some ground: without them it ends where it came back to.
 */
export const pointsPastStart = (walk: readonly Position[]): number => {
  const plane = planeAround(walk[0] ?? []);
  const points = walk.map((position) => plane.toPlane(position));
  let way = 0;
  const legs = points.slice(1).map((to, i) => {
    const from = points[i]!;
    const [x, y] = [to.x - from.x, to.y - from.y];
    const begins = way;
    way += Math.hypot(x, y);
    return { from, x, y, begins, length: way - begins };
  });
  const most = way * mostPast;
  // Of twenty thousand legs each with each would take seconds.
  const early = legs.filter((leg) => leg.begins < most);
  for (const [i, last] of legs.entries()) {
    if (way - last.begins - last.length >= most) continue;
    for (const first of early) {
      // 0 for two legs of one direction: then neither of the shares below is a number between 0 and 1.
      const turn = first.x * last.y - first.y * last.x;
      const [dx, dy] = [last.from.x - first.from.x, last.from.y - first.from.y];
      const onFirst = (dx * last.y - dy * last.x) / turn;
      const onLast = (dx * first.y - dy * first.x) / turn;
      if (!(onFirst > 0 && onFirst < 1 && onLast > 0 && onLast < 1)) continue;
      if (first.begins + onFirst * first.length + (way - last.begins - onLast * last.length) < most) return legs.length - i;
    }
  }
  return 0;
};
