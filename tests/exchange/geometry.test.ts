import { area as turfArea } from "@turf/area";
import { booleanPointInPolygon } from "@turf/boolean-point-in-polygon";
import type { Polygon } from "geojson";
import { describe, expect, it } from "vitest";
import { boundsOf, labelPoint, planeAround, polygonsOf, squareMeters } from "../../src/exchange/geometry.ts";

const rectangle = (west: number, south: number, east: number, north: number): Polygon => ({
  type: "Polygon",
  coordinates: [[[west, south], [east, south], [east, north], [west, north], [west, south]]],
});

/**
 * Exact area between two parallels and two meridians of the WGS 84 ellipsoid, closed form (Snyder, Map Projections: A
 * Working Manual, USGS Professional Paper 1395, the authalic-latitude integral; formula from memory).
 */
const exactArea = (west: number, south: number, east: number, north: number): number => {
  const a = 6_378_137;
  const e2 = 0.00669437999014;
  const e = Math.sqrt(e2);
  const q = (latitude: number): number => {
    const s = Math.sin((latitude * Math.PI) / 180);
    return s / (1 - e2 * s * s) + Math.atanh(e * s) / e;
  };
  return (((east - west) * Math.PI) / 180) * ((a * a * (1 - e2)) / 2) * (q(north) - q(south));
};

describe("area", () => {
  it.each([0, 30, 44.2, -37, 60, 69])("of a 40 ha rectangle at latitude %d is within a part in ten thousand of the ellipsoid's", (latitude) => {
    const box = [10, latitude, 10.008, latitude + 0.006] as const;
    const exact = exactArea(...box);
    expect(Math.abs(squareMeters(rectangle(...box)) / exact - 1)).toBeLessThan(1e-4);
    // A sphere, as the reference library takes, is off by up to a percent: the check is not blind.
    expect(Math.abs(turfArea(rectangle(...box)) / exact - 1)).toBeLessThan(0.01);
  });

  it("takes holes out and adds the parts of a multipolygon", () => {
    const outer = rectangle(0, 44, 0.01, 44.01).coordinates[0]!;
    const hole = rectangle(0.002, 44.002, 0.004, 44.004).coordinates[0]!;
    const whole = squareMeters({ type: "Polygon", coordinates: [outer] });
    const plane = planeAround([0.005, 44.005]);
    const inner = squareMeters({ type: "Polygon", coordinates: [hole] }, plane);
    expect(squareMeters({ type: "Polygon", coordinates: [outer, hole] }, plane)).toBeCloseTo(whole - inner, 3);
    expect(squareMeters({ type: "MultiPolygon", coordinates: [[outer], [hole]] }, plane)).toBeCloseTo(whole + inner, 3);
  });

  it("does not depend on the direction of the ring", () => {
    const box = rectangle(5, 50, 5.01, 50.01);
    expect(squareMeters({ type: "Polygon", coordinates: [[...box.coordinates[0]!].reverse()] })).toBeCloseTo(squareMeters(box), 6);
  });
});

it("the plane goes there and back", () => {
  const plane = planeAround([-37.6, 44.2]);
  const [lon, lat] = plane.toDegrees(plane.toPlane([-37.5934567, 44.2067891]));
  expect(lon).toBeCloseTo(-37.5934567, 12);
  expect(lat).toBeCloseTo(44.2067891, 12);
});

it("a label stands inside its area, well off the edge, in a crescent too", () => {
  const crescent: Polygon = {
    type: "Polygon",
    coordinates: [[[0, 0], [0.01, 0], [0.012, 0.005], [0.01, 0.01], [0, 0.01], [0.008, 0.005], [0, 0]]],
  };
  const at = labelPoint(crescent);
  expect(booleanPointInPolygon(at, crescent, { ignoreBoundary: true })).toBe(true);
});

it("bounds and polygons of a multipolygon are those of all its parts", () => {
  const two = { type: "MultiPolygon" as const, coordinates: [rectangle(1, 2, 3, 4).coordinates, rectangle(-1, 0, 0, 1).coordinates] };
  expect(boundsOf([two])).toEqual({ west: -1, south: 0, east: 3, north: 4 });
  expect(polygonsOf(two)).toHaveLength(2);
});

it("a label of an area in two parts stands in the larger one, whichever comes first", () => {
  const [small, large] = [rectangle(0, 44, 0.001, 44.001), rectangle(0.01, 44, 0.02, 44.005)];
  for (const parts of [[small, large], [large, small]]) {
    const at = labelPoint({ type: "MultiPolygon", coordinates: parts.map((p) => p.coordinates) });
    expect(booleanPointInPolygon(at, large, { ignoreBoundary: true })).toBe(true);
  }
});
