import { describe, expect, it } from "vitest";
import { linearYieldCheck } from "../../../src/interpretation/checks/linearYieldCheck.ts";
import { linearYieldRule, rateByLinearYield } from "../../../src/interpretation/rules/linearYield.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured, measuredFor } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";

describe("a rate by test and yield, as published", () => {
  checkedAsPublished(linearYieldCheck);
});

const minnesota = ruleIn(pack("us-minnesota-agronomic"), "phosphate-bray", "linearYield");
const kansas = ruleIn(pack("us-kansas-mf2586-2003"), "phosphate-bray", "linearYield");
const place = { facts: { crop: "corn" as const }, yieldGoal: { value: 200, unit: "bu/ac" as const }, removal: undefined, pack: "Minnesota 2006" };
const inKansas = { ...place, pack: "Kansas 2003" };

describe("rateByLinearYield", () => {
  it("shows the equation with its numbers", () => {
    const { steps } = answered(rateByLinearYield(minnesota, measuredFor(minnesota.limits, "P", 17), place));
    expect(steps.at(-1)).toMatchObject({ expression: "(0.7 − 0.035 × 17) × 200", result: "21 lb P₂O₅/ac", evidence: "secondary" });
    const sum = answered(rateByLinearYield(kansas, measuredFor(kansas.limits, "P", 10), { ...inKansas, yieldGoal: { value: 150, unit: "bu/ac" } })).steps.at(-1);
    expect(sum).toMatchObject({ expression: "50 + 0.2 × 150 − 2.5 × 10 − 0.01 × 150 × 10", result: "40 lb P₂O₅/ac" });
  });

  it("says what the equation gave where it is below zero", () =>
    expect(answered(rateByLinearYield(minnesota, measuredFor(minnesota.limits, "P", 25), place)).steps.at(-1)?.result).toBe("−35, so 0 lb P₂O₅/ac"));

  it("makes no rate of the computer's dust at the level where it is zero", () => {
    for (let goal = 1; goal <= 300; goal += 1)
      expect(answered(rateByLinearYield(kansas, measuredFor(kansas.limits, "P", 20), { ...inKansas, yieldGoal: { value: goal, unit: "bu/ac" } })).value.rate.value).toBe(0);
  });
});

describe("refusals", () => {
  it("another extractant", () =>
    expectRefusal(rateByLinearYield(minnesota, measured("P", 12, { depth: { from: 0, to: 6, unit: "in" } }), place), /phosphorus was measured by Mehlich-3 and Minnesota 2006 is calibrated for Bray P1/, "P by Bray P1"));

  it("another depth", () =>
    expectRefusal(rateByLinearYield(minnesota, measuredFor(minnesota.limits, "P", 12, { depth: { from: 0, to: 8, unit: "in" } }), place), /the sample was taken 0 to 8 in deep/, "a sample 0 to 6 in deep"));

  it("a crop that the guideline lacks", () =>
    expectRefusal(rateByLinearYield(minnesota, measuredFor(minnesota.limits, "P", 12), { ...place, facts: { crop: "potatoes" } }), /Minnesota 2006 has no rule for potatoes/, "a guideline for potatoes"));

  it("a crop that has no equation", () =>
    expectRefusal(rateByLinearYield({ ...minnesota, rows: minnesota.rows.slice(1) }, measuredFor(minnesota.limits, "P", 12), place), /Minnesota 2006 has no equation for corn/, "a guideline for this crop and soil"));

  it("no crop", () => expectRefusal(rateByLinearYield(minnesota, measuredFor(minnesota.limits, "P", 12), { ...place, facts: {} }), /no crop is planned/, "crop"));

  it("no yield goal, but not where the equation has no yield in it", () => {
    expectRefusal(rateByLinearYield(minnesota, measuredFor(minnesota.limits, "P", 12), { ...place, yieldGoal: undefined }), /no yield goal is set, and the rate depends on it/, "yieldGoal");
    expect(answered(rateByLinearYield(kansas, measuredFor(kansas.limits, "P", 10), { ...inKansas, facts: { crop: "soybean" }, yieldGoal: undefined })).value.rate.value).toBe(28);
    const enough = (qualifier?: "<" | ">") => rateByLinearYield(minnesota, { ...measuredFor(minnesota.limits, "P", 25), qualifier }, { ...place, yieldGoal: undefined });
    expect(answered(enough()).steps.at(-1)).toMatchObject({ what: "Rate for each bu of yield, for corn", expression: "0.7 − 0.035 × 25", result: "−0.175, so 0 lb, whatever the yield" });
    expect(answered(enough(">")).value.rate.value).toBe(0);
    expectRefusal(enough("<"), /no yield goal is set, and the rate depends on it/, "yieldGoal");
  });

  it("a yield that cannot be weighed", () =>
    expectRefusal(rateByLinearYield(minnesota, measuredFor(minnesota.limits, "P", 12), { ...place, yieldGoal: { value: 5, unit: "ton/ac" } }), /the yield of corn is in ton\/ac/, "a yield in bu/ac"));

  it("a less-than, whatever the number", () => {
    for (const value of [3, 19, 30])
      expectRefusal(rateByLinearYield(minnesota, measuredFor(minnesota.limits, "P", value, { qualifier: "<" }), place), /the laboratory says < \d+ ppm, and the rate needs a number/, "P as a number");
  });

  it("a more-than, except where nothing is due from there on", () => {
    expectRefusal(rateByLinearYield(kansas, measuredFor(kansas.limits, "P", 19, { qualifier: ">" }), inKansas), /the laboratory says > 19 ppm, and the rate needs a number/, "P as a number");
    expect(answered(rateByLinearYield(kansas, measuredFor(kansas.limits, "P", 20, { qualifier: ">" }), inKansas)).value.rate.value).toBe(0);
    expect(answered(rateByLinearYield(minnesota, measuredFor(minnesota.limits, "P", 50, { qualifier: ">" }), place)).value.rate.value).toBe(0);
  });
});

it("the schema refuses a coefficient that would raise the rate with the test", () => {
  const parses = (equation: object) => linearYieldRule.safeParse({ ...minnesota, rows: [{ equation, source: "common-practice" }] }).success;
  expect(parses({ shape: "perYield", from: 0.7, perTest: 0.035 })).toBe(true);
  expect(parses({ shape: "perYield", from: 0.7, perTest: -0.035 })).toBe(false);
  expect(parses({ shape: "terms", base: 50, perTest: 2.5, perTestAndYield: -0.01 })).toBe(false);
});
