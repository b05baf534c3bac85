import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { counted, plain, round, show } from "../../src/interpretation/show.ts";
import { always } from "../support/repeatable.ts";

const finite = fc.double({ min: -1e15, max: 1e15, noNaN: true });
const decimals = fc.integer({ min: 0, max: 4 });

describe("round", () => {
  it.each([
    [1.005, 2, 1.01],
    [2.5, 0, 3],
    [-2.5, 0, -3],
    [0.285, 2, 0.29],
    [-0.285, 2, -0.29],
    [2.675, 2, 2.68],
    [1.45, 1, 1.5],
    [0.05, 1, 0.1],
    [0.049, 1, 0],
    [5.05, 1, 5.1],
    [1234.5678, 2, 1234.57],
    [1e-7, 2, 0],
    [0.4999999, 0, 0],
    [1e21, 2, 1e21],
  ])("%d to %i decimals is %d: half goes away from zero, on the decimal number", (value, places, expected) => expect(round(value, places)).toBe(expected));

  it("rounding again changes nothing", () => always([finite, decimals], (x, d) => expect(round(round(x, d), d)).toBe(round(x, d))));

  it("is the same above and below zero", () => always([finite, decimals], (x, d) => expect(round(-x, d) + round(x, d)).toBe(0)));

  it("moves a number by at most half of the last place", () =>
    always([fc.double({ min: -1e6, max: 1e6, noNaN: true }), decimals], (x, d) => expect(Math.abs(round(x, d) - x)).toBeLessThanOrEqual(0.5 * 10 ** -d + 1e-8)));

  it("refuses what is not a number rather than show it", () => {
    expect(() => round(NaN, 1)).toThrow("cannot show");
    expect(() => show(Infinity, 1)).toThrow("cannot show");
  });
});

describe("show", () => {
  it.each([
    [0, 0, "0"],
    [999, 0, "999"],
    [1000, 0, "1,000"],
    [1234567.891, 2, "1,234,567.89"],
    [999.995, 2, "1,000.00"],
    [-1234.5, 1, "−1,234.5"],
    [6.3, 1, "6.3"],
    [6, 1, "6.0"],
    [-0.04, 1, "0.0"],
    [-1e-7, 2, "0.00"],
  ])("%d with %i decimals prints %s", (value, places, expected) => expect(show(value, places)).toBe(expected));

  it("never prints a zero with a sign, nor anything but digits", () =>
    always([finite, decimals], (x, d) => {
      const text = show(x, d);
      expect(text).not.toMatch(/^[-−]0(\.0*)?$/);
      expect(text).toMatch(/^−?\d{1,3}(,\d{3})*(\.\d+)?$/);
    }));

  it("prints what it rounded to", () =>
    always([fc.double({ min: -1e9, max: 1e9, noNaN: true }), decimals], (x, d) => expect(Number(show(x, d).replace("−", "-").replaceAll(",", ""))).toBe(round(x, d))));
});

describe("plain", () => {
  it.each([
    [2, 3, "2"],
    [2.5, 3, "2.5"],
    [2.05, 3, "2.05"],
    [1000, 2, "1,000"],
    [0, 2, "0"],
    [10.1, 2, "10.1"],
  ])("%d in at most %i decimals is %s: zeros at the end are dropped, none before the point", (value, places, expected) => expect(plain(value, places)).toBe(expected));
});

it.each([[1, "1 day"], [0, "0 days"], [1.5, "1.5 days"], [2, "2 days"], [1.0001, "1 day"]])("%d counted is %s", (value, expected) => expect(counted(value, "day")).toBe(expected));
