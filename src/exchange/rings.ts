import type { Position } from "geojson";
import type { Area } from "./geometry.ts";
import { polygonsOf } from "./geometry.ts";

/** Twice the area a ring encloses, in square degrees: above 0 where it runs counterclockwise. */
export const signedArea = (ring: readonly Position[]): number => {
  let twice = 0;
  for (let i = 0; i + 1 < ring.length; i++) twice += ring[i]![0]! * ring[i + 1]![1]! - ring[i + 1]![0]! * ring[i]![1]!;
  return twice;
};

const turned = (ring: readonly Position[], counterclockwise: boolean): Position[] =>
  signedArea(ring) > 0 === counterclockwise ? [...ring] : [...ring].reverse();

/**
 * Rings by polygon, the outer one first, each turned the way a format asks: outer rings counterclockwise and holes clockwise
 * in GeoJSON (RFC 7946, section 3.1.6), the other way round in a shapefile. A record may hold them either way.
 */
export const turnedRings = (area: Area, outer: "clockwise" | "counterclockwise"): Position[][][] =>
  polygonsOf(area).map((rings) => rings.map((ring, i) => turned(ring, (i === 0) === (outer === "counterclockwise"))));
