import { describe, expect, it } from "vitest";
import { coresNeeded } from "../../../src/interpretation/statistics/coresNeeded.ts";
import { tQuantile } from "../../../src/interpretation/statistics/distributions.ts";
import { zoneVariance } from "../../../src/interpretation/statistics/zoneVariance.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { always, between } from "../../support/repeatable.ts";

describe("coresNeeded", () => {
  it("is the first number that is enough for its own t", () =>
    always([between(2, 80), between(2, 40)], (cv, error) => {
      const { cores } = answered(coresNeeded({ cv, error, confidence: 0.95 })).value;
      const wanted = (n: number): number => ((tQuantile(0.975, n - 1) * cv) / error) ** 2;
      expect(cores).toBeGreaterThanOrEqual(wanted(cores));
      if (cores > 2) expect(cores - 1).toBeLessThan(wanted(cores - 1));
    }));

  it("refuses a spread or an error of zero, and an error nobody can meet", () => {
    expectRefusal(coresNeeded({ cv: 0, error: 10, confidence: 0.95 }), /are not both above zero/, "spread between cores", "error allowed");
    expectRefusal(coresNeeded({ cv: 40, error: 0.001, confidence: 0.95 }), /cores are wanted/, "a larger error allowed");
  });
});

describe("zoneVariance", () => {
  const [low, high, alsoLow] = [
    [12, 14, 13, 15],
    [22, 25, 24, 21, 23],
    [13, 12, 15, 14],
  ] as const;

  it("does not fall when two like zones are merged, and falls when two unlike ones are", () => {
    const of = (...zones: (readonly number[])[]): number => answered(zoneVariance(zones)).value.reduction;
    // Computed with scipy 1.10.1: 0.9194 with three zones, 0.9267 with the two low ones merged.
    expect(of([...low, ...alsoLow], high)).toBeGreaterThan(of(low, high, alsoLow));
    expect(of([...low, ...high], alsoLow)).toBeLessThan(of(low, high, alsoLow));
  });

  it("is below zero for a map that separates nothing", () => expect(answered(zoneVariance([[1, 9], [2, 8]])).value.reduction).toBeLessThan(0));

  it("refuses one zone, a zone of one result, and results that are all the same", () => {
    expectRefusal(zoneVariance([low]), /a map is judged by two or more results/, "results in each zone");
    expectRefusal(zoneVariance([low, [3]]), /a map is judged/, "results in each zone");
    expectRefusal(zoneVariance([[5, 5], [5, 5]]), /every result is the same/, "results that differ");
  });
});
