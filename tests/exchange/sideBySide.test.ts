import type { MultiPolygon, Polygon } from "geojson";
import { describe, expect, it } from "vitest";
import type { Area } from "../../src/exchange/geometry.ts";
import { planeAround } from "../../src/exchange/geometry.ts";
import { sideBySide } from "../../src/exchange/sideBySide.ts";

const plane = planeAround([-150, 40]);
/** A rectangle by its edges in meters east and north of a point in open water. */
const ring = (west: number, south: number, east: number, north: number) =>
  [[west, south], [east, south], [east, north], [west, north], [west, south]].map(([x, y]) => plane.toDegrees({ x: x!, y: y! }));
const box = (...edges: Parameters<typeof ring>): Polygon => ({ type: "Polygon", coordinates: [ring(...edges)] });
const boxes = (...each: Parameters<typeof ring>[]): MultiPolygon => ({ type: "MultiPolygon", coordinates: each.map((edges) => [ring(...edges)]) });
const round: Polygon = { type: "Polygon", coordinates: [ring(-300, -300, 300, 300), ring(-100, -100, 200, 200)] };

describe("two areas lie side by side within 20 m", () => {
  const home = box(0, 0, 100, 100);
  it.each<[string, Area, boolean]>([
    ["with an edge in common", box(100, 0, 200, 100), true],
    ["with a corner in common", box(100, 100, 200, 200), true],
    ["19.9 m apart", box(119.9, 0, 200, 100), true],
    ["20.1 m apart", box(120.1, 0, 200, 100), false],
    ["19.9 m apart to the south", box(0, -100, 100, -19.9), true],
    ["20.1 m apart to the south", box(0, -100, 100, -20.1), false],
    // The corners are 15 m apart each way, which is 21.2 m; of 14 m each way, 19.8 m.
    ["corner to corner across 21.2 m", box(115, 115, 200, 200), false],
    ["corner to corner across 19.8 m", box(114, 114, 200, 200), true],
    ["where a long edge passes between its own corners", box(-5000, 110, 5000, 200), true],
    ["where it is the long edge's middle that comes near", box(-5000, 121, 5000, 200), false],
    ["by the second of two pieces", boxes([1000, 0, 1100, 100], [0, 110, 100, 200]), true],
    ["by none of two pieces", boxes([1000, 0, 1100, 100], [0, 130, 100, 200]), false],
    ["as an island in the other's hole, whose edge is a hundred meters off", round, false],
  ])("%s", (_, other, expected) => {
    expect(sideBySide(home, other, 20)).toBe(expected);
    expect(sideBySide(other, home, 20)).toBe(expected);
  });
  it("as an island that meets the edge of the hole it lies in", () => {
    expect(sideBySide(box(110, 0, 190, 100), round, 20)).toBe(true);
  });
});
