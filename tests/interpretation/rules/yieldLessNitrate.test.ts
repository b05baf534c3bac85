import { describe, expect, it } from "vitest";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import { yieldLessNitrateCheck } from "../../../src/interpretation/checks/yieldLessNitrateCheck.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import type { YieldLessNitrateRule } from "../../../src/interpretation/rules/yieldLessNitrate.ts";
import { rateByYieldLessNitrate } from "../../../src/interpretation/rules/yieldLessNitrate.ts";
import type { Amount, YieldUnit } from "../../../src/interpretation/units.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measuredFor } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

describe("yield less nitrate, as published", () => {
  checkedAsPublished(yieldLessNitrateCheck);
});

const revised = ruleIn(pack("us-pennsylvania-nitrate"), "rule-2023", "yieldLessNitrate");
const original = ruleIn(pack("us-pennsylvania-nitrate"), "original", "yieldLessNitrate");
const sampled = { cropHeight: 12, cores: 18, keeping: "chilled" };
const usual = { ...sampled, manureYears: 3, manuredSinceHarvest: "no", manuredBefore: "no", previousCrop: "corn" };
const bushels = (value: number): Amount<YieldUnit> => ({ value, unit: "bu/ac" });

const ask = (rule: YieldLessNitrateRule, ppm: number, goal: Amount<YieldUnit> | undefined, given: Parameters<typeof historyOf>[0] = usual, over: Partial<Measurement> = {}, crop: CropId = "corn") =>
  rateByYieldLessNitrate(rule, measuredFor(rule.limits, "nitrateN", ppm, over), { facts: { crop }, history: historyOf(given), yieldGoal: goal, pack: "the guide" });
const rate = (...args: Parameters<typeof ask>) => answered(ask(...args)).value.rate.value;

describe("for any result", () => {
  it.each([revised, original])("$id: more nitrate never gets more nitrogen, more yield never less, and no rate is negative", (rule) =>
    always([between(0, 60), between(0, 60), between(50, 300)], (a, b, goal) => {
      const [less, more] = [rate(rule, Math.min(a, b), bushels(goal)), rate(rule, Math.max(a, b), bushels(goal))];
      expect(more).toBeLessThanOrEqual(less + 1e-9);
      expect(more).toBeGreaterThanOrEqual(0);
      expect(rate(rule, a, bushels(goal + 10))).toBeGreaterThanOrEqual(rate(rule, a, bushels(goal)));
    }));
  it("more manure never raises the rate", () =>
    always([between(0, 30), between(50, 300)], (ppm, goal) => {
      const at = (since: string, before: string) => rate(original, ppm, bushels(goal), { ...usual, manuredSinceHarvest: since, manuredBefore: before });
      expect(at("yes", "yes")).toBeLessThanOrEqual(Math.min(at("yes", "no"), at("no", "yes")));
      expect(Math.max(at("yes", "no"), at("no", "yes"))).toBeLessThanOrEqual(at("no", "no"));
    }));
});

describe("refusals", () => {
  it("the rule of 2023 outside a history of manure", () => {
    expectRefusal(ask(revised, 12, bushels(180), { ...usual, manureYears: 1 }), /the number of manured years among the five before is 1, and the guide asks for at least 2/, "a nitrate test where the number of manured years among the five before is at least 2");
    expectRefusal(ask(revised, 12, bushels(180), { ...usual, manureYears: undefined }), /is not recorded/, "manureYears");
  });
  it("corn too short", () => expectRefusal(ask(revised, 12, bushels(180), { ...usual, cropHeight: 5 }), /the height of the crop is 5 in/, "a nitrate test where the height of the crop is 6 to 12 in"));
  it("corn of less than 12 in for the original rule, which would have it late rather than early", () => {
    expectRefusal(ask(original, 12, bushels(180), { ...usual, cropHeight: 11 }), /the height of the crop is 11 in/, "a nitrate test where the height of the crop is at least 12 in");
    expect(answered(ask(original, 12, bushels(180), { ...usual, cropHeight: 15 })).value.rate.value).toBeCloseTo(189, 9);
  });
  it("another depth", () => expectRefusal(ask(original, 12, bushels(180), usual, { depth: { from: 0, to: 6, unit: "in" } }), /the sample was taken 0 to 6 in deep/, "a sample 0 to 12 in deep"));
  it("another crop", () => expectRefusal(ask(original, 12, bushels(180), usual, {}, "soybean"), /the guide has no rule for soybean/, "a guideline for soybean"));
  it("no yield goal", () => expectRefusal(ask(original, 12, undefined), /no yield goal is set, and the rate depends on the yield/, "yieldGoal"));
  it("a yield by weight", () => expectRefusal(ask(original, 12, { value: 10, unit: "t/ha" }), /the yield is in t\/ha and the guide reads bu\/ac/, "a yield in bu/ac"));
  it("a less-than", () => expectRefusal(ask(original, 12, bushels(180), usual, { qualifier: "<" }), /the laboratory says < 12 ppm/, "nitrateN as a number"));
  it.each(["manuredSinceHarvest", "manuredBefore", "previousCrop"] as const)("a history that lacks %s", (fact) => expectRefusal(ask(original, 12, bushels(180), { ...usual, [fact]: undefined }), /is not recorded, and the rate of the guide depends on it/, fact));
  it("but at the cut-off neither yield nor history is asked for", () => expect(rate(original, 21, undefined, sampled)).toBe(0));
});

it("the two rules are far apart, and an answer is of one of them", () => {
  expect(rate(revised, 12, bushels(200))).toBeCloseTo(83.2, 9);
  expect(rate(original, 12, bushels(200), { ...usual, manuredBefore: "yes" })).toBeCloseTo(190, 9);
});
