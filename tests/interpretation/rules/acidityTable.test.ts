import { describe, expect, it } from "vitest";
import { acidityTableCheck } from "../../../src/interpretation/checks/acidityTableCheck.ts";
import { acidityTableRule, limeByAcidityTable } from "../../../src/interpretation/rules/acidityTable.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const rule = ruleIn(pack("us-pennsylvania-turf-lime"), "lime-turf", "acidityTable");
const lime = (acidity: number, target: number): number => answered(limeByAcidityTable(rule, acidity, 5, target, "Penn State turf")).value;

describe("lime by a table of exchangeable acidity, as published", () => {
  checkedAsPublished(acidityTableCheck);
});

describe("lime by a table of exchangeable acidity", () => {
  it("asks for no less lime for more acidity", () =>
    always([between(2, 25.7), between(2, 25.7), between(6, 7)], (a, b, target) => expect(lime(Math.max(a, b), target)).toBeGreaterThanOrEqual(lime(Math.min(a, b), target) - 1e-9)));

  it("asks for no less lime for a higher target", () =>
    always([between(2, 25.7), between(6, 7), between(6, 7)], (acidity, a, b) => expect(lime(acidity, Math.max(a, b))).toBeGreaterThanOrEqual(lime(acidity, Math.min(a, b)) - 1e-9)));

  it("an acidity outside the printed rows", () =>
    expectRefusal(limeByAcidityTable(rule, 1.9, 5, 6.5, "Penn State turf"), /the exchangeable acidity 1.9 is outside the table of Penn State turf, which runs from 2 to 25.7/, "a table for an acidity of 1.9 meq/100 g"));
});

it("the schema refuses rows out of order or with a cell missing", () => {
  const valid = (change: object) => acidityTableRule.safeParse({ ...rule, ...change }).success;
  expect(valid({})).toBe(true);
  expect(valid({ rows: [[2.6, 50, 50, 70], [2.0, 50, 50, 50]] })).toBe(false);
  expect(valid({ rows: [[2.0, 50, 50], [2.6, 50, 50, 70]] })).toBe(false);
  expect(valid({ targets: [7, 6.5, 6] })).toBe(false);
});
