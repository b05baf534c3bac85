import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sectionsOf } from "../../../src/interpretation/guideline.ts";
import { answer, noAnswer } from "../../../src/interpretation/outcome.ts";
import { compareAreas } from "../../../src/interpretation/statistics/areas.ts";
import { compareAnalyte, situationOf } from "../../../src/interpretation/statistics/equivalence.ts";
import { marginOf } from "../../../src/interpretation/statistics/margins.ts";
import { noiseOf } from "../../../src/interpretation/statistics/noise.ts";
import { compositesToSettle, ofComposites } from "../../../src/interpretation/statistics/settle.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const guideline = pack("soil-variability");
const [noises, margins] = [sectionsOf(guideline, "noise"), sectionsOf(guideline, "margin")];
const within = (value: number) => answer({ within: value, unit: "ppm" as const }, []);
const phosphorus = noiseOf({ analyte: "P", method: "olsen" }, noises);
const compare = (a: readonly number[], b: readonly number[], margin = 5) => answered(compareAnalyte({ values: [a, b], margin: within(margin), noise: phosphorus })).value;

describe("compareAnalyte", () => {
  // The four made-up pairs of areas of tests/cases/margin.yaml, computed with scipy 1.10.1 and R 4.2.2.
  it.each([
    ["alike", [22, 25, 21, 24, 23, 26], [23, 24, 22, 25, 24], 5, "may be sampled together next time"],
    ["undecided", [18, 31, 24], [22, 35, 21], 5, "not enough data"],
    ["differentBeyondMargin", [14, 16, 15, 17, 13], [24, 27, 22, 29, 25, 26], 5, "keep apart"],
    ["differentWithinMargin", [6.5, 6.52, 6.48, 6.51, 6.49, 6.5], [6.58, 6.6, 6.57, 6.61, 6.59, 6.6], 0.3, "may be sampled together next time"],
  ] as const)("%s", (situation, a, b, margin, verdict) => expect(compare(a, b, margin)).toMatchObject({ situation, verdict, spreadFrom: "composites" }));

  it("never takes not different for the same, and says what would settle it", () => {
    const found = compare([18, 31, 24], [22, 35, 21]);
    expect(found.test.p).toBeGreaterThan(0.7);
    expect(found.verdict).toBe("not enough data");
    expect(found.settle).toBeUndefined();
    const closer = compare([21, 27, 23], [24, 19, 28]);
    expect(closer).toMatchObject({ verdict: "not enough data", settle: { perArea: expect.any(Number) as number } });
    expect(closer.settle!.more[0]).toBe(closer.settle!.perArea - 3);
  });

  it("leaves open a difference that shows and may or may not be within the margin", () => {
    // By hand: 4.5 apart with an error of 0.645, p below 0.05, and limits at 90 in 100 beyond 5.
    const found = compare([24, 25, 26], [20, 20.5, 21]);
    expect(found.test.p).toBeLessThan(0.05);
    expect(found.test.limits90[1]).toBeGreaterThan(5);
    expect(found.situation).toBe("undecided");
  });

  it("gives the same answer whichever area comes first", () =>
    always([fc.array(between(10, 40), { minLength: 1, maxLength: 6 }), fc.array(between(10, 40), { minLength: 1, maxLength: 6 }), between(1, 10)], (a, b, margin) => {
      const [there, back] = [compare(a, b, margin), compare(b, a, margin)];
      expect(back.situation).toBe(there.situation);
      expect(back.test.difference).toBeCloseTo(-there.test.difference, 10);
    }));

  it("is equivalent exactly where the limits at 90 in 100 lie within the margin", () =>
    always([fc.array(between(20, 26), { minLength: 2, maxLength: 6 }), fc.array(between(20, 26), { minLength: 2, maxLength: 6 }), between(1, 8)], (a, b, margin) => {
      const { test, situation } = compare(a, b, margin);
      const inside = test.limits90[0] > -margin && test.limits90[1] < margin;
      expect(situation === "alike" || situation === "differentWithinMargin").toBe(inside);
    }));

  it("takes the noise of one result where an area has one composite, and says so", () => {
    // 10 percent of 24 and of 25: 1.645 * sqrt(2.4^2 + 2.5^2) = 5.70, and 1 + 5.70 is beyond 5.
    const found = answered(compareAnalyte({ values: [[24], [25]], margin: within(5), noise: phosphorus }));
    expect(found.value).toMatchObject({ verdict: "not enough data", spreadFrom: "noise", settle: { perArea: expect.any(Number) as number } });
    expect(found.value.test.limits90[1]).toBeCloseTo(-1 + 5.7, 2);
    expect(found.steps.some((s) => /from the noise of one result/.test(s.what))).toBe(true);
    expect(compare([24], [60]).verdict).toBe("keep apart");
    expect(compare([8], [8.2]).verdict).toBe("may be sampled together next time");
  });

  it("takes the noise of one result where the composites all agree to the printed digit", () => expect(compare([24, 24], [24, 24, 24])).toMatchObject({ spreadFrom: "noise", situation: "alike" }));

  it("by events judges the differences, so that what moves both areas alike drops out", () => {
    // pH of five events; by hand the differences are 0.1, 0.0, 0.1, 0.0 and 0.1. Limits by scipy 1.17.1, stats.ttest_rel: 0.0077806 and 0.1122194.
    const values = [[6.1, 6.3, 6.6, 6.8, 7.1], [6.0, 6.3, 6.5, 6.8, 7.0]] as const;
    const ask = (byEvent: boolean) => answered(compareAnalyte({ values, margin: within(0.2), noise: phosphorus, byEvent })).value;
    expect(ask(true)).toMatchObject({ situation: "alike", spreadFrom: "events", test: { df: 4, difference: expect.closeTo(0.06, 9) as number } });
    expect(ask(true).test.limits90).toEqual([expect.closeTo(0.007780631637, 9), expect.closeTo(0.112219368363, 9)]);
    expect(ask(false).verdict).toBe("not enough data");
  });

  it("by one or two events takes the noise of one result, over as many events", () => {
    const soilPh = noiseOf({ analyte: "pH", method: "water1to1" }, noises);
    const ask = (a: number[], b: number[]) => answered(compareAnalyte({ values: [a, b], margin: within(0.2), noise: soilPh, byEvent: true })).value;
    // 1.645 * 0.1 * sqrt(2) is 0.233 with one event and 0.164 with two.
    expect(ask([6.3], [6.3])).toMatchObject({ verdict: "not enough data", spreadFrom: "noise" });
    expect(ask([6.3, 6.5], [6.3, 6.5])).toMatchObject({ verdict: "may be sampled together next time", spreadFrom: "noise" });
    expect(ask([6.3, 6.5], [6.3, 6.6]).spreadFrom).toBe("noise");
    expectRefusal(compareAnalyte({ values: [[6.3, 6.5, 6.4], [6.3]], margin: within(0.2), noise: soilPh, byEvent: true }), /were not sampled at the same events/, "results of both areas at each event");
  });

  it("by events says how many more events would settle it", () => {
    const found = answered(compareAnalyte({ values: [[24, 30, 26], [22, 31, 21]], margin: within(5), noise: phosphorus, byEvent: true })).value;
    expect(found).toMatchObject({ verdict: "not enough data", spreadFrom: "events" });
    expect(found.settle!.more[0]).toBe(found.settle!.more[1]);
  });

  it("refuses without noise where it needs it, without a margin, and without results", () => {
    const unknown = noAnswer("no figure is installed", ["duplicates"]);
    expect(compareAnalyte({ values: [[24], [25]], margin: within(5), noise: unknown })).toEqual(unknown);
    expect(compareAnalyte({ values: [[24, 26], [25, 27]], margin: within(5), noise: unknown }).kind).toBe("answer");
    expect(compareAnalyte({ values: [[24], [25]], margin: unknown, noise: phosphorus })).toEqual(unknown);
    expectRefusal(compareAnalyte({ values: [[24], []], margin: within(5), noise: phosphorus }), /a result of one of the areas is only bounded by the laboratory, or missing/, "a result of each area");
    expectRefusal(compareAnalyte({ values: [[0], [0]], margin: within(5), noise: phosphorus }), /the results are zero/, "results above zero");
  });
});

