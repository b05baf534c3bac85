import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { splitIntoSeries, whyNotComparable } from "../../src/interpretation/comparable.ts";
import type { Measurement } from "../../src/interpretation/measurement.ts";
import { measured } from "../support/measured.ts";
import { always } from "../support/repeatable.ts";

const anyDate = fc.constantFrom("2015-10-20", "2018-04-11", "2018-10-18", "2021-10-18", "2025-10-18");
const anyResult = fc
  .record({
    method: fc.constantFrom("mehlich3" as const, "olsen" as const),
    finish: fc.constantFrom("icp" as const, undefined),
    preparation: fc.constantFrom("dried" as const, "moist" as const),
    unit: fc.constantFrom("ppm" as const, "lb/ac" as const),
    depth: fc.record({ from: fc.constantFrom(0, 2), to: fc.constantFrom(6, 7, 8, 20), unit: fc.constantFrom("in" as const, "cm" as const) }),
    date: anyDate,
  })
  .map((over) => measured("K", 100, over));

/** Results of one zone, each from its own line of a file. */
const history = fc
  .array(anyResult, { maxLength: 20 })
  .map((results) => results.map((m, i): Measurement => ({ ...m, origin: { file: `samplings/${m.date}.yaml`, line: i + 1, column: 1 } })));

const sets = (series: ReturnType<typeof splitIntoSeries>): string[] => series.map((s) => s.measurements.map((m) => m.origin.line).join()).sort();

describe("splitIntoSeries", () => {
  it("keeps every result exactly once, in order of date", () =>
    always([history], (results) => {
      const series = splitIntoSeries(results);
      const kept = series.flatMap((s) => s.measurements);
      expect(kept).toHaveLength(results.length);
      expect(new Set(kept)).toEqual(new Set(results));
      for (const { measurements } of series) expect(measurements.map((m) => m.date)).toEqual(measurements.map((m) => m.date).sort());
    }));

  it("never puts two results that may not be compared in one series", () =>
    always([history], (results) => {
      for (const { measurements } of splitIntoSeries(results))
        for (const a of measurements) for (const b of measurements) expect(whyNotComparable(a, b)).toBeUndefined();
    }));

  it("does not depend on the order of the input", () =>
    always([history.chain((results) => fc.tuple(fc.constant(results), fc.shuffledSubarray(results, { minLength: results.length })))], ([results, shuffled]) =>
      expect(sets(splitIntoSeries(shuffled))).toEqual(sets(splitIntoSeries(results)))));

  it("lets the autumn line run on past a spring reading", () => {
    const [one, spring, two] = ["2018-10-01", "2020-04-01", "2021-10-01"].map((date) => measured("K", 100, { date })) as [Measurement, Measurement, Measurement];
    expect(splitIntoSeries([one, spring, two]).map((s) => s.measurements)).toEqual([[one, two], [spring]]);
  });

  it("takes a result that two lines could take into the newer one, and into none that holds one it differs from", () => {
    const [six, eight, seven, nine] = [6, 8, 7, 9].map((to, i) => measured("K", 100, { date: `${2018 + i}-10-01`, depth: { from: 0, to, unit: "in" } })) as [Measurement, Measurement, Measurement, Measurement];
    expect(splitIntoSeries([six, eight, seven, nine]).map((s) => s.measurements)).toEqual([[six], [eight, seven], [nine]]);
  });
});

describe("whyNotComparable", () => {
  it("says the same of two results in either order: yes or no", () =>
    always([anyResult, anyResult], (a, b) => expect(whyNotComparable(a, b) === undefined).toBe(whyNotComparable(b, a) === undefined)));

  it("lets any result be compared with itself", () => always([anyResult], (m) => expect(whyNotComparable(m, m)).toBeUndefined()));

  const autumn = measured("K", 100);
  it.each([
    [measured("P", 100), /they measure different things/],
    [measured("K", 100, { method: "olsen" }), /the method changed from Mehlich-3 to Olsen/],
    [measured("K", 100, { finish: "icp" }), /the method changed from Mehlich-3 to Mehlich-3, ICP/],
    [measured("K", 100, { preparation: "moist" }), /the method changed from Mehlich-3 to Mehlich-3, field-moist/],
    [measured("K", 200, { unit: "lb/ac" }), /the unit changed from ppm to lb\/ac/],
    [measured("K", 100, { depth: { from: 0, to: 6, unit: "in" } }), /the depth changed from 0 to 8 in to 0 to 6 in/],
    [measured("K", 100, { depth: { from: 2, to: 8, unit: "in" } }), /the depth changed from 0 to 8 in to 2 to 8 in/],
    [measured("K", 100, { date: "2026-04-10" }), /one was taken in autumn, the other in spring/],
  ])("names what changed: case %#", (other, reason) => expect(whyNotComparable(autumn, other)).toMatch(reason));

  it.each([
    measured("K", 100, { depth: { from: 0, to: 7, unit: "in" } }),
    measured("K", 100, { depth: { from: 1, to: 9, unit: "in" } }),
    measured("K", 100, { depth: { from: 0, to: 20, unit: "cm" } }),
    measured("K", 100, { date: "2019-12-31" }),
    // Grass is sampled between September and February (RB209, section 3, taking soil samples), late December and early January at best (Irish Farmers Journal).
    measured("K", 100, { date: "2024-01-08" }),
  ])("allows an inch of depth and any year of the same season: case %#", (other) => expect(whyNotComparable(autumn, other)).toBeUndefined());

  it("joins spring and autumn where the analyte does not move with the season", () =>
    expect(whyNotComparable(measured("P", 20), measured("P", 20, { date: "2026-04-10" }))).toBeUndefined());
});

