import { describe, expect, it } from "vitest";
import { fAbove, noncentralTAbove, normalCdf, normalQuantile, tAbove, tQuantile } from "../../../src/interpretation/statistics/distributions.ts";

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
});

describe("tails", () => {
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
