import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sectionsOf } from "../../../src/interpretation/guideline.ts";
import { noAnswer } from "../../../src/interpretation/outcome.ts";
import { noiseOf } from "../../../src/interpretation/statistics/noise.ts";
import { minimumDetectableSlope } from "../../../src/interpretation/statistics/power.ts";
import { testSeries } from "../../../src/interpretation/statistics/series.ts";
import { trendOf } from "../../../src/interpretation/statistics/trend.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const rules = sectionsOf(pack("soil-variability"), "noise");
const noise = noiseOf({ analyte: "pH", method: "water1to1" }, rules);
const series = (y: readonly number[], every = 3, from = 2005) => ({ unit: "pH" as const, points: y.map((value, i) => ({ x: from + every * i, y: value })) });
const trend = (y: readonly number[], every?: number) => answered(trendOf(series(y, every), noise)).value;

describe("trendOf", () => {
  // Series B of tests/cases/trend.yaml: exact p 0.0001984.
  it("finds a fall", () => expect(trend([6.8, 6.7, 6.7, 6.5, 6.4, 6.4, 6.2, 6.1])).toMatchObject({ finding: "falling", samplings: 8, slope: expect.closeTo(-0.0333333, 6) as number, more: undefined }));

  // Series A: exact p 0.0107.
  it("finds a rise, with seven samplings and approximate limits", () => expect(trend([14, 17, 16, 21, 24, 23, 29])).toMatchObject({ finding: "rising", interval: { validity: "approximate" } }));

  // By hand: 10 pairs rise and 5 fall, S = 5, and the table of six results gives 2 × 0.234722.
  it("finds none, and still says how many samplings would show the slope seen", () => {
    const found = answered(trendOf({ ...series([148, 171, 152, 176, 160, 168], 4), unit: "ppm" }, noiseOf({ analyte: "K", method: "mehlich3" }, rules))).value;
    expect(found).toMatchObject({ finding: "no detectable trend", mannKendall: { p: expect.closeTo(0.469444, 6) as number }, more: { kind: "answer", value: { interval: 4 } } });
  });

  it("judges the change by the bags of its first and its last result", () => {
    const points = [{ x: 2019, y: 6.1, bags: [6, 6.1, 6.1, 6.2] }, { x: 2022, y: 6.4 }];
    const spread = (...of: typeof points) => answered(answered(trendOf({ unit: "pH", points: of }, noise)).value.change).value.sds;
    expect(spread(...points)).toEqual([expect.closeTo(0.05, 9), expect.closeTo(0.1, 9)]);
    expect(spread({ ...points[1]!, x: 2016 }, points[0]!)).toEqual([expect.closeTo(0.1, 9), expect.closeTo(0.05, 9)]);
  });

  it("knows of how many bags a result of its series is the mean", () => {
    const [first, last] = [measured("pH", 6.1, { date: "2019-10-18" }), measured("pH", 6.4, { date: "2022-10-18" })];
    expect(answered(testSeries([last, { ...first, bags: [first, first] }])).value.points.map((p) => p.bags?.length)).toEqual([2, undefined]);
  });

  it("of two laboratories judges a change between two results of one by what strays within it", () => {
    const wide = noiseOf({ analyte: "pH", method: "water1to1", labs: 2 }, rules);
    const least = (...within: (typeof noise)[]) => answered(answered(trendOf({ ...series([6, 6.1, 6.4]), labs: 2 }, wide, ...within)).value.change).value.least;
    // 0.1 pH together; 0.2 between laboratories and 0.07 within one.
    expect(least(noise)).toBeCloseTo(1.959964 * Math.hypot(0.1, 0.1), 6);
    expect(least()).toBeCloseTo(1.959964 * Math.sqrt(2 * (0.01 + 0.04 - 0.0049)), 6);
  });

  it("says too few of four, however steady, with the change against the noise", () => {
    // Series E, from 5.9 to 6.6; with 0.1 pH of noise the least change is 1.96 * sqrt(2) * 0.1 = 0.277.
    const found = trend([5.9, 6.1, 6.4, 6.6]);
    expect(found).toMatchObject({ finding: "too few samplings", samplings: 4, change: { kind: "answer", value: { change: expect.closeTo(0.7, 9) as number, least: expect.closeTo(0.277, 3) as number, beyondNoise: true } } });
    // 0.0806 a year times 3 years over 0.1 is 2.42 standard deviations a step: five samplings show 2.30 by rank.
    expect(found).toMatchObject({ more: { kind: "answer", value: { total: 5, more: 1, totalByLine: 5 } } });
    expect(minimumDetectableSlope(4, 3) * 0.1).toBeGreaterThan(0.0806);
  });

  it("plans by the rank test that will judge, which needs more than least squares", () => {
    // 0.11 pH a step over 0.1 is 1.1 standard deviations: 0.856 at seven by rank, 0.899 at six by the t test.
    expect(trend([6.0, 6.11])).toMatchObject({ more: { kind: "answer", value: { total: 7, more: 5, totalByLine: 6, interval: 3, until: 2023 } } });
  });

  it("says no variation where every result is the same, with a slope of 0 and no NaN", () => {
    // Series F.
    expect(trend([25, 25, 25, 25], 4)).toMatchObject({ finding: "no variation", slope: 0, samplings: 4 });
    expect(trend([6.3, 6.3, 6.3, 6.3, 6.3, 6.3])).toMatchObject({ finding: "no variation", slope: 0 });
  });

  it("counts dates, not results: eight results of four dates are too few", () => {
    // Series H: two results a year; Mann-Kendall alone would call it a trend (exact p 0.0008).
    const x = [2010, 2010, 2014, 2014, 2018, 2018, 2022, 2022];
    const points = [18, 20, 22, 21, 27, 24, 29, 31].map((y, i) => ({ x: x[i]!, y }));
    expect(answered(trendOf({ points, unit: "ppm" }, noise)).value).toMatchObject({ finding: "too few samplings", samplings: 4, first: { x: 2010, y: 19 }, last: { x: 2022, y: 30 } });
  });

  it("judges without noise, and refuses only what needs it", () => {
    const unknown = noAnswer("no figure is installed", ["duplicates"]);
    expect(answered(trendOf(series([6.8, 6.7, 6.7, 6.5, 6.4]), unknown)).value).toMatchObject({ finding: "falling", change: unknown });
    expect(answered(trendOf(series([6.8, 6.4]), unknown)).value).toMatchObject({ finding: "too few samplings", more: unknown });
  });

  it("refuses one sampling, and none", () => {
    expectRefusal(trendOf(series([6.1]), noise), /there is only one sampling/, "samplings");
    expectRefusal(trendOf(series([]), noise), /nothing was measured/, "samplings");
  });

  it("does not look for a slope of zero, nor beyond thirty samplings", () => {
    expect(trend([6.2, 6.4, 6.2])).toMatchObject({ slope: 0, more: { kind: "noAnswer" } });
    expect(trend([6.2, 6.2, 6.201])).toMatchObject({ more: { kind: "noAnswer", because: expect.stringMatching(/more than 30 samplings/) as string } });
  });

  it("holds no NaN and turns with its values", () =>
    always([fc.array(between(4, 9), { minLength: 2, maxLength: 12 })], (y) => {
      const [up, down] = [trend(y), trend(y.map((v) => 13 - v))];
      const turned = { rising: "falling", falling: "rising" } as Record<string, string>;
      expect(down.finding).toBe(turned[up.finding] ?? up.finding);
      expect(JSON.stringify(up)).not.toMatch(/NaN|Infinity/);
      expect(Number.isFinite(up.slope)).toBe(true);
    }));
});

describe("testSeries", () => {
  const dated = (date: string, value: number, extra = {}) => measured("pH", value, { date, ...extra });

  it("puts results in order of date, in parts of a year", () => {
    const { points } = answered(testSeries([dated("2022-07-02", 6.4), dated("2019-01-01", 6.1)])).value;
    // 2 July is day 182 of 365.
    expect(points).toEqual([{ x: 2019, y: 6.1 }, { x: expect.closeTo(2022 + 182 / 365, 9) as number, y: 6.4 }]);
  });

  it("refuses a result the laboratory only bounds", () => expectRefusal(testSeries([dated("2019-10-01", 6), dated("2022-10-01", 4, { qualifier: "<" })]), /the laboratory says < 4\.0 in 2022/, "pH as a number"));

  it("refuses mixed methods, and nothing", () => {
    expectRefusal(testSeries([dated("2019-10-01", 6), dated("2022-10-01", 6, { method: "calciumChloride" })]), /are not all of one method/, "comparable samplings");
    expectRefusal(testSeries([]), /nothing was measured/, "samplings");
  });
});
