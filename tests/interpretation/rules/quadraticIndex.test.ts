import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { measuredFor } from "../../../src/interpretation/checks/measured.ts";
import { quadraticIndexCheck } from "../../../src/interpretation/checks/quadraticIndexCheck.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import { quadraticIndexRule, rateByQuadraticIndex, rateOnCurve } from "../../../src/interpretation/rules/quadraticIndex.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";
import type { Facts } from "../../../src/interpretation/rules/facts.ts";

const carolina = pack("us-northcarolina-circular1-2014");
const rule = ruleIn(carolina, "phosphate", "quadraticIndex");
const plot: Facts = { crop: "deerTurkeyFoodPlot", soilClass: "mineral" };
const rate = (index: number, facts: Facts = plot, over: Partial<Measurement> = {}) =>
  rateByQuadraticIndex(rule, measuredFor(rule.limits, rule.analyte, index, over), { facts, yieldGoal: undefined, removal: undefined, pack: "North Carolina 2014" });

describe("a rate by an equation in the index, as published", () => {
  checkedAsPublished(quadraticIndexCheck);
});

describe("a rate by an equation in the index", () => {
  it("never rises with the index and is never below zero, by any equation", () =>
    always([fc.constantFrom(...rule.equations), between(0, 400), between(0, 400)], (equation, a, b) => {
      const high = rateOnCurve(equation, Math.max(a, b)).rate;
      expect(high).toBeLessThanOrEqual(rateOnCurve(equation, Math.min(a, b)).rate + 1e-9);
      expect(high).toBeGreaterThanOrEqual(0);
    }));

  it("says how far either side the rate may lie, and where a curve was held", () => {
    const last = (index: number) => answered(rate(index)).steps.at(-1)!;
    const note = (index: number) => last(index).note;
    expect(note(25)).toMatch(/either side/);
    expect(last(90).result).toBe("−3.54, so 0 lb P₂O₅/ac");
    expect(last(300).result).toBe("−12.98, so 0 lb P₂O₅/ac");
    expect(note(150)).toMatch(/past 118.5 the curve would rise again/);
  });

  it("an index above 100 is above every rate, though the laboratory gives only a bound", () => expect(answered(rate(100, plot, { qualifier: ">" })).value.rate.value).toBe(0));

  it("carries that the extractant is only recalled", () => expect(answered(rate(25)).steps.map((s) => s.evidence)).toContain("memory"));
});

describe("refusals", () => {
  it("soil class missing", () => expectRefusal(rate(25, { crop: "deerTurkeyFoodPlot" }), /the soil class is not known, and North Carolina 2014 chooses the equation by it/, "soilClass"));

  it("a crop that the pages read do not hold", () => expectRefusal(rate(25, { crop: "corn", soilClass: "mineral" }), /North Carolina 2014 has no rule for corn/, "a guideline for corn"));

  it("a result in another unit is not an index", () => expectRefusal(rate(25, plot, { unit: "ppm" }), /the result is in ppm and North Carolina 2014 reads index/, "P in index"));

  it("only a bound, where the rate is not zero", () => expectRefusal(rate(25, plot, { qualifier: "<" }), /the laboratory says index < 25, and the rate needs a number/, "P as a number"));
});

it("the schema refuses a row that names an equation which is not there, and a number that stands twice", () => {
  expect(quadraticIndexRule.safeParse(rule).success).toBe(true);
  expect(quadraticIndexRule.safeParse({ ...rule, rows: [{ ...rule.rows[0], equation: 22 }] }).success).toBe(false);
  expect(quadraticIndexRule.safeParse({ ...rule, equations: [rule.equations[0], rule.equations[0]] }).success).toBe(false);
});
