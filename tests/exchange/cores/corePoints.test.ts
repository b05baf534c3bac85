import { booleanPointInPolygon } from "@turf/boolean-point-in-polygon";
import type { MultiPolygon, Polygon, Position } from "geojson";
import { describe, expect, it } from "vitest";
import type { CoreRequest, PlacedCores } from "../../../src/exchange/cores/corePoints.ts";
import { corePoints } from "../../../src/exchange/cores/corePoints.ts";
import type { Area, Point } from "../../../src/exchange/geometry.ts";
import { boundsOf, middleOf, planeAround, polygonsOf, squareMeters } from "../../../src/exchange/geometry.ts";

/** A shape given in meters around a place at 44 degrees north. */
const plane = planeAround([-37.6, 44.2]);
const ring = (corners: readonly (readonly [number, number])[]): Position[] => [...corners, corners[0]!].map(([x, y]) => plane.toDegrees({ x, y }));
const box = (west: number, south: number, east: number, north: number): Position[] => ring([[west, south], [east, south], [east, north], [west, north]]);
const polygon = (...rings: Position[][]): Polygon => ({ type: "Polygon", coordinates: rings });

const crescent = Array.from({ length: 21 }, (_, i) => [200 * Math.cos((i * Math.PI) / 20), 200 * Math.sin((i * Math.PI) / 20)] as const);
const inner = Array.from({ length: 21 }, (_, i) => [110 * Math.cos(((20 - i) * Math.PI) / 20), 110 * Math.sin(((20 - i) * Math.PI) / 20)] as const);
const shapes: Record<string, Area> = {
  "a square": polygon(box(0, 0, 130, 130)),
  "a long strip": polygon(box(0, 0, 900, 60)),
  "a crescent": polygon(ring([...crescent, ...inner])),
  "an L": polygon(ring([[0, 0], [300, 0], [300, 80], [80, 80], [80, 300], [0, 300]])),
  "a field with a pond": polygon(box(0, 0, 200, 200), box(60, 60, 140, 140).reverse()),
  "two pieces": { type: "MultiPolygon", coordinates: [[box(0, 0, 120, 120)], [box(400, 50, 520, 120)]] } satisfies MultiPolygon,
};
const usual: CoreRequest = { composites: 1, cores: 15, setback: 12, seed: 1 };

const placed = (area: Area, request: Partial<CoreRequest> = {}): PlacedCores => {
  const found = corePoints(area, { ...usual, ...request });
  if (found.kind !== "placed") throw new Error(`no places: ${found.because}`);
  return found;
};
const positions = (p: PlacedCores): Position[] => p.composites.flatMap((c) => c.cores);

/** Least distance from a position to any edge, in meters, by another way than the code's: along each edge in small steps. */
const offEdge = (at: Position, area: Area): number => {
  const local = planeAround(middleOf(boundsOf([area])));
  const here = local.toPlane(at);
  let least = Infinity;
  for (const flat of polygonsOf(area).flat())
    for (let i = 0; i + 1 < flat.length; i++) {
      const [a, b] = [local.toPlane(flat[i]!), local.toPlane(flat[i + 1]!)];
      for (let k = 0; k <= 2000; k++) least = Math.min(least, Math.hypot(a.x + ((b.x - a.x) * k) / 2000 - here.x, a.y + ((b.y - a.y) * k) / 2000 - here.y));
    }
  return least;
};

