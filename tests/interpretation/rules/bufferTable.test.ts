import { describe, expect, it } from "vitest";
import { bufferTableCheck } from "../../../src/interpretation/checks/bufferTableCheck.ts";
import { bufferTableRule, limeByBufferTable } from "../../../src/interpretation/rules/bufferTable.ts";
import { checkedAsPublished, readCases } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { iowa, oregon, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const { cases } = readCases("bufferTable.yaml", bufferTableCheck.shape);

describe("lime by buffer pH, as published", () => {
  checkedAsPublished(bufferTableCheck);

  it("the copied tables have every cell of the guidelines' tables", () => {
    const cells = cases.flatMap((c) => ("rates" in c.expect && c.tolerance === undefined ? Object.values(c.expect.rates).flat() : []));
    expect(cells).toHaveLength(110 + 14);
  });
});

const oregonTable = ruleIn(oregon, "lime-sikora", "bufferTable");
const iowaTable = ruleIn(iowa, "lime-smp", "bufferTable");

describe.each([oregonTable, iowaTable])("$id", (rule) => {
  const top = rule.rows[0]![0]!;
  const bottom = rule.rows.at(-1)![0]!;
  const buffer = between(bottom, top);
  const target = between(rule.targets[0]!, rule.targets.at(-1)!);
  const lime = (bufferPh: number, to: number): number => answered(limeByBufferTable(rule, bufferPh, to, "the publication")).value;

  it("asks for no more lime at a higher buffer pH", () =>
    always([buffer, buffer, target], (a, b, to) => expect(lime(Math.max(a, b), to)).toBeLessThanOrEqual(lime(Math.min(a, b), to) + 1e-9)));

  it("asks for no less lime for a higher target", () =>
    always([buffer, target, target], (at, a, b) => expect(lime(at, Math.max(a, b))).toBeGreaterThanOrEqual(lime(at, Math.min(a, b)) - 1e-9)));

  it("asks for no lime below nothing", () => always([buffer, target], (at, to) => expect(lime(at, to)).toBeGreaterThanOrEqual(0)));

  it("meets the printed rates from both sides of a row", () => {
    for (const [at] of rule.rows.slice(1, -1)) {
      expect(lime(at! + 1e-7, rule.targets[0]!)).toBeCloseTo(lime(at!, rule.targets[0]!), 1);
      expect(lime(at! - 1e-7, rule.targets[0]!)).toBeCloseTo(lime(at!, rule.targets[0]!), 1);
    }
  });
});

describe("refusals", () => {
  it("a buffer pH above the first row", () =>
    expectRefusal(limeByBufferTable(oregonTable, 7.0, 6.4, "Oregon 2025"), /the buffer pH 7.0 is outside the table of Oregon 2025, which runs from 4.8 to 6.9/, "a table for buffer pH 7.0"));

  it("a buffer pH below the last row", () =>
    expectRefusal(limeByBufferTable(iowaTable, 5.7, 6.5, "Iowa 2002"), /the buffer pH 5.7 is outside the table of Iowa 2002, which runs from 5.8 to 7.0/, "a table for buffer pH 5.7"));

  it("a target below the lowest column, which would over-lime", () =>
    expectRefusal(limeByBufferTable(iowaTable, 6.4, 6.4, "Iowa 2002"), /the target pH 6.4 is below the lowest that Iowa 2002 prints, 6.5/, "targetPh"));

  it("a target above the highest column", () =>
    expectRefusal(limeByBufferTable(iowaTable, 6.4, 7.0, "Iowa 2002"), /the target pH 7.0 is above the highest that Iowa 2002 prints, 6.9/, "targetPh"));
});

it("a doubtful cell carries its doubt into the answer, and only that cell", () => {
  const doubt = /360 lb off the line/;
  expect(answered(limeByBufferTable(iowaTable, 5.8, 6.9, "Iowa 2002")).steps.at(-1)?.note).toMatch(doubt);
  expect(answered(limeByBufferTable(iowaTable, 5.9, 6.9, "Iowa 2002")).steps.at(-1)?.note).toMatch(doubt);
  expect(answered(limeByBufferTable(iowaTable, 5.8, 6.5, "Iowa 2002")).steps.at(-1)?.note).toBeUndefined();
  expect(answered(limeByBufferTable(iowaTable, 6.0, 6.9, "Iowa 2002")).steps.at(-1)?.note).toBeUndefined();
});

it("the schema refuses a table whose rows or targets are out of order, or with a cell missing", () => {
  const valid = (change: object) => bufferTableRule.safeParse({ ...iowaTable, ...change }).success;
  expect(valid({})).toBe(true);
  expect(valid({ rows: [[6.8, 600, 2700], [7.0, 0, 1100]] })).toBe(false);
  expect(valid({ rows: [[7.0, 0], [6.8, 600, 2700]] })).toBe(false);
  expect(valid({ targets: [6.9, 6.5] })).toBe(false);
});
