import { describe, expect, it } from "vitest";
import { phAluminumCheck } from "../../../src/interpretation/checks/phAluminumCheck.ts";
import { limeByPhAluminum, phAluminumRule } from "../../../src/interpretation/rules/phAluminum.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const rule = ruleIn(pack("us-vermont-lime"), "lime-aluminum", "phAluminum");
const lime = (soilPh: number, aluminum: number): number => answered(limeByPhAluminum(rule, soilPh, aluminum, 6.5, "Vermont")).value;

describe("lime by soil pH and aluminum, as published", () => {
  checkedAsPublished(phAluminumCheck);
});

describe("lime by soil pH and aluminum", () => {
  it("asks for no more lime at a higher soil pH", () =>
    always([between(4, 8), between(4, 8), between(0, 400)], (a, b, aluminum) => expect(lime(Math.max(a, b), aluminum)).toBeLessThanOrEqual(lime(Math.min(a, b), aluminum))));

  it("asks for no less lime for more aluminum", () =>
    always([between(0, 400), between(0, 400), between(4, 8)], (a, b, soilPh) => expect(lime(soilPh, Math.max(a, b))).toBeGreaterThanOrEqual(lime(soilPh, Math.min(a, b)))));

  it("aluminum missing, where the row asks for it", () => expectRefusal(limeByPhAluminum(rule, 6.0, undefined, 6.5, "Vermont"), /aluminum was not tested, and Vermont sets the lime rate by it/, "Al"));

  it("another target than the table's own", () =>
    expectRefusal(limeByPhAluminum(rule, 6.0, 50, 6.8, "Vermont"), /the table of Vermont is for target pH 6.5 alone, and the target is 6.8/, "targetPh"));
});

it("the schema refuses rows and classes out of order", () => {
  const valid = (rows: unknown) => phAluminumRule.safeParse({ ...rule, rows }).success;
  const open = [{ upTo: null, rate: 1 }];
  expect(valid([{ from: 6, rates: open }, { from: null, rates: open }])).toBe(true);
  expect(valid([{ from: null, rates: open }, { from: 6, rates: open }])).toBe(false);
  expect(valid([{ from: 6, rates: [{ upTo: 40, rate: 1 }] }, { from: null, rates: open }])).toBe(false);
});
