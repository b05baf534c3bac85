import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkedUnits, oxidesCheck, unitsCheck } from "../../src/interpretation/checks/unitsCheck.ts";
import { convert, oxidePerElement, sameDimension } from "../../src/interpretation/units.ts";
import { checkedAsPublished } from "../support/cases.ts";
import { always, between } from "../support/repeatable.ts";

const anyUnit = fc.constantFrom(...checkedUnits);
/** Either side of zero, and no smaller than a thousandth of a millionth: what is weaker has no twelve digits to keep. */
const amount = fc.tuple(fc.constantFrom(-1, 0, 1), between(1e-9, 1e9)).map(([sign, size]) => sign * size);
const dust = (value: number): number => Math.abs(value) * 1e-12;

describe("unit conversions", () => {
  checkedAsPublished(unitsCheck);

  it("lead back to where they began", () =>
    always([anyUnit, anyUnit, amount], (from, to, value) => {
      fc.pre(sameDimension(from, to));
      expect(Math.abs(convert(convert(value, from, to), to, from) - value)).toBeLessThanOrEqual(dust(value));
    }));

  it("come to the same by way of a third unit", () =>
    always([anyUnit, anyUnit, anyUnit, amount], (from, by, to, value) => {
      fc.pre(sameDimension(from, by) && sameDimension(by, to));
      const straight = convert(value, from, to);
      expect(Math.abs(convert(convert(value, from, by), by, to) - straight)).toBeLessThanOrEqual(dust(straight));
    }));

  it.each([
    ["bu/ac", "ton/ac"],
    ["lb/ac", "lb"],
    ["in", "acre"],
  ] as const)("refuse to turn %s into %s", (from, to) => {
    expect(sameDimension(from, to)).toBe(false);
    expect(() => convert(1, from, to)).toThrow(`no conversion from ${from} to ${to}`);
  });
});

describe("oxides and elements", () => {
  checkedAsPublished(oxidesCheck);

  it("lead back to where they began", () =>
    always([fc.constantFrom("P2O5", "K2O", "MgO", "SO3"), between(1e-9, 1e6)], (oxide, element) => {
      const there = element * oxidePerElement[oxide];
      expect(there).toBeGreaterThanOrEqual(element);
      expect(Math.abs(there / oxidePerElement[oxide] - element)).toBeLessThanOrEqual(dust(element));
    }));
});
