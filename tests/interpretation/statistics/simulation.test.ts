import { describe, expect, it, vi } from "vitest";
import { answer } from "../../../src/interpretation/outcome.ts";
import type { MarginRule } from "../../../src/interpretation/rules/margin.ts";
import { changeBetween } from "../../../src/interpretation/statistics/change.ts";
import { compareAreas } from "../../../src/interpretation/statistics/areas.ts";
import { compareAnalyte } from "../../../src/interpretation/statistics/equivalence.ts";
import { leastSquares } from "../../../src/interpretation/statistics/leastSquares.ts";
import { mannKendall } from "../../../src/interpretation/statistics/mannKendall.ts";
import { minimumDetectableSlope } from "../../../src/interpretation/statistics/power.ts";
import { rankDetectableSlope } from "../../../src/interpretation/statistics/rankPower.ts";
import { noiseOf } from "../../../src/interpretation/statistics/noise.ts";
import { trendOf } from "../../../src/interpretation/statistics/trend.ts";
import type { AnalyteId, MethodId } from "../../../src/interpretation/vocabulary.ts";
import { answered } from "../../support/outcomes.ts";
import { shareOf, tolerance as standardErrors } from "../../support/simulated.ts";

/** More with STATISTICS_RUNS=50000: then the tolerances, which follow from the number of runs, are narrow. */
const runs = Number(process.env["STATISTICS_RUNS"] ?? 2000);

// A larger number of runs may take minutes.
vi.setConfig({ testTimeout: 600_000 });

const tolerance = (share: number): number => standardErrors(share, runs);
const share = (seed: number, found: (normal: () => number, run: number) => boolean, of = runs): number => shareOf(of, seed, found);

const part = (value: number) => ({ value, as: "units", source: "common-practice" }) as const;

const series = (normal: () => number, n: number, slope: number) => Array.from({ length: n }, (_, i) => ({ x: 2000 + i, y: 6.3 + slope * i + normal() }));

const noise = noiseOf({ analyte: "pH", method: "water1to1" }, [{ kind: "noise", id: "one", analyte: "pH", together: { value: 1, as: "units", source: "common-practice" } }]);

describe("on two results of an unchanged soil", () => {
  const percent = (value: number, duplicates?: number[][]) =>
    noiseOf({ analyte: "P", method: "mehlich3", step: 1, duplicates }, [{ kind: "noise", id: "one", analyte: "P", together: { value, as: "percent", source: "common-practice" } }]);
  const changed = (seed: number, result: (normal: () => number) => [number, number], noiseIn: (normal: () => number) => typeof noise, of = runs): number =>
    share(seed, (normal) => {
      const [first, second] = result(normal);
      return answered(changeBetween({ value: first }, { value: second }, noiseIn(normal))).value.beyondNoise;
    }, of);

  // Laboratories print phosphorus in whole ppm: the noise of 2.5 ppm is a third of the step.
  it.each([1.5, 2.5, 3.5, 4.5, 7.5, 12.5, 40])("of %d ppm printed as whole numbers, at most 5 in 100 are called a change", (level) => {
    const printed = (normal: () => number): number => Math.max(1, Math.round(level * (1 + 0.13 * normal())));
    expect(changed(100, (normal) => [printed(normal), printed(normal)], () => percent(13))).toBeLessThanOrEqual(0.05 + tolerance(0.05));
  });

  it.each([0.05, 0.1, 0.15])("of pH with a noise of %d printed in tenths, at most 5 in 100", (value) => {
    const own = noiseOf({ analyte: "pH", method: "water1to1", step: 0.1 }, [{ kind: "noise", id: "one", analyte: "pH", together: { value, as: "units", source: "common-practice" } }]);
    const called = changed(110, (normal) => {
      const level = 6 + Math.abs(normal());
      return [0, 1].map(() => Math.round((level + value * normal()) * 10) / 10) as [number, number];
    }, () => own);
    expect(called).toBeLessThanOrEqual(0.05 + tolerance(0.05));
  });

  it.each([3, 4, 8])("with the noise learned from %i pairs of its own, at most 5 in 100", (pairs) => {
    const bag = (normal: () => number): number => Math.max(1, Math.round(60 * (1 + 0.13 * normal())));
    const called = changed(120 + pairs, (normal) => [bag(normal), bag(normal)], (normal) => percent(13, Array.from({ length: pairs }, () => [bag(normal), bag(normal)])));
    expect(called).toBeLessThanOrEqual(0.05 + tolerance(0.05));
  });
});

describe("on two means of several bags of an unchanged soil", () => {
  it.each([2, 3])("of %i bags each, about 5 in 100 are called a change: a mean strays less than one bag", (bags) => {
    const called = share(130 + bags, (normal) => {
      const mean = () => ({ value: 6.3 + normal() / Math.sqrt(bags), bags: Array.from({ length: bags }) });
      return answered(changeBetween(mean(), mean(), noise)).value.beyondNoise;
    });
    expect(Math.abs(called - 0.05)).toBeLessThanOrEqual(tolerance(0.05));
  });

  it("but bags of one laboratory are off together beside those of another: at most 5 in 100 still", () => {
    const of = (labs: number) => noiseOf({ analyte: "pH", method: "water1to1", labs, cores: 10 }, [{ kind: "noise", id: "one", analyte: "pH", core: part(0.3), lab: part(0.1), labs: part(0.3) }]);
    const called = share(140, (normal) => {
      const mean = () => ({ value: 6.3 + normal() * Math.hypot(Math.sqrt(0.3 ** 2 - 0.1 ** 2), Math.hypot(0.3 / Math.sqrt(10), 0.1) / Math.SQRT2), bags: [1, 2] });
      return answered(changeBetween(mean(), mean(), of(2))).value.beyondNoise;
    });
    expect(Math.abs(called - 0.05)).toBeLessThanOrEqual(tolerance(0.05));
  });
});

