import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Point } from "../../../src/exchange/geometry.ts";
import { walk, wayLength } from "../../../src/exchange/cores/walk.ts";
import { Random } from "../../support/random.ts";

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

/** The same for more points, by the best way to each set of them that ends at each of its members (Held and Karp, 1962). */
const shortestOfMany = (points: readonly Point[]): number => {
  const n = points.length;
  const best = Array.from({ length: 2 ** n }, () => Array<number>(n).fill(Infinity));
  for (let i = 0; i < n; i++) best[2 ** i]![i] = 0;
  for (let set = 1; set < 2 ** n; set++)
    for (let end = 0; end < n; end++) {
      const length = best[set]![end]!;
      if (length === Infinity) continue;
      for (let next = 0; next < n; next++) {
        if (set & (1 << next)) continue;
        const longer = best[set | (1 << next)]!;
        longer[next] = Math.min(longer[next]!, length + along(points, [end, next]));
      }
    }
  return Math.min(...best.at(-1)!);
};

const scattered = (n: number, seed: number): Point[] => {
  const random = new Random(seed);
  return Array.from({ length: n }, () => ({ x: random.between(0, 300), y: random.between(0, 100) }));
};

const toTheNearest = (points: readonly Point[], start: number): number[] => {
  const left = new Set(points.keys());
  const way = [start];
  left.delete(start);
  while (left.size > 0) {
    const next = [...left].reduce((a, b) => (along(points, [way.at(-1)!, a]) <= along(points, [way.at(-1)!, b]) ? a : b));
    way.push(next);
    left.delete(next);
  }
  return way;
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

  it("is all but the shortest for ten to twelve points too, where always going to the nearest, from the best of all starts, is not", () => {
    const over: number[] = [];
    const overNearest: number[] = [];
    for (let seed = 1; seed <= 25; seed++) {
      const points = scattered(10 + (seed % 3), seed);
      const least = shortestOfMany(points);
      over.push(along(points, walk(points)) / least);
      overNearest.push(Math.min(...points.map((_, start) => along(points, toTheNearest(points, start)))) / least);
    }
    expect(Math.max(...over)).toBeLessThanOrEqual(1.01);
    expect(Math.min(...over)).toBeGreaterThanOrEqual(1 - 1e-9);
    // Or this would not tell a walk that is bettered from one that is not.
    expect(Math.max(...overNearest)).toBeGreaterThan(1.04);
    expect(shortestOfMany(scattered(7, 3))).toBeCloseTo(shortest(scattered(7, 3)), 9);
  });

  it("visits every point once, and is never longer than going to the nearest first", () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 45 }), fc.nat(), (n, seed) => {
        const points = scattered(n, seed);
        const way = walk(points);
        expect([...way].sort((a, b) => a - b)).toEqual([...points.keys()]);
        expect(along(points, way)).toBeLessThanOrEqual(along(points, toTheNearest(points, 0)) + 1e-6);
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
