import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fAbove, tAbove, tBeyond, tQuantile } from "../../../src/interpretation/statistics/distributions.ts";
import { noncentralTAbove } from "../../../src/interpretation/statistics/noncentralT.ts";
import { normalCdf, normalQuantile } from "../../../src/interpretation/statistics/normal.ts";

/** Rows of arguments, the value last: worked out with mpmath 1.3 to 40 digits, the quantiles by solving its tails. */
const values = JSON.parse(readFileSync(new URL("distributions.values.json", import.meta.url), "utf8")) as Record<string, number[][]>;

/** How far off at worst, as a share of the value itself, so that a tiny tail counts as much as a large one. */
const worst = (rows: readonly (readonly number[])[], ours: (...given: number[]) => number): number =>
  Math.max(...rows.map((row) => (ours(...row.slice(0, -1)) === row.at(-1) ? 0 : Math.abs(ours(...row.slice(0, -1)) / row.at(-1)! - 1))));

describe("against mpmath, from the middle to tails of 1e-300, with 0.5 to 5,000 degrees of freedom, not all whole", () => {
  it.each(Object.entries({ normalCdf, normalQuantile, tAbove, tQuantile, fAbove }))("%s keeps twelve digits", (name, ours) => {
    expect(values[name]!.length).toBeGreaterThan(45);
    expect(worst(values[name]!, ours)).toBeLessThan(1e-12);
  });
});

describe("quantiles", () => {
  // mpmath 1.3, 30 digits: the regularized incomplete beta solved for t.
  it.each([
    [0.975, 5, 2.57058183563631469562],
    [0.95, 3.873594258, 2.15199300684059],
  ])("t at %d with %d degrees of freedom", (p, df, t) => expect(tQuantile(p, df)).toBeCloseTo(t, 10));

  // scipy 1.17.1
  it("normal", () => expect([0.975, 0.9, 0.8].map(normalQuantile)).toEqual([1.959963984540054, 1.2815515655446004, 0.8416212335729143].map((z) => expect.closeTo(z, 14) as number)));

  it("of t with endless degrees of freedom are the normal's", () => {
    expect(tQuantile(0.9, Infinity)).toBe(normalQuantile(0.9));
    expect(tAbove(1.3, Infinity)).toBe(normalCdf(-1.3));
  });

  it("are endless at 0 and 1, 0 in the middle, and no number outside", () => {
    for (const quantile of [normalQuantile, (p: number) => tQuantile(p, 4)]) expect([-0.1, 0, 0.5, 1, 1.1, NaN].map(quantile)).toEqual([NaN, -Infinity, 0, Infinity, NaN, NaN]);
  });

  // By definition: what stays below the quantile is the probability that was asked for.
  it("turn the tails over", () =>
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 0.5, noNaN: true }), fc.double({ min: 0.5, max: 2000, noNaN: true }), (tail, df) => {
        expect(tAbove(-tQuantile(tail, df), df) / tail).toBeCloseTo(1, 11);
        expect(normalCdf(normalQuantile(tail)) / tail).toBeCloseTo(1, 11);
      }),
      { seed: 1 },
    ));
});

describe("tails", () => {
  // Exact: with one degree of freedom t is Cauchy's, with two its tail is algebraic, and with F on (1, n) it is the square of t.
  it("agree with the closed forms", () =>
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1000, noNaN: true }), (t) => {
        expect(tAbove(t, 1) / (Math.atan(1 / t) / Math.PI)).toBeCloseTo(1, 12);
        expect(tAbove(t, 2) / (1 / (t * t + 2 + t * Math.sqrt(t * t + 2)))).toBeCloseTo(1, 12);
        expect(fAbove(t * t, 1, 7.5) / tBeyond(t, 7.5)).toBeCloseTo(1, 12);
      }),
      { seed: 1 },
    ));

  it("end where nothing is left", () => {
    expect([tAbove(Infinity, 3), tAbove(-Infinity, 3), tAbove(0, 3), fAbove(Infinity, 2, 9), fAbove(0, 2, 9), normalCdf(-Infinity), normalCdf(Infinity)]).toEqual([0, 1, 0.5, 0, 1, 0, 1]);
    expect([tAbove(NaN, 3), tAbove(1, NaN), fAbove(NaN, 2, 9), normalCdf(NaN)]).toEqual([NaN, NaN, NaN, NaN]);
  });

  // scipy 1.17.1
  it("of F", () => expect(fAbove(69.42307692, 2, 10) / 1.368711495e-6).toBeCloseTo(1, 8));

  it.each([
    // scipy 1.17.1, stats.nct.cdf
    [2.306, 8, 3, 0.2519832664347459],
    [4.30265, 2, 5, 0.2808190553452062],
    [12.7, 1, 5, 0.6946991808765177],
    [2, 20, 2.8, 0.21558694278542082],
  ])("noncentral t at %d, %d degrees of freedom, %d off", (t, df, delta, below) => expect(1 - noncentralTAbove(t, df, delta)).toBeCloseTo(below, 9));

  it("noncentral t without an offset is t", () => expect(noncentralTAbove(2.1, 6, 0)).toBeCloseTo(tAbove(2.1, 6), 10));
});
