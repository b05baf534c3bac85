import { describe, expect, it } from "vitest";
import { farmSummary } from "../../../src/views/summary/farmSummary.ts";
import { fieldRows } from "../../../src/views/results/rows.ts";
import { changesByChance, trendsByChance } from "../../../src/views/trends/byChance.ts";
import { trendFigure } from "../../../src/views/trends/trendFigure.ts";
import { normals, tolerance } from "../../support/simulated.ts";
import { stillAnalytes, stillFarm, strayed } from "../../support/stillFarm.ts";

/** One standard deviation of a bag of fifteen cores in shares of its value, by the guideline `soil-variability`: pH 7 % ÷ √15 and 0.07 of 6.3. */
const stray = { pH: Math.hypot(0.07 / Math.sqrt(15), 0.07 / 6.3), P: Math.hypot(0.46 / Math.sqrt(15), 0.06), K: Math.hypot(0.39 / Math.sqrt(15), 0.06), Mg: 0.1, organicMatter: Math.hypot(0.28 / Math.sqrt(15), 0.06) };

describe("a field of four zones where nothing changes in eight years", () => {
  /** Those of sixty such fields. */
  const figuresOf = (seed: number) => {
    const template = stillFarm(4, 8);
    const normal = normals(seed);
    return Array.from({ length: 60 }, () => strayed(template, (analyte) => stray[analyte] * normal())).flatMap(({ farm, field }) =>
      stillAnalytes.map((analyte) => trendFigure(farm, field, analyte, new Map(), fieldRows(field))!),
    );
  };

  it("has changes that are more than noise, and each figure says how many chance alone makes of so many", () => {
    const figures = figuresOf(7);
    const found = figures.map(({ rows }) => rows.filter((r) => r.change.includes("more than noise")).length);
    const judged = figures.flatMap(({ rows }) => rows.filter((r) => r.change !== "")).length;
    expect(judged).toBe(60 * 5 * 4 * 7);
    const share = found.reduce((sum, n) => sum + n, 0) / judged;
    // Two changes share each result, so what is found strays somewhat farther than that of as many separate ones.
    expect(share).toBeLessThanOrEqual(0.05 + 1.5 * tolerance(0.05, judged));
    expect(share).toBeGreaterThan(0.025);
    figures.forEach(({ changes }, i) =>
      expect(changes).toBe(
        found[i] === 0 ? "" : `Of 28 changes told here, ${found[i] === 1 ? "one is" : `${["", "", "two", "three", "four", "five", "six", "seven", "eight"][found[i]!]!} are`} more than noise; where nothing changes, about one would be by chance alone.`,
      ),
    );
  });

  it("is called rising or falling in at most one zone of twenty, and a figure that does so says it", () => {
    const figures = figuresOf(9);
    const told = "Of twenty zones where nothing changes, up to one is called rising or falling by chance alone.";
    const verdicts = figures.map(({ model }) => model.panels.map((p) => /is (rising|falling) since/.test(p.verdict.says)));
    const share = verdicts.flat().filter(Boolean).length / verdicts.flat().length;
    expect(share).toBeLessThanOrEqual(0.05 + tolerance(0.05, 1200));
    expect(share).toBeGreaterThan(0.01);
    figures.forEach(({ model }, i) => expect(model.caption.includes(told)).toBe(verdicts[i]!.includes(true)));
  });
});

// One in twenty of ten is half of one: fewer are not worth a word.
it("is told of ten and more, in the one and in the many", () => {
  expect([changesByChance(9, 2), changesByChance(10, 0), trendsByChance(9, 2), trendsByChance(10, 0)]).toEqual(["", "", "", ""]);
  expect(changesByChance(10, 1)).toBe("Of ten changes told here, one is more than noise; where nothing changes, about one would be by chance alone.");
  expect(changesByChance(40, 3)).toBe("Of 40 changes told here, three are more than noise; where nothing changes, about two would be by chance alone.");
  expect([trendsByChance(10, 1), trendsByChance(40, 1)]).toEqual(["where nothing changes, up to one of 10 is called so by chance", "where nothing changes, up to two of 40 are called so by chance"]);
});

it("counts in a figure of some zones the changes of these alone, as its table does", () => {
  const { farm, field } = strayed(stillFarm(4, 6), (_, zone, year) => (zone === "zone-1" && year === 2025 ? 0.9 : 0));
  const of = (...at: number[]) => trendFigure(farm, field, "P", new Map(), fieldRows(field), at.map((i) => field.zones[i]!))!.changes;
  expect(of(0, 1, 2, 3)).toMatch(/^Of 20 changes told here, one is/);
  expect(of(0, 1)).toMatch(/^Of ten changes told here, one is/);
  expect(of(1, 2, 3)).toBe("");
});

it("counts on the farm's summary how many of many zones chance alone calls rising or falling", () => {
  const template = stillFarm(24, 6);
  const normal = normals(8);
  const { farm } = strayed(template, (analyte, zone, year) => (zone === "zone-1" ? 0.2 * (year - 2020) : 0) + stray[analyte] * normal());
  for (const { direction } of farmSummary(farm).fertility) expect(direction).toMatch(/^(falling|rising) on .*no detectable trend on \d+; where nothing changes, up to one of 24 is called so by chance$/);
  const many = farmSummary(strayed(stillFarm(31, 6), (_, zone, year) => (zone === "zone-1" ? 0.2 * (year - 2020) : year % 2 === 0 ? 0.01 * (1 + Number(zone.slice(5))) : 0)).farm);
  expect(many.fertility[0]!.direction).toMatch(/where nothing changes, up to two of 31 are called so by chance$/);
  // Of one that is called none, and of few zones, nothing is to be told.
  const still = farmSummary(strayed(template, (_, __, year) => (year % 2 === 0 ? 0.1 : 0)).farm);
  expect(still.fertility.map((f) => f.direction)).toEqual(still.fertility.map(() => "no detectable trend on 24 zones"));
  const few = farmSummary(strayed(stillFarm(4, 6), (_, __, year) => 0.1 * (year - 2020)).farm);
  expect(few.fertility.map((f) => f.direction)).toEqual(few.fertility.map(() => "rising on four zones"));
});

it("does not hold what a laboratory that is off moves alike, as the page says: then three times as much is called more than noise, and most of it one way", () => {
  const template = stillFarm(4, 8);
  const normal = normals(10);
  const changes = Array.from({ length: 40 }, () => {
    const off = new Map<string, number>();
    const { farm, field } = strayed(template, (analyte, _, year) => {
      if (!off.has(`${analyte} ${year}`)) off.set(`${analyte} ${year}`, normal());
      return stray[analyte] * (normal() + off.get(`${analyte} ${year}`)!);
    });
    return stillAnalytes.flatMap((analyte) => {
      const { rows } = trendFigure(farm, field, analyte, new Map(), fieldRows(field))!;
      return [...Map.groupBy(rows.filter((r) => r.change !== ""), (r) => r.date).values()].map((day) => day.map((r) => r.change));
    });
  }).flat();
  const beyond = changes.map((day) => day.filter((c) => c.includes("more than noise")));
  expect(beyond.flat().length / changes.flat().length).toBeGreaterThan(0.1);
  const several = beyond.filter((day) => day.length > 1);
  expect(several.filter((day) => new Set(day.map((c) => c[0])).size === 1).length / several.length).toBeGreaterThan(0.95);
});
