import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import type { Unit } from "../../src/interpretation/units.ts";
import { convert, oxidePerElement, sameDimension } from "../../src/interpretation/units.ts";
import { published, readCases, toleranceOf } from "../support/cases.ts";
import { always, between } from "../support/repeatable.ts";

const units = ["lb/ac", "kg/ha", "ton/ac", "t/ha", "lb/1000 sq ft", "bu/ac", "in", "cm", "ft", "m", "acre", "ha", "sq m", "lb", "kg", "ton", "t"] as const satisfies readonly Unit[];
const unit = z.enum(units);
const one = z.strictObject({ value: z.number() });

const { cases } = readCases("units.yaml", published.extend({ input: one.extend({ from: unit, to: unit }), expect: one }));
const { cases: oxides } = readCases(
  "units.yaml",
  published.extend({
    input: one.extend({ oxide: z.enum(["P2O5", "K2O"]) }),
    expect: z.union([z.strictObject({ oxide: z.number() }), z.strictObject({ element: z.number() })]),
  }),
  "oxides",
);

const anyUnit = fc.constantFrom(...units);
/** Either side of zero, and no smaller than a thousandth of a millionth: what is weaker has no twelve digits to keep. */
const amount = fc.tuple(fc.constantFrom(-1, 0, 1), between(1e-9, 1e9)).map(([sign, size]) => sign * size);
const dust = (value: number): number => Math.abs(value) * 1e-12;

describe("unit conversions", () => {
  it.each(cases)("$case from $input.from to $input.to", (c) => {
    const got = convert(c.input.value, c.input.from, c.input.to);
    expect(Math.abs(got - c.expect.value)).toBeLessThanOrEqual(toleranceOf(c));
  });

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
  it.each(oxides)("$case", (c) => {
    const factor = oxidePerElement[c.input.oxide];
    const [got, wanted] = "oxide" in c.expect ? [c.input.value * factor, c.expect.oxide] : [c.input.value / factor, c.expect.element];
    expect(Math.abs(got - wanted)).toBeLessThanOrEqual(toleranceOf(c));
  });

  it("lead back to where they began", () =>
    always([fc.constantFrom("P2O5", "K2O"), between(1e-9, 1e6)], (oxide, element) => {
      const there = element * oxidePerElement[oxide];
      expect(there).toBeGreaterThanOrEqual(element);
      expect(Math.abs(there / oxidePerElement[oxide] - element)).toBeLessThanOrEqual(dust(element));
    }));
});
