import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bandsCheck } from "../../../src/interpretation/checks/bandsCheck.ts";
import { weakestEvidence } from "../../../src/interpretation/outcome.ts";
import type { Band } from "../../../src/interpretation/rules/bands.ts";
import { bandOf, bandOfMeasurement, bandsRule, bandTable, rateByBands } from "../../../src/interpretation/rules/bands.ts";
import { checkedAsPublished, readCases } from "../../support/cases.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { ruleIn, ruleNamed, triState } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const { rules } = readCases("bands.yaml", bandsCheck.shape);

describe("rating by classes, as published", () => {
  checkedAsPublished(bandsCheck);
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
    expectRefusal(rateByBands(ruleNamed("us-wisconsin-a2809/phosphorus", rules, "bands"), measured("P", 20, { method: "bray1" }), { crop: "corn" }, "Tri-State 2020"), /the soil texture is not known/, "texture"));

  it("a soil pH that the index needs and nobody measured", () =>
    expectRefusal(rateByBands(ruleNamed("us-newjersey-rutgers/manganese", rules, "bands"), measured("Mn", 10), { crop: "corn" }, "Rutgers"), /the soil pH in water is not known, and the manganese availability index depends on it/, "soilPh"));

  it("a less-than whose index may be in two classes, but not one that stays in the lowest", () => {
    const manganese = ruleNamed("us-newjersey-rutgers/manganese", rules, "bands");
    expectRefusal(rateByBands(manganese, measured("Mn", 10, { qualifier: "<" }), { soilPh: 6.5 }, "Rutgers"), /the laboratory says < 10 ppm, which spans more than one class/, "Mn as a number");
    expect(answered(rateByBands(manganese, measured("Mn", 5, { qualifier: "<" }), { soilPh: 6.5 }, "Rutgers")).value.band).toBe("deficient");
  });

  it("no crop, where the classes are for field crops", () =>
    expectRefusal(rateByBands(ruleNamed("us-connecticut-agronomic/potassium", rules, "bands"), measured("K", 300, { method: "modifiedMorgan", unit: "lb/ac" }), {}, "Connecticut"), /no crop is planned/, "crop"));

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

it("what a rule takes for granted stands in the sum, and the answer is known no better", () => {
  const { steps } = answered(rateByBands(ruleNamed("us-connecticut-agronomic/potassium", rules, "bands"), measured("K", 300, { method: "modifiedMorgan", unit: "lb/ac" }), { crop: "corn" }, "Connecticut"));
  expect(steps.find((s) => s.what === "Taken for granted")?.result).toBe("the laboratory's extractant is modified Morgan");
  expect(weakestEvidence(steps)).toBe("memory");
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
