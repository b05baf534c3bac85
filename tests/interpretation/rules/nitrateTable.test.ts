import { describe, expect, it } from "vitest";
import { nitrateTableCheck } from "../../../src/interpretation/checks/nitrateTableCheck.ts";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import type { NitrateTableRule } from "../../../src/interpretation/rules/nitrateTable.ts";
import { nitrateTableRule, rateByNitrateTable } from "../../../src/interpretation/rules/nitrateTable.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measuredFor } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

describe("classes of nitrate, as published", () => {
  checkedAsPublished(nitrateTableCheck);
});

const ohio = ruleIn(pack("us-ohio-nitrate-2022"), "psnt", "nitrateTable");
const newJersey = ruleIn(pack("us-newjersey-sweet-corn-nitrate"), "sidedress", "nitrateTable");
const cropOf = (rule: NitrateTableRule): CropId => rule.limits.crops![0]!;

const sampled = { cropHeight: 9, cores: 18, keeping: "chilled", daysSinceRain: 5, earlyNitrogen: 0, sinceSod: 5, fertilizerOnlyYears: 0, texture: "loam" };
const ask = (rule: NitrateTableRule, ppm: number, given: Parameters<typeof historyOf>[0], over: Partial<Measurement> = {}, crop = cropOf(rule)) =>
  rateByNitrateTable(rule, measuredFor(rule.limits, "nitrateN", ppm, over), { facts: { crop }, history: historyOf({ ...sampled, ...given }), yieldGoal: undefined, pack: "the table" });
const rate = (...args: Parameters<typeof ask>) => answered(ask(...args)).value.rate.value;

describe("for any result", () => {
  it("more nitrate never gets more nitrogen, and no rate is negative", () =>
    always([between(0, 60), between(0, 60), between(0, 300)], (a, b, plannedNitrogen) => {
      for (const [rule, given] of [[ohio, { plannedNitrogen }], [newJersey, { manuredSinceHarvest: "yes" }], [newJersey, { manuredSinceHarvest: "no" }]] as const) {
        const [less, more] = [rate(rule, Math.min(a, b), given), rate(rule, Math.max(a, b), given)];
        expect(more).toBeLessThanOrEqual(less);
        expect(more).toBeGreaterThanOrEqual(0);
      }
    }));
  it("manure never raises the rate", () => always([between(0, 60)], (ppm) => expect(rate(newJersey, ppm, { manuredSinceHarvest: "yes" })).toBeLessThanOrEqual(rate(newJersey, ppm, { manuredSinceHarvest: "no" }))));
});

it("light soil is told to split a large rate, and has a caution beside it", () => {
  const given = { manuredSinceHarvest: "no", texture: "loamySand" };
  const large = answered(ask(newJersey, 18, given));
  expect(large.steps.at(-1)!.what).toMatch(/give half when corn is 12 inches tall/);
  expect(large.cautions).toEqual(["Others would doubt this test: a review of the test in annual crops asks that the soil texture is not sand or loamy sand (here loamy sand)."]);
  expect(answered(ask(newJersey, 22, given)).steps.at(-1)!.what).not.toMatch(/give half/);
  expect(answered(ask(newJersey, 18, { ...given, texture: "loam" })).cautions).toEqual([]);
});

describe("refusals", () => {
  it("another depth", () => expectRefusal(ask(ohio, 12, { plannedNitrogen: 150 }, { depth: { from: 0, to: 8, unit: "in" } }), /the sample was taken 0 to 8 in deep/, "a sample 0 to 12 in deep"));
  it("another crop", () => expectRefusal(ask(newJersey, 12, {}, {}, "corn"), /the table has no rule for corn/, "a guideline for corn"));
  it("a more-than", () => expectRefusal(ask(ohio, 12, { plannedNitrogen: 150 }, { qualifier: ">" }), /the laboratory says > 12 ppm/, "nitrateN as a number"));
  it("manure that is not recorded", () => expectRefusal(ask(newJersey, 12, {}), /manure since the last harvest is not recorded, and the rate of the table depends on it/, "manuredSinceHarvest"));
  it("no planned rate", () => expectRefusal(ask(ohio, 12, {}), /the nitrogen rate planned before the test is not recorded, and the table adjusts it/, "plannedNitrogen"));
  it("but the highest class needs none", () => expect(rate(ohio, 26, {})).toBe(0));
});

it("the schema refuses classes that do not rise from 0, and one with both a rate and an adjustment", () => {
  const valid = (classes: object[]) => nitrateTableRule.safeParse({ ...ohio, tables: [{ ...ohio.tables[0]!, classes }] }).success;
  expect(valid([{ from: 0, rate: 100 }, { from: 20, rate: 0 }])).toBe(true);
  expect(valid([{ from: 5, rate: 100 }, { from: 20, rate: 0 }])).toBe(false);
  expect(valid([{ from: 0, rate: 100 }, { from: 0, rate: 0 }])).toBe(false);
  expect(valid([{ from: 0, rate: 100, adjustment: 0 }, { from: 20, rate: 0 }])).toBe(false);
});
