import { expect, it } from "vitest";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import { breaksOf } from "../../../src/views/trends/trendBreaks.ts";
import { measured } from "../../support/measured.ts";

const result = (date: string, over: Partial<Measurement> = {}): Measurement => measured("K", 100, { date, ...over });

it.each([
  ["the method", { method: "olsen" }, "Mehlich-3", "Olsen"],
  ["the finish", { finish: "icp" }, "Mehlich-3", "Mehlich-3, ICP"],
  ["the unit", { unit: "lb/ac" }, "ppm", "lb/ac"],
  ["the depth", { depth: { from: 0, to: 6, unit: "in" } }, "0 to 8 in", "0 to 6 in"],
] as const)("%s that changed is named on its side of the break, half way between the two results", (_, over, left, right) => {
  const { breaks, beside } = breaksOf([[result("2018-01-01"), result("2020-01-01")], [result("2022-01-01", over)]]);
  expect(breaks).toMatchObject([{ x: 2021, left, right }]);
  expect(beside).toEqual([]);
});

it("a series that begins while another runs is told of beside it, by its first month", () => {
  const line = [result("2018-10-01"), result("2024-10-01")];
  expect(breaksOf([line, [result("2020-04-01", { method: "olsen" })]])).toEqual({ breaks: [], beside: ["the result of April 2020, Olsen"] });
  expect(breaksOf([line, [result("2020-04-01", { method: "olsen" }), result("2021-04-01", { method: "olsen" })]]).beside).toEqual(["the results from April 2020 on, Olsen"]);
});

it("says why by an older member of the line, where depths drifted by less than an inch at a time", () => {
  const to = (depth: number) => ({ depth: { from: 0, to: depth, unit: "in" as const } });
  const { breaks } = breaksOf([[result("2018-10-01", to(8)), result("2020-10-01", to(7))], [result("2022-10-01", to(6))]]);
  expect(breaks).toMatchObject([{ because: "the depth changed from 0 to 8 in to 0 to 6 in", left: "0 to 7 in", right: "0 to 6 in" }]);
});