describe("on series without a trend", () => {
  it(`of 5 to 12 samplings, at most 5 in 100 of ${runs} are called a trend`, () => {
    const called = share(1, (normal, run) => {
      const { finding } = answered(trendOf({ points: series(normal, 5 + (run % 8), 0), unit: "pH" }, noise)).value;
      return finding === "rising" || finding === "falling";
    });
    expect(called).toBeLessThanOrEqual(0.05 + tolerance(0.05));
    expect(called).toBeGreaterThan(0.02);
  });

  it("values rounded to a tenth, with many ties, are called no more often", () => {
    const called = share(2, (normal, run) => {
      const rounded = series(normal, 5 + (run % 8), 0).map(({ x, y }) => ({ x, y: Math.round(y * 1.5) / 1.5 }));
      return answered(mannKendall(rounded)).value.p < 0.05;
    });
    expect(called).toBeLessThanOrEqual(0.05 + tolerance(0.05));
  });
});

describe("on series with a slope", () => {
  it.each([5, 6, 8, 12])("that %i samplings just show by least squares, 80 in 100 are found, within 3 points", (n) => {
    const found = share(10 + n, (normal) => answered(leastSquares(series(normal, n, minimumDetectableSlope(n, 1)))).value.p! < 0.05, Math.max(runs, 4000));
    expect(Math.abs(found - 0.8)).toBeLessThanOrEqual(0.03);
  });

  it.each([5, 6, 8, 12])("that %i samplings just show by rank, 80 in 100 are found, within 3 points", (n) => {
    const found = share(30 + n, (normal) => answered(mannKendall(series(normal, n, rankDetectableSlope(n)))).value.p < 0.05, Math.max(runs, 4000));
    expect(Math.abs(found - 0.8)).toBeLessThanOrEqual(0.03);
  });

  it("the rank test finds fewer of the slopes that least squares just shows: half and less at five samplings", () => {
    const found = share(50, (normal) => answered(mannKendall(series(normal, 5, minimumDetectableSlope(5, 1)))).value.p < 0.05);
    expect(found).toBeLessThan(0.55);
  });
});

describe("on two areas that are one and the same", () => {
  const asked = (["pH", "P", "K", "Mg"] as const).map((analyte) =>
    analyte === "pH" ? ({ analyte, method: "water1to1", unit: "pH" } as const) : ({ analyte, method: "mehlich3", unit: "ppm" } as const),
  );
  const margins = asked.map(({ analyte, method, unit }): MarginRule => ({ kind: "margin", id: analyte, analyte, methods: [method], unit, within: { value: 0.2, source: "common-practice" } }));
  const each = (analyte: AnalyteId, method: MethodId) => noiseOf({ analyte, method }, [{ kind: "noise", id: "one", analyte, together: { value: 1, as: "units", source: "common-practice" } }]);

  it.each([1, 2, 4])("by four analytes of %i events, at most 5 in 100 of pairs are told to differ", (events) => {
    const apart = share(95 + events, (normal) => {
      const area = () => Object.fromEntries(asked.map(({ analyte, method, unit }) => [analyte, { method, unit, values: Array.from({ length: events }, () => 20 + normal()) }]));
      return answered(compareAreas({ areas: [area(), area()], margins, noise: each, byEvent: true })).value.verdict === "keep apart";
    });
    expect(apart).toBeLessThanOrEqual(0.05 + tolerance(0.05));
  });
});

describe("on two areas that differ by exactly the margin", () => {
  const areas = (normal: () => number, a: number, b: number, sds: readonly [number, number]) =>
    [Array.from({ length: a }, () => 20 + sds[0] * normal()), Array.from({ length: b }, () => 25 + sds[1] * normal())] as const;
  const merged = (seed: number, a: number, b: number, sds: readonly [number, number]): number =>
    share(seed, (normal) => {
      const { verdict } = answered(compareAnalyte({ values: areas(normal, a, b, sds), margin: answer({ within: 5, unit: "ppm" }, []), noise })).value;
      return verdict === "may be sampled together next time";
    });

  it.each([
    [3, 3, [2, 2]],
    [5, 5, [1, 1]],
    [8, 4, [2, 2]],
    [6, 6, [1, 3]],
  ] as const)("with %i and %i composites, sds %j, at most 5 in 100 are merged, give or take four standard errors", (a, b, sds) => {
    expect(merged(60 + a, a, b, sds)).toBeLessThanOrEqual(0.05 + tolerance(0.05));
  });

  it("with one composite each and the true noise known, at most 5 in 100 are merged", () => {
    expect(merged(80, 1, 1, [1, 1])).toBeLessThanOrEqual(0.05 + tolerance(0.05));
  });

  it("by five events that move both areas alike, at most 5 in 100 are merged", () => {
    const found = share(90, (normal) => {
      const events = Array.from({ length: 5 }, () => 4 * normal());
      const values = [events.map((e) => 20 + e + 1.5 * normal()), events.map((e) => 25 + e + 1.5 * normal())] as const;
      return answered(compareAnalyte({ values, margin: answer({ within: 5, unit: "ppm" }, []), noise, byEvent: true })).value.verdict === "may be sampled together next time";
    });
    expect(found).toBeLessThanOrEqual(0.05 + tolerance(0.05));
  });
});
