import { describe, expect, it } from "vitest";
import { minimumDetectableSlope, powerOfSlope } from "../../../src/interpretation/statistics/power.ts";
import { fewestForTrend, mostPlanned, rankDetectableSlope } from "../../../src/interpretation/statistics/rankPower.ts";

describe("minimumDetectableSlope", () => {
  it("falls with every sampling and with the years between them", () => {
    for (let n = 3; n < 30; n++) expect(minimumDetectableSlope(n + 1, 3)).toBeLessThan(minimumDetectableSlope(n, 3));
    expect(minimumDetectableSlope(6, 4)).toBeCloseTo(minimumDetectableSlope(6, 1) / 4, 12);
  });

  it("without a slope the power is the level of the test", () => expect(powerOfSlope(0, 6, { alpha: 0.05, sides: 2 })).toBeCloseTo(0.05, 9));

  it.each([2, 4.5, NaN])("refuses %s samplings as a slip of ours", (n) => expect(() => minimumDetectableSlope(n, 3)).toThrow(/needs three samplings/));
});

describe("rankDetectableSlope", () => {
  it("falls with every sampling and asks more than the t test", () => {
    for (let n = fewestForTrend; n <= mostPlanned; n++) {
      expect(rankDetectableSlope(n)).toBeGreaterThan(minimumDetectableSlope(n, 1));
      if (n > fewestForTrend) expect(rankDetectableSlope(n)).toBeLessThan(rankDetectableSlope(n - 1));
    }
  });

  it("is not known outside its table", () => expect(() => rankDetectableSlope(4)).toThrow(/outside 5 to 30/));
});
