import type { Position } from "geojson";
import type { Area } from "./geometry.ts";
import { polygonsOf } from "./geometry.ts";

/** Twice the area a ring encloses, closed or not, in square degrees: above 0 where it runs counterclockwise. */
export const signedArea = (ring: readonly Position[]): number =>
  ring.reduce((sum, [x = 0, y = 0], i) => {
    const [nextX = 0, nextY = 0] = ring[(i + 1) % ring.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);

const turned = (ring: readonly Position[], counterclockwise: boolean): Position[] =>
  signedArea(ring) > 0 === counterclockwise ? [...ring] : [...ring].reverse();

/**
 * Rings by polygon, the outer one first, each turned the way a format asks: outer rings counterclockwise and holes clockwise
 * in GeoJSON (RFC 7946, section 3.1.6), the other way round in a shapefile. A record may hold them either way.
 */
export const turnedRings = (area: Area, outer: "clockwise" | "counterclockwise"): Position[][][] =>
  polygonsOf(area).map((rings) => rings.map((ring, i) => turned(ring, (i === 0) === (outer === "counterclockwise"))));

/** Whether a ring that does not cross another lies within it. A corner of it may touch the other; the middle of an edge hardly does. */
export const liesWithin = ([[ax = 0, ay = 0] = [], [bx = 0, by = 0] = []]: readonly Position[], around: readonly Position[]): boolean =>
  isInside([(ax + bx) / 2, (ay + by) / 2], around);

/** By the number of edges that a ray to the east crosses. */
const isInside = ([x = 0, y = 0]: Position, ring: readonly Position[]): boolean =>
  ring.reduce((inside, [ax = 0, ay = 0], i) => {
    const [bx = 0, by = 0] = ring[(i + 1) % ring.length]!;
    return ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax ? !inside : inside;
  }, false);
