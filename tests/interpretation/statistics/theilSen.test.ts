import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { median } from "../../../src/interpretation/statistics/dated.ts";
import { leastSquares } from "../../../src/interpretation/statistics/leastSquares.ts";
import { mannKendall } from "../../../src/interpretation/statistics/mannKendall.ts";
import { slopeInterval, theilSen, theilSenLine } from "../../../src/interpretation/statistics/theilSen.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { always, between } from "../../support/repeatable.ts";

const points = fc
  .array(fc.tuple(fc.integer({ min: 1990, max: 2030 }), between(4, 8)), { minLength: 3, maxLength: 15 })
  .map((list) => list.map(([x, y]) => ({ x, y })))
  .filter((list) => new Set(list.map((p) => p.x)).size > 1);

describe("theilSen", () => {
  it("takes the mean of the two middle slopes", () =>
    // statisticshowto.com, Sen's slope, an example adapted from a statistics textbook.
    expect(median([-340, 130, 496, 561, 713, 800, 851, 952, 1184, 1327])).toBe(756.5));

  it("moves with the values and turns with them", () =>
    always([points, between(-3, 3), between(-20, 20)], (list, tilt, shift) => {
      const [plain, tilted] = [theilSenLine(list)!, theilSenLine(list.map(({ x, y }) => ({ x, y: y + tilt * (x - 2010) + shift })))!];
      expect(tilted.slope).toBeCloseTo(plain.slope + tilt, 8);
      expect(theilSenLine(list.map(({ x, y }) => ({ x, y: -y })))!.slope).toBeCloseTo(-plain.slope, 10);
    }));

  it("lies within its limits, which widen with the confidence", () =>
    always([points], (list) => {
      const { slope, slopes } = theilSenLine(list)!;
      const { variance, n } = answered(mannKendall(list)).value;
      const [narrow, wide] = [slopeInterval(slopes, variance, n, 0.8), slopeInterval(slopes, variance, n, 0.95)];
      expect(narrow.from - 1e-12 <= slope && slope <= narrow.to + 1e-12).toBe(true);
      expect(wide.from <= narrow.from && narrow.to <= wide.to).toBe(true);
    }));

  it("knows both intercepts, and its own is the one through the medians", () => {
    // Series A of tests/cases/trend.yaml: -1589.4 through the medians, -1589.2 as the median residual.
    const y = [14, 17, 16, 21, 24, 23, 29];
    expect(theilSenLine(y.map((v, i) => ({ x: 2004 + 3 * i, y: v })))).toMatchObject({ intercept: expect.closeTo(-1589.4, 9) as number, interceptOfResiduals: expect.closeTo(-1589.2, 9) as number });
  });

  it("reads the limits between two slopes, where other programs take the nearest", () => {
    // Sodium, ten results: 0.3992 as the Unified Guidance prints it, 0.4545 by scipy 1.10.1.
    const [x, y] = [
      [89.6, 90.1, 90.8, 91.1, 92.1, 93.1, 94.1, 95.6, 96.1, 96.3],
      [56, 53, 51, 55, 52, 60, 62, 59, 61, 63],
    ];
    const { interval } = answered(theilSen(x.map((t, i) => ({ x: t, y: y[i]! })), 125, "ppm")).value;
    expect(interval).toMatchObject({ from: expect.closeTo(0.3992083, 7) as number, to: expect.closeTo(2.3333333, 7) as number, validity: "stated" });
  });

  it("calls the limits of five to nine results approximate, and under five the widest", () => {
    const limits = (n: number): string => slopeInterval([1, 2, 3], 5, n).validity;
    expect([4, 5, 9, 10].map(limits)).toEqual(["widest", "approximate", "approximate", "stated"]);
    // Series E of tests/cases/trend.yaml: four results; the places fall outside the list, and its ends are the limits.
    expect(slopeInterval([0.0667, 0.08, 0.1], 8.667, 4)).toMatchObject({ from: 0.0667, to: 0.1 });
  });

  it("keeps its slope beside an outlier that hides the trend from least squares", () => {
    // Series D: 0.846 by Theil-Sen; p = 0.28 by least squares (scipy 1.10.1, R 4.2.2).
    const [x, y] = [
      [1998, 2001, 2003, 2008, 2009, 2014, 2018, 2021, 2024],
      [38, 41, 44, 43, 90, 52, 55, 54, 61],
    ];
    const list = x.map((t, i) => ({ x: t, y: y[i]! }));
    expect(theilSenLine(list)!.slope).toBeCloseTo(0.846, 3);
    expect(answered(leastSquares(list)).value.p).toBeCloseTo(0.28, 2);
  });

  it("uses dates as parts of a year: year and month written as 89.10 would not be one", () => {
    // October 1989 is 89.75; read as a number, 89.10 falls before 89.2, February.
    const slope = (october: number): number => theilSenLine([{ x: 89.2, y: 50 }, { x: october, y: 53 }])!.slope;
    expect(Math.sign(slope(89.75))).toBe(1);
    expect(Math.sign(slope(89.1))).toBe(-1);
  });

  it("refuses results of one day", () => expectRefusal(theilSen([{ x: 2020, y: 6 }, { x: 2020, y: 6.2 }], 1, "pH"), /all results are of one time/, "samplings"));
});

describe("leastSquares", () => {
  it("of results that do not vary has no error and no chance, never NaN", () =>
    expect(answered(leastSquares([2010, 2014, 2018].map((x) => ({ x, y: 25 })))).value).toMatchObject({ slope: 0, intercept: 25, residualSd: 0, rSquared: undefined, p: undefined, from: 0, to: 0 }));

  it("refuses two results, and three of one day", () => {
    expectRefusal(leastSquares([{ x: 1, y: 1 }, { x: 2, y: 2 }]), /there are fewer than three results/, "samplings");
    expectRefusal(leastSquares([1, 2, 3].map((y) => ({ x: 2020, y }))), /all results are of one time/, "samplings");
  });
});
