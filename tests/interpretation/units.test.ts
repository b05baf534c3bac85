import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkedUnits, oxidesCheck, sumsCheck, unitsCheck } from "../../src/interpretation/checks/unitsCheck.ts";
import { cationMass, convert, convertWritten, oxidePerElement, sameDimension, writtenUnitIds } from "../../src/interpretation/units.ts";
import { soilTestUnits } from "../../src/interpretation/vocabulary.ts";
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
});

describe("printed sums", () => {
  checkedAsPublished(sumsCheck);

  it("lead back to where they began", () =>
    always([fc.constantFrom("P2O5", "K2O", "MgO", "SO3"), between(1e-9, 1e6)], (oxide, element) => {
      const there = element * oxidePerElement[oxide];
      expect(there).toBeGreaterThanOrEqual(element);
      expect(Math.abs(there / oxidePerElement[oxide] - element)).toBeLessThanOrEqual(dust(element));
    }));
});

describe("units that laboratories write", () => {
  // By definition: parts of a million by mass, 100 g and 1000 g in a kilogram, 100 hundredths; 1 mho = 1 S; 1 cmol of charge = 10 mmol = 10 meq.
  it.each([
    [96, "mg/kg", "ppm", 96],
    [2.15, "mg/100 g", "ppm", 21.5],
    [35, "g/kg", "%", 3.5],
    [12.4, "cmol/kg", "meq/100 g", 12.4],
    [0.4, "mmho/cm", "dS/m", 0.4],
    [400, "uS/cm", "dS/m", 0.4],
    [9.6, "mg/100 ml", "mg/l", 96],
  ] as const)("%s %s is %s %s", (value, from, to, expected) => {
    expect(convertWritten(value, from, to)).toBe(expected);
  });

  it.each([
    ["ppm", "lb/ac"],
    ["ppm", "mg/l"],
    ["meq/100 g", "meq/100 cm3"],
    ["meq/100 g", "ppm"],
    ["index", "ppm"],
    ["pH", "index"],
  ] as const)("%s and %s are not one by definition", (from, to) => {
    expect(convertWritten(1, from, to)).toBeUndefined();
    expect(convertWritten(1, to, from)).toBeUndefined();
  });

  // Half the atomic weight of calcium (40.078) and magnesium (24.305), the whole of potassium (39.098) and sodium (22.990), NIST; mg in 100 g times ten is ppm.
  it.each([
    ["Ca", 1, "meq/100 g", "ppm", 200.4],
    ["Mg", 1, "meq/100 g", "ppm", 121.5],
    ["K", 1, "cmol/kg", "ppm", 391],
    ["Na", 1, "meq/100 g", "ppm", 229.9],
    ["Ca", 1, "meq/100 cm3", "mg/l", 200.4],
    ["Ca", 1, "meq/100 cm3", "ppm", undefined],
    ["Ca", 1, "meq/100 g", "mg/l", undefined],
    ["P", 1, "meq/100 g", "ppm", undefined],
    ["Ca", 1, "ppm", "ppm", undefined],
  ] as const)("%s of %d %s in %s", (analyte, value, from, to, expected) => expect(cationMass(analyte, value, from, to)).toBe(expected));

  it("every unit of a soil test can be written", () => expect(soilTestUnits.filter((unit) => !writtenUnitIds.includes(unit))).toEqual([]));
});