describe("compositesToSettle", () => {
  it("asks one more of each area where as many as there are should have been enough", () =>
    expect(compositesToSettle(0, 10, [5, 5], ofComposites([0.1, 0.1]))).toEqual({ perArea: 6, more: [1, 1] }));

  it("wants more where the spread is wider, and cannot settle a difference at the margin", () =>
    always([between(0, 4), between(0.5, 4), between(1.1, 2)], (difference, sd, wider) => {
      const [narrow, wide] = [sd, sd * wider].map((s) => compositesToSettle(difference, 5, [1, 1], ofComposites([s, s]))?.perArea ?? 31);
      expect(wide!).toBeGreaterThanOrEqual(narrow!);
      expect(compositesToSettle(5, 5, [1, 1], ofComposites([sd, sd]))).toBeUndefined();
    }));

  // The least n with 10 / (6 √(2 / n)) ≥ t(1 − α/2) + t(0.8) at 2n − 2 degrees of freedom, by scipy 1.17.1, stats.t.ppf: 7 at 5 %, 10 at its quarter.
  it("wants more where the difference is one of four analytes that are asked", () => {
    const wanted = (alpha: number) => compositesToSettle(10, 0.5, [2, 2], ofComposites([6, 6]), alpha)!.perArea;
    expect([0.05, 0.0125].map(wanted)).toEqual([7, 10]);
    const asked = (among: number) => answered(compareAnalyte({ values: [[24, 36], [38, 42]], margin: within(1), noise: phosphorus, among })).value;
    expect(asked(1).situation).toBe("undecided");
    expect(asked(4).settle!.perArea).toBeGreaterThan(asked(1).settle!.perArea);
  });
});

it("of four analytes each is asked for a difference at a quarter of 5 percent, and whether it is alike at 5", () => {
  const at = (p: number, among: number) => situationOf({ p, pEquivalent: 0.03, difference: 1 }, 5, among);
  expect([at(0.02, 1), at(0.02, 4), at(0.012, 4), at(0.3, 4)]).toEqual(["differentWithinMargin", "alike", "differentWithinMargin", "alike"]);
});

