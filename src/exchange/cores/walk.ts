import type { Point } from "../geometry.ts";

const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

/** Length of a way through points in this order, in the points' own unit, without the way back. */
export const wayLength = (points: readonly Point[]): number =>
  points.reduce((sum, p, i) => (i === 0 ? 0 : sum + apart(points[i - 1]!, p)), 0);

/** From a point always on to the nearest one not yet visited. */
const nearestFirst = (from: number, points: readonly Point[]): number[] => {
  const left = new Set(points.keys());
  left.delete(from);
  const way = [from];
  while (left.size > 0) {
    const here = points[way.at(-1)!]!;
    let [next, least] = [-1, Infinity];
    for (const i of left) {
      const d = apart(here, points[i]!);
      if (d < least) [next, least] = [i, d];
    }
    way.push(next);
    left.delete(next);
  }
  return way;
};

/** A gain smaller than this is rounding, and chasing it might never end. */
const gain = 1e-9;

/** Length of the step from the place numbered `i` on a way to the next; 0 beyond its ends. */
const stepAt = (way: readonly number[], i: number, points: readonly Point[]): number => {
  const [a, b] = [points[way[i]!], points[way[i + 1]!]];
  return a && b ? apart(a, b) : 0;
};

/** Walk a stretch the other way round wherever that is shorter (2-opt), for an open way: its two ends are free. */
const turned = (way: number[], points: readonly Point[]): boolean => {
  for (let i = 0; i < way.length - 1; i++)
    for (let j = i + 1; j < way.length; j++) {
      const before = stepAt(way, i - 1, points) + stepAt(way, j, points);
      const [start, end] = [points[way[i]!]!, points[way[j]!]!];
      const after = (i > 0 ? apart(points[way[i - 1]!]!, end) : 0) + (j + 1 < way.length ? apart(start, points[way[j + 1]!]!) : 0);
      if (after < before - gain) {
        way.splice(i, j - i + 1, ...way.slice(i, j + 1).reverse());
        return true;
      }
    }
  return false;
};

/** Visit one to three neighbors somewhere else on the way wherever that is shorter (Or-opt), either way round. */
const moved = (way: number[], points: readonly Point[]): boolean => {
  for (let size = 1; size <= 3; size++)
    for (let i = 0; i + size <= way.length; i++) {
      const rest = [...way.slice(0, i), ...way.slice(i + size)];
      const stretch = way.slice(i, i + size);
      const [left, right] = [points[rest[i - 1]!], points[rest[i]!]];
      const saved = stepAt(way, i - 1, points) + stepAt(way, i + size - 1, points) - (left && right ? apart(left, right) : 0);
      for (let at = 0; at <= rest.length; at++)
        for (const piece of size === 1 ? [stretch] : [stretch, [...stretch].reverse()]) {
          const [before, after] = [points[rest[at - 1]!], points[rest[at]!]];
          const [first, last] = [points[piece[0]!]!, points[piece.at(-1)!]!];
          const joined =
            (before ? apart(before, first) : 0) + (after ? apart(last, after) : 0) - (before && after ? apart(before, after) : 0);
          if (joined < saved - gain) {
            way.splice(0, way.length, ...rest.slice(0, at), ...piece, ...rest.slice(at));
            return true;
          }
        }
    }
  return false;
};

/** Up to so many points each is tried as a start, and a bag seldom has more; beyond, a few of them, or a long way would take minutes. */
const everyStart = 40;
const fewStarts = 5;

/**
 * An order in which to walk to every point once, near the shortest: from several starts always to the nearest point, then
 * bettered by 2-opt and Or-opt until neither shortens it. The way is open; `from`, where given, is where one comes from, and
 * decides which of the two ends comes first. Returns indices of `points`; the same points give the same order.
 */
export const walk = (points: readonly Point[], from?: Point): number[] => {
  if (points.length === 0) return [];
  const step = points.length <= everyStart ? 1 : Math.ceil(points.length / fewStarts);
  let best: { way: number[]; length: number } | undefined;
  for (let start = 0; start < points.length; start += step) {
    const way = nearestFirst(start, points);
    while (turned(way, points) || moved(way, points));
    const length = wayLength(way.map((i) => points[i]!));
    if (!best || length < best.length - gain) best = { way, length };
  }
  const { way } = best!;
  const nearerAtEnd = from !== undefined && apart(from, points[way.at(-1)!]!) < apart(from, points[way[0]!]!);
  return nearerAtEnd ? way.reverse() : way;
};
