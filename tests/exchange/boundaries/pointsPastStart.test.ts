import { expect, it } from "vitest";
import { readBoundaries } from "../../../src/exchange/boundaries/boundaries.ts";
import { pointsPastStart } from "../../../src/exchange/boundaries/pointsPastStart.ts";
import { planeAround } from "../../../src/exchange/geometry.ts";
import { bytesOf, gpx, track } from "../../support/boundaryFiles.ts";

const plane = planeAround([-37, 44]);
const inDegrees = (way: readonly (readonly [number, number])[]): number[][] => way.map(([x, y]) => plane.toDegrees({ x, y }));
/** A square of 100 m, begun in its southwest corner and walked counterclockwise, in meters; then what is walked past the start. */
const square = (...past: readonly (readonly [number, number])[]): number[][] =>
  inDegrees([[0, 0], [10, 0], [100, 0], [100, 100], [0, 100], [0, 50], ...past]);

it.each<[string, number, ...[number, number][]]>([
  ["that ends on its first point", 0, [0, 0]],
  ["that ends short of it", 0, [0, 5]],
  ["that ends beside it", 0, [1, 1]],
  ["that crosses its first leg with its last one", 1, [2, -4]],
  ["that goes on beyond it", 3, [2, -4], [6, -5], [12, -5]],
  ["that crosses it to and fro: from the first crossing on", 3, [2, -2], [6, 2], [10, -2]],
  ["that crosses its second leg", 1, [1, 2], [12, 2], [15, -5]],
  ["that touches the first point on its way", 0, [0, 0], [0, -3]],
  ["that goes over it", 0, [0, -3]],
])("of a walk %s it takes %i points off", (_, points, ...past) => expect(pointsPastStart(square(...past))).toBe(points));

// The way is 420 to 440 m.
it("counts what was walked from the start to the crossing and beyond it, up to a tenth of the way", () => {
  expect(pointsPastStart(square([10, 4], [14, -4], [40, -4]))).toBe(2);
  expect(pointsPastStart(square([10, 4], [14, -4], [44, -4]))).toBe(0);
});

it("is told nothing where the walk crosses itself in its middle", () => {
  expect(pointsPastStart(inDegrees([[0, 0], [100, 100], [100, 0], [0, 100]]))).toBe(0);
});

it("is told nothing where only the line of a leg is crossed, before the leg or behind it", () => {
  expect(pointsPastStart(inDegrees([[0, 0], [10, 0], [10, -20], [100, -20], [100, 100], [0, 100], [0, 50], [13, 5], [15, -5]]))).toBe(0);
  expect(pointsPastStart(inDegrees([[0, 0], [10, 0], [100, 0], [100, -100], [0, -100], [5, -10], [5, -20]]))).toBe(0);
});

it("is told where a file is brought in", () => {
  const bring = (...past: [number, number][]) => readBoundaries(bytesOf(gpx(track("West end", square(...past)))), "walk.gpx");
  const refused = (points: string) => `"West end" goes past its own start and across the way it began with; take its last ${points} off, so that it ends where it begins`;
  expect(() => bring([2, -4], [6, -5], [12, -5])).toThrow(refused("3 points"));
  expect(() => bring([2, -4])).toThrow(refused("point"));
  expect(bring([0, 2]).shapes).toHaveLength(1);
  const [first, ...others] = square([2, -4]);
  expect(() => readBoundaries(bytesOf(gpx(track("West end", [first!, others[0]!], others.slice(1)))), "walk.gpx")).toThrow("at most 25 m are joined");
});
