import { describe, expect, it } from "vitest";
import { acidityMultipleCheck } from "../../../src/interpretation/checks/acidityMultipleCheck.ts";
import { acidityMultipleRule, limeByAcidity } from "../../../src/interpretation/rules/acidityMultiple.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const rule = ruleIn(pack("us-pennsylvania-agronomy-guide"), "lime-acidity", "acidityMultiple");
const lime = (acidity: number, soilPh: number, target: number): number => answered(limeByAcidity(rule, acidity, soilPh, target, "Penn State")).value;

describe("lime by exchangeable acidity, as published", () => {
  checkedAsPublished(acidityMultipleCheck);
});

describe("lime by exchangeable acidity", () => {
  const acidity = between(0, 25).filter((a) => a !== 4);
  const soil = between(4, 7.5);

  it("asks for no less lime for more acidity, on either side of the gap", () =>
    always([acidity, acidity, soil], (a, b, soilPh) => {
      expect(lime(Math.max(a, b), soilPh, 7)).toBeGreaterThanOrEqual(lime(Math.min(a, b), soilPh, 7));
      expect(lime(Math.max(a, b), soilPh, 6.5)).toBeGreaterThanOrEqual(lime(Math.min(a, b), soilPh, 6.5));
    }));

  it("asks for no more lime at a higher soil pH", () =>
    always([soil, soil, acidity], (a, b, each) => expect(lime(each, Math.max(a, b), 6.5)).toBeLessThanOrEqual(lime(each, Math.min(a, b), 6.5))));

  it("asks for more for the higher target above an acidity of 4.0", () => always([between(4.01, 25)], (each) => expect(lime(each, 5, 7)).toBeGreaterThan(lime(each, 5, 6.5))));
});

describe("refusals", () => {
  it("an acidity of exactly 4.0, of which the publication says nothing", () =>
    expectRefusal(limeByAcidity(rule, 4, 6, 6.5, "Penn State"), /Penn State has no rule for an exchangeable acidity of exactly 4 meq\/100 g at target pH 6.5/, "a rule for an acidity of 4 meq/100 g"));

  it("a target below the lowest, which would over-lime", () => expectRefusal(limeByAcidity(rule, 5, 5, 6, "Penn State"), /the target pH 6.0 is below the lowest that Penn State prints, 6.5/, "targetPh"));

  it("a target above the highest", () => expectRefusal(limeByAcidity(rule, 5, 5, 7.2, "Penn State"), /the target pH 7.2 is above the highest that Penn State prints, 7.0/, "targetPh"));
});

it("the schema refuses a row with both a factor and a flat rate, or neither", () => {
  const valid = (change: object) => acidityMultipleRule.safeParse({ ...rule, targets: [{ target: 6.5, rows: [{ ...rule.targets[1]!.rows[0], ...change }] }] }).success;
  expect(valid({})).toBe(true);
  expect(valid({ flat: 2000 })).toBe(false);
  expect(valid({ multiply: undefined })).toBe(false);
});
