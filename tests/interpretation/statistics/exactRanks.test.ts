import { expect, it } from "vitest";
import { groupSizes } from "../../../src/interpretation/statistics/dated.ts";
import { exactTwoSided } from "../../../src/interpretation/statistics/exactRanks.ts";
import { mannKendall } from "../../../src/interpretation/statistics/mannKendall.ts";
import { answered } from "../../support/outcomes.ts";

const orders = (items: readonly number[]): number[][] =>
  items.length === 0 ? [[]] : items.flatMap((first, i) => orders(items.filter((_, j) => j !== i)).map((rest) => [first, ...rest]));

const kendall = (x: readonly number[], y: readonly number[]): number =>
  x.reduce((sum, xi, i) => sum + x.slice(i + 1).reduce((s, xj, k) => s + Math.sign(xj - xi) * Math.sign(y[i + 1 + k]! - y[i]!), 0), 0);

const series: [string, number[], number[]][] = [
  ["no ties", [1, 2, 3, 4, 5], [3, 1, 4, 2, 5]],
  ["equal values", [1, 2, 3, 4, 5, 6], [2, 1, 2, 3, 3, 3]],
  ["equal times", [1, 1, 2, 2, 3, 3], [1, 3, 2, 5, 4, 6]],
  ["both", [1, 1, 2, 2, 2, 3, 4], [1, 2, 2, 3, 3, 3, 1]],
  ["all equal", [1, 2, 3], [7, 7, 7]],
];

it.each(series)("the variance by formula is that of every order written out, cross terms and all: %s", (_, x, y) => {
  const all = orders(y).map((order) => kendall(x, order) ** 2);
  const { variance } = answered(mannKendall(x.map((time, i) => ({ x: time, y: y[i]! })))).value;
  expect(variance).toBeCloseTo(all.reduce((sum, s) => sum + s, 0) / all.length, 9);
});

it.each(series)("counts the orders as writing every one of them out does: %s", (_, x, y) => {
  const all = orders(y).map((order) => Math.abs(kendall(x, order)));
  for (const s of [0, 1, 2, 3, 5, 7, 9, 12, 15]) {
    const far = all.filter((each) => each >= s).length / all.length;
    expect(exactTwoSided(groupSizes(x), groupSizes(y), s)).toBeCloseTo(far, 12);
  }
});
