import { describe, expect, it } from "vitest";
import { bufferAcidityCheck } from "../../../src/interpretation/checks/bufferAcidityCheck.ts";
import type { BufferAcidityPlace } from "../../../src/interpretation/rules/bufferAcidity.ts";
import { limeByBufferAcidity } from "../../../src/interpretation/rules/bufferAcidity.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { farmFile } from "../../support/limePlace.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const rule = ruleIn(pack("us-northcarolina-circular1-2014"), "lime-mehlich", "bufferAcidity");
const place: BufferAcidityPlace = { found: { bufferPh: 6.2 }, soilPh: 5.0, target: 6.0, soilClass: "mineral", earlier: [], pack: "North Carolina 2014" };
const lime = (change: Partial<BufferAcidityPlace>): number => answered(limeByBufferAcidity(rule, { ...place, ...change })).value;

describe("lime by buffer acidity, as published", () => {
  checkedAsPublished(bufferAcidityCheck);
});

describe("lime by buffer acidity", () => {
  const buffer = between(4.5, 6.8);
  const soil = between(4, 6.55);
  const goal = between(5, 6.6);

  it("asks for no more lime at a higher buffer pH", () =>
    always([buffer, buffer, soil, goal], (a, b, soilPh, target) =>
      expect(lime({ found: { bufferPh: Math.max(a, b) }, soilPh, target })).toBeLessThanOrEqual(lime({ found: { bufferPh: Math.min(a, b) }, soilPh, target }) + 1e-9)));

  it("asks for no more lime at a higher soil pH", () =>
    always([soil, soil, buffer, goal], (a, b, bufferPh, target) =>
      expect(lime({ soilPh: Math.max(a, b), found: { bufferPh }, target })).toBeLessThanOrEqual(lime({ soilPh: Math.min(a, b), found: { bufferPh }, target }) + 1e-9)));

  it("asks for no less lime for a higher target", () =>
    always([goal, goal, buffer, soil], (a, b, bufferPh, soilPh) =>
      expect(lime({ target: Math.max(a, b), found: { bufferPh }, soilPh })).toBeGreaterThanOrEqual(lime({ target: Math.min(a, b), found: { bufferPh }, soilPh }) - 1e-9)));

  it("asks for no less lime the longer ago the last was, and never for less than none", () =>
    always([between(0, 20), between(0, 20), between(0, 5)], (a, b, rate) => {
      const after = (months: number) => lime({ earlier: [{ rate, months, source: farmFile }] });
      expect(after(Math.max(a, b))).toBeGreaterThanOrEqual(after(Math.min(a, b)) - 1e-9);
      expect(after(a)).toBeGreaterThanOrEqual(0);
    }));
});

describe("refusals", () => {
  const refused = (change: Partial<BufferAcidityPlace>) => limeByBufferAcidity(rule, { ...place, ...change });

  it("a soil pH of 6.6, where the formula ends", () =>
    expectRefusal(refused({ soilPh: 6.6, target: 6.6 }), /soil pH 6.6 is not below 6.6, where the formula of North Carolina 2014 ends/, "a lime formula for soil pH 6.6"));

  it("a target above 6.6", () => expectRefusal(refused({ target: 6.8 }), /the target pH 6.8 is above 6.6, where the formula of North Carolina 2014 ends/, "targetPh"));

  it("no soil class, where earlier lime still counts", () =>
    expectRefusal(
      refused({ soilClass: undefined, earlier: [{ rate: 1, months: 5, source: farmFile }] }),
      /the soil class is not known, and North Carolina 2014 lets the credit for earlier lime fade by it/,
      "soilClass",
    ));
});

it("says whether no earlier lime is known of, or none was spread", () => {
  const note = (earlier: BufferAcidityPlace["earlier"]) => answered(limeByBufferAcidity(rule, { ...place, earlier })).steps.find((s) => s.what === "Credit for earlier lime")?.note;
  expect(note([])).toBe("the records name no lime before the sample");
  expect(note(undefined)).toMatch(/^no record of earlier lime is at hand/);
});
