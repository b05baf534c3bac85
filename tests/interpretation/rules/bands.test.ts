import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import type { Band } from "../../../src/interpretation/rules/bands.ts";
import { bandOf, bandOfMeasurement, bandsRule, bandTable, positions, rateByBands } from "../../../src/interpretation/rules/bands.ts";
import { facts, published, readCases } from "../../support/cases.ts";
import { measured, measuredFor } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { ruleIn, ruleNamed, triState } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const { rules, cases } = readCases(
  "bands.yaml",
  published.extend({
    rule: z.string(),
    input: z.strictObject({ value: z.number(), facts: facts.optional() }),
    expect: z.strictObject({ band: z.string(), position: z.enum(positions).optional() }),
  }),
);

describe("rating by classes, as published", () => {
  it.each(cases)("$case", (c) => {
    const rule = ruleNamed(c.rule, rules, "bands");
    const { value } = answered(rateByBands(rule, measuredFor(rule.limits, rule.analyte, c.input.value), c.input.facts ?? {}, "the publication"));
    expect(value.band).toBe(c.expect.band);
    if (c.expect.position) expect(value.position).toBe(c.expect.position);
  });
});

/** Classes that rise, each beginning in one of the two ways. */
const anyBands: fc.Arbitrary<Band[]> = fc
  .tuple(fc.uniqueArray(between(0, 500), { minLength: 1, maxLength: 6 }), fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }))
  .map(([starts, inclusive]) => [{ name: "0" }, ...starts.sort((a, b) => a - b).map((start, i) => ({ name: String(i + 1), ...(inclusive[i] ? { from: start } : { above: start }) }))]);

describe("bandOf", () => {
  it("never puts a higher test in a lower band", () =>
    always([anyBands, between(0, 600), between(0, 600), fc.option(fc.integer({ min: 0, max: 3 }), { nil: undefined })], (bands, a, b, roundTo) =>
      expect(bandOf(Math.min(a, b), bands, roundTo).rank).toBeLessThanOrEqual(bandOf(Math.max(a, b), bands, roundTo).rank)));

  it("puts a number on an edge above with `from` and below with `above`", () => {
    expect(bandOf(20, [{ name: "low" }, { name: "high", from: 20 }]).band).toBe("high");
    expect(bandOf(20, [{ name: "low" }, { name: "high", above: 20 }]).band).toBe("low");
    expect(bandOf(20.001, [{ name: "low" }, { name: "high", above: 20 }]).band).toBe("high");
  });

  it("gives everything below the first edge to the first band", () => expect(bandOf(-1, [{ name: "low" }, { name: "high", from: 0 }]).rank).toBe(0));
});

describe("a result that is less than or more than a number", () => {
  const bands: Band[] = [{ name: "low" }, { name: "medium", from: 10 }, { name: "high", above: 50 }];
  it.each([
    ["<", 5, "low"],
    ["<", 10, "low"],
    ["<", 10.1, undefined],
    ["<", 60, undefined],
    [">", 51, "high"],
    [">", 49, undefined],
    [">", 5, undefined],
  ] as const)("%s %d", (qualifier, value, expected) => expect(bandOfMeasurement({ value, qualifier }, bands)?.band).toBe(expected));
});

describe("refusals", () => {
  const magnesium = ruleIn(triState, "magnesium", "bands");
  it("another extractant", () =>
    expectRefusal(rateByBands(magnesium, measured("Mg", 60, { method: "ammoniumAcetate" }), {}, "Tri-State 2020"), /magnesium was measured by ammonium acetate and Tri-State 2020 is calibrated for Mehlich-3/, "Mg by Mehlich-3"));

  it("a less-than that spans two classes", () =>
    expectRefusal(rateByBands(magnesium, measured("Mg", 60, { qualifier: "<" }), {}, "Tri-State 2020"), /the laboratory says < 60 ppm, which spans more than one class/, "Mg as a number"));

  it("a soil that decides the table and is not known", () =>
    expectRefusal(rateByBands(ruleNamed("wisconsinP", rules, "bands"), measured("P", 20, { method: "bray1" }), { crop: "corn" }, "Tri-State 2020"), /the soil texture is not known/, "texture"));

  it("a crop that no table covers", () =>
    expectRefusal(rateByBands(ruleNamed("nebraskaBray", rules, "bands"), measured("P", 20, { method: "bray1" }), { crop: "grassHay" }, "Tri-State 2020"), /Tri-State 2020 has no classes for this soil or crop/, "a guideline for this soil and crop"));
});

describe("the schema", () => {
  const table = (bands: unknown) => bandTable.safeParse({ bands, source: "common-practice" }).success;
  it("wants rising bands whose first has no edge", () => {
    expect(table([{ name: "a" }, { name: "b", from: 1 }])).toBe(true);
    expect(table([{ name: "a" }, { name: "b", from: 2 }, { name: "c", from: 1 }])).toBe(false);
    expect(table([{ name: "a", from: 1 }, { name: "b", from: 2 }])).toBe(false);
    expect(table([{ name: "a" }, { name: "b", from: 1, above: 1 }])).toBe(false);
  });

  it("wants a grade beside a publication", () => {
    const { tables, ...rule } = ruleIn(triState, "magnesium", "bands");
    expect(bandsRule.safeParse({ ...rule, tables }).success).toBe(true);
    expect(bandsRule.safeParse({ ...rule, tables: tables.map((t) => ({ ...t, evidence: undefined })) }).success).toBe(false);
  });
});

it("a bound of the laboratory's has a class only where every value it allows is in it", () => {
  const bands = [{ name: "low" }, { name: "high", above: 137 }];
  expect(bandOfMeasurement({ value: 137, qualifier: ">" }, bands)?.band).toBe("high");
  expect(bandOfMeasurement({ value: 136, qualifier: ">" }, bands)).toBeUndefined();
  expect(bandOfMeasurement({ value: 137, qualifier: "<" }, bands)?.band).toBe("low");
  expect(bandOfMeasurement({ value: 138, qualifier: "<" }, bands)).toBeUndefined();
  const whole = [{ name: "low" }, { name: "high", from: 10 }];
  // 9.55 rounds to 10, so "< 9.6" may be either; "< 9.5" rounds to 9 at the most.
  expect(bandOfMeasurement({ value: 9.6, qualifier: "<" }, whole, 0)).toBeUndefined();
  expect(bandOfMeasurement({ value: 9.5, qualifier: "<" }, whole, 0)?.band).toBe("low");
});
