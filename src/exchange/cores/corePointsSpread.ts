import type { Place } from "./corePointsScatter.ts";
import type { Point } from "../geometry.ts";

/** So many rounds leave the centers all but still. */
const rounds = 14;

export interface Group {
  center: Point;
  members: Place[];
}

/** Places grouped around `n` centers, each center moved to the middle of its group until they are spread evenly (Lloyd). */
export const groups = (places: readonly Place[], n: number, random: () => number): Group[] => {
  let centers: Point[] = farFromEachOther(places, n, random);
  for (let round = 0; ; round++) {
    const found = centers.map((center): Group => ({ center, members: [] }));
    for (const place of places) nearestOf(place, found).members.push(place);
    if (round === rounds) return found;
    centers = found.map(({ center, members }) =>
      members.length === 0 ? center : { x: middle(members.map((m) => m.x)), y: middle(members.map((m) => m.y)) },
    );
  }
};

const middle = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
export const squared = (a: Point, b: Point): number => (a.x - b.x) ** 2 + (a.y - b.y) ** 2;

/** A start for the centers: of eight places drawn at random, the one furthest from all centers so far. */
const farFromEachOther = (places: readonly Place[], n: number, random: () => number): Place[] => {
  const draw = (): Place => places[Math.floor(random() * places.length)]!;
  const chosen = [draw()];
  while (chosen.length < n) {
    const drawn = Array.from({ length: 8 }, draw);
    const away = drawn.map((p) => Math.min(...chosen.map((c) => squared(p, c))));
    chosen.push(drawn[away.indexOf(Math.max(...away))]!);
  }
  return chosen;
};

const nearestOf = (place: Point, found: readonly Group[]): Group => {
  let [best, least] = [found[0]!, Infinity];
  for (const group of found) {
    const d = squared(place, group.center);
    if (d < least) [best, least] = [group, d];
  }
  return best;
};

/** A group may be bent around a hole, and its middle may lie in it; its nearest member never does. */
export const nearestMember = ({ center, members }: Group): Point =>
  members.reduce<Point | undefined>((best, m) => (!best || squared(m, center) < squared(best, center) ? m : best), undefined) ?? center;
