import { describe, expect, it } from "vitest";
import { commonShift } from "../../../src/interpretation/statistics/commonShift.ts";
import { answered } from "../../support/outcomes.ts";
import { shareOf, tolerance } from "../../support/simulated.ts";

const of = (changes: readonly number[], sd = 0) => changes.map((change) => ({ change, sd }));

describe("places that moved together", () => {
  // Nights of sleep of eight people with and without caffeine: a worked example read at smartsolve.ai (mean 3.25, sum of squares 39.5, standard deviation 2.375...), with t of 7 degrees of freedom 2.365, from any table.
  it("are judged as a published worked example of paired results is", () => {
    const { value } = answered(commonShift(of([-2, 5, 4, 3, 3, 3, 4, 6]), 1));
    expect(value).toMatchObject({ places: 8, mean: 3.25, along: 7, beyondChance: true });
    expect(value.least).toBeCloseTo((2.365 * Math.sqrt(39.5 / 7)) / Math.sqrt(8), 3);
  });

  // A package's manual prints of 20 pairs with mean 0.222 and standard deviation 1.671 the limits -0.559 and 1.004 (minijmp.readthedocs.io, usage/paired_t, said to agree with two others).
  it("have the limits that a statistics package prints", () => {
    const away = 1.671 * Math.sqrt(19 / 20);
    const { value } = answered(commonShift(of(Array.from({ length: 20 }, (_, i) => 0.222 + (i % 2 === 0 ? away : -away))), 1));
    expect(value.mean - value.least).toBeCloseTo(-0.559, 2);
    expect(value.mean + value.least).toBeCloseTo(1.004, 2);
    expect(value.beyondChance).toBe(false);
  });

  it("are listed in the sum up to twelve, and of more the sum is told", () => {
    const sum = (n: number) => answered(commonShift(of(Array.from({ length: n }, (_, i) => i % 2)), 1)).steps[0]!.expression;
    expect([sum(12), sum(13)]).toEqual(["sum of 0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0, 1 ÷ 12", "6 ÷ 13"]);
  });

  it("are four at least", () => {
    expect(commonShift(of([1, 1, 1], 0.1), 1)).toMatchObject({ kind: "noAnswer", because: "fewer than 4 zones can be set beside what was found before" });
    expect(commonShift(of([1, 1, 1, 1], 0.1), 1).kind).toBe("answer");
  });

  it("do not agree by rounding: they stray by no less than noise, and half a printed step is added", () => {
    const alike = of([0.1, 0.1, 0.1, 0.1], 0.15);
    const { value, steps } = answered(commonShift(alike, 1, 0.1));
    // t of 3 degrees of freedom, 0.975: 3.182 (any table).
    expect(value.least).toBeCloseTo((3.182 * 0.15) / 2 + 0.05, 3);
    expect(steps[1]!.note).toBe("by noise; the changes differ by less, 0");
    expect(value.beyondChance).toBe(false);
  });

  it("each have their share of one chance in twenty where several tests are looked at", () => {
    const [one, ten] = [1, 10].map((tests) => answered(commonShift(of([1, 2, 3, 2, 1, 2], 0.1), tests)).value.least);
    // t of 5 degrees of freedom at 0.975 and 0.9975: 2.571 and 4.773 (any table).
    expect(ten! / one!).toBeCloseTo(4.773 / 2.571, 2);
    const noted = (tests: number) => answered(commonShift(of([1, 2, 3, 2, 1, 2], 0.1), tests)).steps[2]!.note;
    expect([noted(1), noted(10)]).toEqual(["Student's t of 6 zones", "Student's t of 6 zones, at 5 in 100 divided by 10, since 10 tests are looked at"]);
  });

  it("went along only where they went that way: one that stood still did not", () => {
    expect(answered(commonShift(of([-1, -2, 0, 1, -3], 0.1), 1)).value).toMatchObject({ mean: -1, along: 3 });
  });

  it("are told of unchanged soil at most once in twenty, whatever is printed, and of nine zones in a run that is off by as much as two bags stray, nine times in ten", () => {
    const called = (seed: number, level: number, sd: number, off: number, zones = 9): number =>
      shareOf(3000, seed, (normal) => {
        const printed = (run: number): number => Math.round(level + sd * (run + normal()));
        return answered(commonShift(Array.from({ length: zones }, () => ({ change: printed(off) - printed(0), sd: sd * Math.SQRT2 })), 1, 1)).value.beyondChance;
      });
    for (const [seed, level, sd, zones] of [[1, 2.5, 0.3, 9], [2, 12.5, 1.3, 9], [3, 140, 17, 9], [4, 140, 17, 4], [5, 140, 17, 30]] as const)
      expect(called(seed, level, sd, 0, zones), `${level} of ${zones} zones`).toBeLessThanOrEqual(0.05 + tolerance(0.05, 3000));
    expect(called(6, 140, 17, 1)).toBeGreaterThan(0.25);
    expect(called(7, 140, 17, 2)).toBeGreaterThan(0.9);
  });
});
