import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Point } from "../../src/exchange/geometry.ts";
import { walk, wayLength } from "../../src/exchange/walk.ts";
import { Random } from "../support/random.ts";

const along = (points: readonly Point[], order: readonly number[]): number => wayLength(order.map((i) => points[i]!));

/** The shortest open way, by trying every order. */
const shortest = (points: readonly Point[]): number => {
  let best = Infinity;
  const go = (way: number[], left: number[], length: number): void => {
    if (length >= best) return;
    if (left.length === 0) best = length;
    for (const next of left) {
      const last = way.at(-1);
      go([...way, next], left.filter((i) => i !== next), last === undefined ? 0 : length + along(points, [last, next]));
    }
  };
  go([], [...points.keys()], 0);
  return best;
};

const scattered = (n: number, seed: number): Point[] => {
  const random = new Random(seed);
  return Array.from({ length: n }, () => ({ x: random.between(0, 300), y: random.between(0, 100) }));
};

describe("the walk", () => {
  it("is within a tenth of the shortest of all orders", () => {
    const over: number[] = [];
    for (let seed = 1; seed <= 60; seed++) {
      const points = scattered(4 + (seed % 5), seed);
      over.push(along(points, walk(points)) / shortest(points));
    }
    expect(Math.max(...over)).toBeLessThanOrEqual(1.1);
    expect(Math.min(...over)).toBeGreaterThanOrEqual(1 - 1e-9);
  });

  it("visits every point once, and is never longer than going to the nearest first", () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 45 }), fc.nat(), (n, seed) => {
        const points = scattered(n, seed);
        const way = walk(points);
        expect([...way].sort((a, b) => a - b)).toEqual([...points.keys()]);
        const left = new Set(points.keys());
        const nearest = [0];
        left.delete(0);
        while (left.size > 0) {
          const next = [...left].reduce((a, b) => (along(points, [nearest.at(-1)!, a]) <= along(points, [nearest.at(-1)!, b]) ? a : b));
          nearest.push(next);
          left.delete(next);
        }
        expect(along(points, way)).toBeLessThanOrEqual(along(points, nearest) + 1e-6);
      }),
      { numRuns: 40, seed: 7 },
    ));

  it("goes straight through points in a row, whatever their order", () => {
    const row = [5, 1, 9, 3, 7, 0].map((x) => ({ x, y: 2 * x }));
    expect(along(row, walk(row))).toBeCloseTo(Math.hypot(9, 18), 9);
  });

  it("begins at the end that is nearer to where one comes from", () => {
    const row = [0, 1, 2, 3].map((x) => ({ x, y: 0 }));
    expect(walk(row, { x: -5, y: 0 })[0]).toBe(0);
    expect(walk(row, { x: 9, y: 0 })[0]).toBe(3);
  });

  it("has nowhere to go without points, and copes with points on one spot", () => {
    expect(walk([])).toEqual([]);
    expect(walk([{ x: 1, y: 1 }])).toEqual([0]);
    expect(walk([{ x: 1, y: 1 }, { x: 1, y: 1 }, { x: 1, y: 1 }]).sort()).toEqual([0, 1, 2]);
  });
});
