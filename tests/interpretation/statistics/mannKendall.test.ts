import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mannKendall } from "../../../src/interpretation/statistics/mannKendall.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { always, between } from "../../support/repeatable.ts";

const yearly = (y: readonly number[], step = 1) => y.map((value, i) => ({ x: 2000 + i * step, y: value }));
const test = (y: readonly number[]) => answered(mannKendall(yearly(y))).value;
const values = fc.array(fc.integer({ min: 0, max: 12 }).map((tenth) => 5.5 + tenth / 10), { minLength: 2, maxLength: 14 });

describe("mannKendall", () => {
  // Series A of tests/cases/trend.yaml, and its mirror.
  it("turned upside down has the other sign and the same chance", () =>
    always([values], (y) => {
      const [up, down] = [test(y), test(y.map((v) => 14 - v))];
      expect(down.s).toBe(0 - up.s);
      expect(down.p).toBeCloseTo(up.p, 12);
    }));

  it("does not depend on the unit, the height or the order in which results are listed", () =>
    always([values, between(0.1, 50), between(0, 100)], (y, scale, shift) => {
      const [plain, moved] = [test(y), test(y.map((v) => v * scale + shift))];
      expect([moved.s, moved.p]).toEqual([plain.s, plain.p]);
      expect(answered(mannKendall(yearly(y).toReversed())).value.p).toBe(plain.p);
    }));

  it("gives a chance from 0 to 1, and taus from -1 to 1, never NaN", () =>
    always([values], (y) => {
      const { p, pNormal, tauA, tauB, z } = test(y);
      for (const chance of [p, pNormal ?? 1]) expect(chance >= 0 && chance <= 1).toBe(true);
      for (const tau of [tauA, tauB ?? 0]) expect(Math.abs(tau)).toBeLessThanOrEqual(1 + 1e-12);
      expect(Number.isNaN(z)).toBe(false);
    }));

  it.each([3, 11])("%s results that are all the same show no direction at all", (n) =>
    expect(test(new Array<number>(n).fill(6.3))).toMatchObject({ s: 0, variance: 0, z: 0, pNormal: undefined, p: 1, tauB: undefined }));

  it("keeps tau-a and tau-b apart where values are equal", () => {
    // 23 results of sulfate, Unified Guidance (EPA 530/R-09-007) as repeated in EnvStats 3.1.0: the guidance prints 0.7668, scipy gives 0.7745.
    const y = [480, 450, 490, 520, 485, 510, 510, 530, 510, 560, 560, 540, 590, 550, 600, 700, 570, 610, 650, 620, 830, 720, 590];
    expect(test(y)).toMatchObject({ tauA: expect.closeTo(0.7668, 4) as number, tauB: expect.closeTo(0.7745, 4) as number });
  });

  it("corrects for continuity where other programs do not", () => {
    // Series G: scipy 1.10.1 prints 0.000199 without the correction.
    const y = [110, 118, 118, 125, 121, 130, 128, 128, 137, 135, 141, 139];
    expect(test(y)).toMatchObject({ method: "normal curve with continuity correction", pNormal: expect.closeTo(0.000261, 6) as number, pExact: undefined });
  });

  it("counts every order up to ten results, ties and all", () => {
    // Series B: 0.00168 by the normal curve, 0.000198 exactly (scipy 1.10.1, all orders written out).
    expect(test([6.8, 6.7, 6.7, 6.5, 6.4, 6.4, 6.2, 6.1])).toMatchObject({ method: "every order counted", p: expect.closeTo(0.0001984, 7) as number });
  });

  it("says nothing happens, not NaN, where every value is the same", () => expect(test([25, 25, 25, 25])).toMatchObject({ s: 0, variance: 0, z: 0, p: 1, tauA: 0, tauB: undefined, pNormal: undefined }));

  it("takes 6.9 and the mean of three bags of 6.9 for equal, though the computer does not", () => {
    const ofBags = (6.9 + 6.9 + 6.9) / 3;
    expect(ofBags).not.toBe(6.9);
    expect(test([ofBags, 6.9, 6.9]).s).toBe(0);
  });

  it("cannot find a trend in three or four results however steady: 1 in 3, and 1 in 12", () => expect([test([1, 2, 3]).p, test([1, 2, 3, 4]).p]).toEqual([expect.closeTo(1 / 3, 12) as number, expect.closeTo(1 / 12, 12) as number]));

  it("refuses one result", () => expectRefusal(mannKendall(yearly([6.1])), /there are fewer than two results/, "samplings"));
});