describe("marginOf", () => {
  it("in the method and unit it was stated for is taken without a word", () => {
    const found = answered(marginOf({ analyte: "P", method: "olsen", unit: "mg/l" }, margins));
    expect(found.value).toEqual({ within: 5, unit: "mg/l" });
    expect(found.cautions).toEqual([]);
  });

  it("does not take mg/l for ppm in silence: by the density, or with a caution", () => {
    // 5 mg in a liter that weighs 1.25 kg is 4 mg/kg.
    const weighed = answered(marginOf({ analyte: "P", method: "olsen", unit: "ppm", density: 1.25 }, margins));
    expect(weighed.value.within).toBe(4);
    expect(weighed.cautions).toEqual([]);
    const assumed = answered(marginOf({ analyte: "P", method: "olsen", unit: "ppm" }, margins));
    expect(assumed.value.within).toBe(5);
    expect(assumed.cautions).toEqual([expect.stringMatching(/weighs a kilogram/)]);
  });

  it("reads one by mass in results by volume as well, the other way round", () => {
    // 5 mg/kg in a liter that weighs 1.25 kg is 6.25 mg.
    const byMass = margins.filter((m) => m.analyte === "P").map((m) => ({ ...m, unit: "ppm" as const }));
    const found = answered(marginOf({ analyte: "P", method: "olsen", unit: "mg/l", density: 1.25 }, byMass));
    expect(found.value).toEqual({ within: 6.25, unit: "mg/l" });
    expect(found.steps.at(-1)).toMatchObject({ expression: "5 ppm × 1.25 kg/l", result: "6.25 mg/l" });
  });

  it("is that of the extractant, where there is one for each", () => {
    const olsen = margins.find((m) => m.analyte === "P")!;
    const both = [olsen, { ...olsen, id: "phosphorus-by-bray", methods: ["bray1" as const], within: { ...olsen.within, value: 8 } }];
    expect(["olsen", "bray1"].map((method) => answered(marginOf({ analyte: "P", method: method as "olsen", unit: "mg/l" }, both)).value.within)).toEqual([5, 8]);
  });

  it("says when it was stated for another extractant", () => expect(answered(marginOf({ analyte: "K", method: "mehlich3", unit: "ppm" }, margins)).cautions).toEqual([expect.stringMatching(/kilogram/), expect.stringMatching(/published for ammonium nitrate, not for Mehlich-3/)]));

  it("refuses an analyte without a margin, and a unit that cannot be read", () => {
    expectRefusal(marginOf({ analyte: "Zn", method: "dtpa", unit: "ppm" }, margins), /no margin is set for zinc/, "a margin for Zn");
    expectRefusal(marginOf({ analyte: "P", method: "olsen", unit: "lb/ac" }, margins), /is in mg\/l and the results are in lb\/ac/, "a margin for P in lb/ac");
  });
});

describe("compareAreas", () => {
  const noise = (analyte: "pH" | "P" | "K" | "Mg", method: "water1to1" | "olsen") => noiseOf({ analyte, method }, noises);
  const area = (pH: number[], P: number[]) => ({ pH: { method: "water1to1", unit: "pH", values: pH }, P: { method: "olsen", unit: "mg/l", values: P } }) as const;
  const ask = (first: Parameters<typeof compareAreas>[0]["areas"][0], second: typeof first) => answered(compareAreas({ areas: [first, second], margins, noise: noise as Parameters<typeof compareAreas>[0]["noise"] })).value;
  const flat = area([6.5, 6.52, 6.48, 6.51], [22, 23, 22, 23]);

  it("lets areas share only when every analyte is alike", () => {
    expect(ask(flat, area([6.5, 6.53, 6.5, 6.49], [23, 22, 23, 23])).verdict).toBe("may be sampled together next time");
    expect(ask(flat, area([6.5, 6.53, 6.5, 6.49], [40, 41, 40, 42])).verdict).toBe("keep apart");
    expect(ask(flat, area([6.5, 6.53, 6.5, 6.49], [12, 35, 20, 31])).verdict).toBe("not enough data");
    // Unlike in one thing is unlike, whatever else is open.
    expect(ask(flat, area([5.2, 5.23, 5.2, 5.19], [12, 35, 20, 31])).verdict).toBe("keep apart");
  });

  it("leaves open what one area lacks or what was measured differently, and names what has no margin", () => {
    const { P, pH } = flat;
    expect(ask(flat, { pH }).verdict).toBe("not enough data");
    expect(ask(flat, { pH, P: { ...P, method: "mehlich3" } }).verdict).toBe("not enough data");
    const zinc = { Zn: { method: "dtpa", unit: "ppm", values: [1, 1.1] } } as const;
    expect(ask({ ...flat, ...zinc }, { ...flat, ...zinc }).without).toEqual(["Zn"]);
    expectRefusal(compareAreas({ areas: [zinc, zinc], margins, noise: noise as Parameters<typeof compareAreas>[0]["noise"] }), /nothing was measured in the two areas/, "a margin");
  });
});