describe("core positions", () => {
  it("of few cores in a bent field lie in the field too, and not in the middle of what it bends around", () => {
    for (const name of ["a crescent", "a field with a pond", "an L"])
      for (const cores of [1, 2, 3]) for (const at of positions(placed(shapes[name]!, { cores }))) expect(booleanPointInPolygon(at, shapes[name]!), `${name}, ${cores}`).toBe(true);
  });

  it.each(Object.keys(shapes))("in %s lie inside, behind the setback, and apart", (name) => {
    const area = shapes[name]!;
    for (const seed of [1, 2, 3]) {
      const found = placed(area, { seed });
      expect(found.setback).toBe(usual.setback);
      expect(positions(found)).toHaveLength(usual.cores);
      for (const at of positions(found)) {
        expect(booleanPointInPolygon(at, area)).toBe(true);
        // A position is rounded to a centimeter.
        expect(offEdge(at, area)).toBeGreaterThan(found.setback - 0.02);
      }
      const local = planeAround(middleOf(boundsOf([area])));
      const flat = positions(found).map((p) => local.toPlane(p));
      const least = Math.min(...flat.flatMap((a, i) => flat.slice(i + 1).map((b: Point) => Math.hypot(a.x - b.x, a.y - b.y))));
      expect(Math.abs(least - found.spacing)).toBeLessThan(0.03);
      // Even: no two cores stand closer than half the side of the square that each stands for.
      expect(found.spacing).toBeGreaterThan(0.5 * Math.sqrt((0.5 * squareMeters(area)) / usual.cores));
    }
  });

  it("leave no large part of the area without a core", () => {
    const area = shapes["a square"]!;
    const local = planeAround(middleOf(boundsOf([area])));
    const cores = positions(placed(area)).map((p) => local.toPlane(p));
    let furthest = 0;
    for (let x = -53; x <= 53; x += 2) for (let y = -53; y <= 53; y += 2) furthest = Math.max(furthest, Math.min(...cores.map((c) => Math.hypot(c.x - x, c.y - y))));
    // A circle of each core's share of the 106 m square behind the setback has a radius of 15 m; no place is twice as far.
    expect(furthest).toBeLessThan(2 * Math.sqrt(106 ** 2 / 15 / Math.PI));
  });

  it("are the same for the same seed, and others for another", () => {
    const at = (seed: number): string => JSON.stringify(placed(shapes["an L"]!, { seed }));
    expect(at(5)).toBe(at(5));
    expect(at(5)).not.toBe(at(6));
  });

  it("are the same whichever way the rings run", () => {
    const turned = polygon(box(0, 0, 130, 130).reverse());
    expect(positions(placed(turned)).every((p) => booleanPointInPolygon(p, turned))).toBe(true);
    expect(placed(turned).setback).toBe(placed(shapes["a square"]!).setback);
  });

  it("give each composite its own compact part, about as large as the others", () => {
    const area = shapes["a long strip"]!;
    const found = placed(area, { composites: 3, cores: 10 });
    const local = planeAround(middleOf(boundsOf([area])));
    const spans = found.composites.map((c) => c.cores.map((p) => local.toPlane(p).x)).map((xs) => [Math.min(...xs), Math.max(...xs)] as const).sort((a, b) => a[0] - b[0]);
    expect(spans[0]![1]).toBeLessThan(spans[1]![0]);
    expect(spans[1]![1]).toBeLessThan(spans[2]![0]);
    expect(found.composites.reduce((sum, c) => sum + c.squareMeters, 0)).toBeCloseTo(squareMeters(area), 3);
    for (const c of found.composites) expect(c.squareMeters / squareMeters(area)).toBeGreaterThan(0.2);
  });

  it("keep a smaller setback where the whole one would leave less than half of the area", () => {
    // 130 m a side: 30 m leave 29 in 100 of it, 22.5 m leave 43 and 15 m leave 59.
    expect(placed(shapes["a square"]!, { setback: 30 }).setback).toBe(15);
    expect(placed(shapes["a long strip"]!, { setback: 30 }).setback).toBe(11.25);
  });

  it("stay away from a road and a spot, at the distances given, and from no more", () => {
    const area = shapes["a square"]!;
    const road = [plane.toDegrees({ x: 0, y: -10 }), plane.toDegrees({ x: 130, y: -10 })];
    const spot = [plane.toDegrees({ x: 65, y: 90 })];
    const avoid = [{ line: road, meters: 40 }, { line: spot, meters: 25 }];
    for (const seed of [1, 2, 3]) {
      const found = placed(area, { avoid, seed });
      expect([found.keptAway, found.setback]).toEqual([1, 12]);
      const local = positions(found).map((p) => plane.toPlane(p));
      expect(local).toHaveLength(15);
      // The road lies 10 m south of the square: 30 m of it stay free. A position is rounded to a centimeter.
      for (const { x, y } of local) expect(Math.min(y - 30, Math.hypot(x - 65, y - 90) - 25)).toBeGreaterThan(-0.02);
      // Without them cores do fall there.
      expect(positions(placed(area, { seed })).map((p) => plane.toPlane(p)).some(({ x, y }) => y < 30 || Math.hypot(x - 65, y - 90) < 25)).toBe(true);
    }
    expect(placed(area, { avoid: [{ line: spot, meters: 25 }, { line: [plane.toDegrees({ x: 900, y: 0 })], meters: 200 }] }).keptAway).toBe(1);
  });

  it("keep a part of such a distance where the whole of it would leave less than half of the area", () => {
    // A road along the south edge: 91.4 m (300 ft) of 130 m leave 30 in 100, three quarters of it 47, half of it 65.
    const road = [plane.toDegrees({ x: 0, y: 0 }), plane.toDegrees({ x: 130, y: 0 })];
    const found = placed(shapes["a square"]!, { avoid: [{ line: road, meters: 91.44 }] });
    expect(found.keptAway).toBe(0.5);
    for (const p of positions(found)) expect(plane.toPlane(p).y).toBeGreaterThan(45.7);
  });

  it("are refused in an area too narrow for the smallest setback, or too small for the cores", () => {
    expect(corePoints(polygon(box(0, 0, 900, 1.5)), { ...usual, setback: 30 })).toEqual({ kind: "tooSmall", because: "tooNarrow" });
    // Even a thirty-second of the way from the middle of the square to its corner, and beyond, is kept by none.
    expect(corePoints(shapes["a square"]!, { ...usual, avoid: [{ line: [plane.toDegrees({ x: 65, y: 65 })], meters: 9_000 }] })).toEqual({ kind: "tooSmall", because: "avoided" });
    expect(corePoints(polygon(box(0, 0, 3, 3)), usual)).toEqual({ kind: "tooSmall", because: "tooClose" });
  });

  it("fit a garden bed", () => {
    const bed = polygon(box(0, 0, 12, 8));
    const found = placed(bed, { setback: 30, cores: 12 });
    expect(found.setback).toBeLessThan(2);
    expect(found.spacing).toBeGreaterThan(1);
  });
});
