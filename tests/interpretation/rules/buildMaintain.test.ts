import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { buildMaintainCheck } from "../../../src/interpretation/checks/buildMaintainCheck.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import { rateByBuildMaintain } from "../../../src/interpretation/rules/buildMaintain.ts";
import { rateAtLevel } from "../../../src/interpretation/rules/buildMaintainLevels.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured, measuredFor } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn, triState } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";
import type { Facts } from "../../../src/interpretation/rules/facts.ts";
import { buildMaintainRule } from "../../../src/interpretation/rules/buildMaintainRule.ts";

describe("build-up, maintenance and nothing, as published", () => {
  checkedAsPublished(buildMaintainCheck);
});

const phosphate = ruleIn(triState, "phosphate", "buildMaintain");
const potash = ruleIn(triState, "potash", "buildMaintain");
const removal = ruleIn(triState, "removal", "removal");
const corn: Facts = { crop: "corn", cec: 12 };
const goal = { value: 180, unit: "bu/ac" } as const;

const rate = (rule: typeof potash, m: Measurement, facts = corn, yieldGoal: typeof goal | undefined = goal) => rateByBuildMaintain(rule, m, { facts, yieldGoal, removal, pack: "Tri-State 2020" });

describe("rateByBuildMaintain", () => {
  it.each([phosphate, potash])("$id: a higher test never gets a higher rate, and no rate is below zero", (rule) =>
    always([between(0, 300), between(0, 300), between(0.5, 60), fc.constantFrom("corn", "soybean", "wheat", "alfalfa"), between(1, 300)], (a, b, cec, crop, amount) => {
      const yieldGoal = { value: amount, unit: crop === "alfalfa" ? "ton/ac" : "bu/ac" } as const;
      const at = (test: number) =>
        answered(rateByBuildMaintain(rule, measured(rule.analyte, test), { facts: { crop, cec }, yieldGoal, removal, pack: "Tri-State 2020" })).value.rate.value;
      expect(at(Math.max(a, b))).toBeLessThanOrEqual(at(Math.min(a, b)));
      expect(at(Math.max(a, b))).toBeGreaterThanOrEqual(0);
    }));
});

describe("refusals", () => {
  it("another extractant", () =>
    expectRefusal(rate(phosphate, measured("P", 15, { method: "bray1" })), /phosphorus was measured by Bray P1 and Tri-State 2020 is calibrated for Mehlich-3/, "P by Mehlich-3"));

  it("another finish, where the rule names one", () => {
    const byIcp = { ...phosphate, limits: { ...phosphate.limits, finish: "icp" as const } };
    expectRefusal(rate(byIcp, measured("P", 15, { finish: "colorimetric" })), /was measured by Mehlich-3, colorimetric and .* Mehlich-3, ICP/, "P by Mehlich-3, ICP");
    expect(answered(rate(byIcp, measured("P", 15, { finish: "icp" }))).value.rating?.band).toBe("deficient");
  });

  it("soil extracted moist", () =>
    expectRefusal(rate(potash, measured("K", 90, { preparation: "moist" })), /the laboratory extracted moist soil and Tri-State 2020 is calibrated for dried soil/, "K on dried soil"));

  it("another unit", () => expectRefusal(rate(potash, measured("K", 180, { unit: "lb/ac" })), /the result is in lb\/ac and Tri-State 2020 reads ppm/, "K in ppm"));

  it.each([
    [6, "in"],
    [6.9, "in"],
    [9.1, "in"],
    [17, "cm"],
  ] as const)("a sample %d %s deep, more than an inch off", (to, unit) =>
    expectRefusal(rate(potash, measured("K", 90, { depth: { from: 0, to, unit } })), /the sample was taken 0 to .* deep and Tri-State 2020 is calibrated for 0 to 8 in/, "a sample 0 to 8 in deep"));

  it.each([
    [7, "in"],
    [9, "in"],
    [20, "cm"],
    [17.78, "cm"],
    [22.86, "cm"],
  ] as const)("but a sample %d %s deep is within an inch", (to, unit) => expect(answered(rate(potash, measured("K", 90, { depth: { from: 0, to, unit } }))).value.rating?.band).toBe("deficient"));

  it("a sample from below the surface", () =>
    expectRefusal(rate(potash, measured("K", 90, { depth: { from: 2, to: 8, unit: "in" } })), /the sample was taken 2 to 8 in deep/, "a sample 0 to 8 in deep"));

  it("a crop that the guideline lacks", () => expectRefusal(rate(potash, measured("K", 90), { crop: "grassHay", cec: 12 }), /Tri-State 2020 has no rule for grass hay/, "a guideline for grass hay"));

  it("a crop that the guideline lacks, before a depth that a new sample would put right", () =>
    expectRefusal(rate(potash, measured("K", 90, { method: "bray1", depth: { from: 0, to: 6, unit: "in" } }), { crop: "tomato", cec: 12 }), /Tri-State 2020 has no rule for tomatoes/, "a guideline for tomatoes"));

  it("no crop", () => expectRefusal(rate(potash, measured("K", 90), { cec: 12 }), /no crop is planned/, "crop"));

  it("no CEC, which sets the potassium level", () =>
    expectRefusal(rate(potash, measured("K", 90), { crop: "corn" }), /the cation exchange capacity is not known, and Tri-State 2020 sets the potassium level by it/, "cec"));

  it("no CEC, which only the build-up needs", () => {
    const flat = { ...potash, levels: [{ ...potash.levels[1]!, when: undefined }] };
    expectRefusal(rate(flat, measured("K", 90), { crop: "corn" }), /the cation exchange capacity is not known, and build-up depends on it/, "cec");
    expect(answered(rate(flat, measured("K", 130), { crop: "corn" })).value.rate.value).toBeCloseTo(56, 9);
  });

  it("no yield goal, where removal is replaced", () => {
    const noGoal = { facts: corn, yieldGoal: undefined, removal, pack: "Tri-State 2020" };
    expectRefusal(rateByBuildMaintain(potash, measured("K", 90), noGoal), /no yield goal is set, and the rate replaces what the crop removes/, "yieldGoal");
    expect(answered(rateByBuildMaintain(potash, measured("K", 170), noGoal)).value.rate.value).toBe(0);
  });

  it("a yield that cannot be weighed", () =>
    expectRefusal(
      rateByBuildMaintain(potash, measured("K", 90), { facts: corn, yieldGoal: { value: 5, unit: "ton/ac" }, removal, pack: "Tri-State 2020" }),
      /the yield of corn is in ton\/ac and its removal is stated per bu/,
      "a yield in bu/ac",
    ));

  it("no removal table", () =>
    expectRefusal(rateByBuildMaintain(potash, measured("K", 90), { facts: corn, yieldGoal: goal, removal: undefined, pack: "Tri-State 2020" }), /Tri-State 2020 holds no removal table/, "removal"));

  it("a less-than below the critical level has a class and no rate", () => {
    const little = measured("K", 40, { qualifier: "<" });
    expect(answered(rateAtLevel(potash, little, { facts: corn, pack: "Tri-State 2020" })).value.rating.band).toBe("deficient");
    expectRefusal(rate(potash, little), /the laboratory says < 40 ppm, and the rate needs a number/, "K as a number");
  });

  it("a less-than over the critical level has neither", () =>
    expectRefusal(rate(potash, measured("K", 121, { qualifier: "<" })), /the laboratory says < 121 ppm, which may lie on either side of a level/, "K as a number"));

  it("a more-than at the limit is an answer: nothing is applied", () => expect(answered(rate(potash, measured("K", 170, { qualifier: ">" }))).value.rate.value).toBe(0));
});

describe("the form of 1995", () => {
  const tri1995 = pack("us-tristate-e2567-1995");
  const [p1995, k1995, removed] = [ruleIn(tri1995, "phosphate", "buildMaintain"), ruleIn(tri1995, "potash", "buildMaintain"), ruleIn(tri1995, "removal", "removal")];
  const place = (facts: Facts, yieldGoal: { value: number; unit: "bu/ac" } | undefined = { value: 140, unit: "bu/ac" }) => ({ facts, yieldGoal, removal: removed, pack: "Tri-State 1995" });
  const bray = (value: number, over: Partial<Measurement> = {}) => measuredFor(p1995.limits, "P", value, over);
  const acetate = (value: number, over: Partial<Measurement> = {}) => measuredFor(k1995.limits, "K", value, over);

  it("falls without a step from the plateau to nothing", () => {
    const at = (test: number) => answered(rateByBuildMaintain(p1995, bray(test), place(corn))).value.rate.value;
    for (const edge of [15, 30, 40]) expect(at(edge - 1e-9)).toBeCloseTo(at(edge), 6);
    expect([at(30), at(35), at(40), at(41)].map((n) => Math.round(n * 10) / 10)).toEqual([51.8, 25.9, 0, 0]);
  });

  it("shows the level's own sum, and the drawdown's", () => {
    const { steps } = answered(rateByBuildMaintain(k1995, acetate(140), place({ crop: "corn", cec: 10 })));
    expect(steps.map((s) => s.expression)).toEqual(expect.arrayContaining(["75 + 2.5 × 10 meq/100 g", "100 + 30", "130 + 20", "57.8 − 57.8 × (140 − 130) ÷ 20"]));
    expect(steps.filter((s) => s.what.startsWith("Cation exchange capacity"))).toHaveLength(1);
  });

  it("says where a rule for special soils could not be tried, and reads the soil's own CEC", () => {
    const { steps, value } = answered(rateByBuildMaintain(k1995, acetate(100), place({ crop: "corn", cec: 10, soilPh: 6.9 })));
    expect(value.rate.value).toBeCloseTo(57.8, 9);
    expect(steps.map((s) => s.result)).toContain("not used: the organic matter is not known");
  });

  it.each([
    ["limy by its pH, and its calcium saturation is not known", { soilPh: 7.9 }, "calciumSaturation", /the calcium saturation is not known, and Tri-State 1995 sets the potassium level by it/],
    ["muck, and its organic matter is not known", { soilPh: 6, texture: "muck" }, "organicMatter", /the organic matter is not known, and Tri-State 1995 sets the potassium level by it/],
  ] as const)("does not read the soil's own CEC where it may be a special one: %s", (_, facts, missing, because) =>
    expectRefusal(rateByBuildMaintain(k1995, acetate(100), place({ crop: "corn", cec: 30, ...facts })), because, missing));

  it("reads the set CEC where the soil's own is not known", () =>
    expect(answered(rateByBuildMaintain(k1995, acetate(200), place({ crop: "corn", soilPh: 8, calciumSaturation: 90 }))).value.rate.value).toBe(0));

  it.each([
    ["no CEC", acetate(100), { crop: "corn", soilPh: 6.5 }, /the cation exchange capacity is not known, and Tri-State 1995 sets the potassium level by it/, "cec"],
    ["Mehlich-3", acetate(100, { method: "mehlich3" }), { crop: "corn", cec: 10 }, /potassium was measured by Mehlich-3 and Tri-State 1995 is calibrated for ammonium acetate/, "K by ammonium acetate"],
    ["a crop it lacks", acetate(100), { crop: "potatoes", cec: 10 }, /Tri-State 1995 has no rule for potatoes/, "a guideline for potatoes"],
    ["a less-than below the critical level", acetate(90, { qualifier: "<" }), { crop: "corn", cec: 10 }, /the laboratory says < 90 ppm, and the rate needs a number/, "K as a number"],
    ["a more-than within the drawdown", acetate(140, { qualifier: ">" }), { crop: "corn", cec: 10 }, /the laboratory says > 140 ppm, and the rate needs a number/, "K as a number"],
  ] as const)("refuses %s", (_, m, facts, because, missing) => expectRefusal(rateByBuildMaintain(k1995, m, place(facts)), because, missing));

  it("gives nothing for a more-than past the drawdown", () => expect(answered(rateByBuildMaintain(k1995, acetate(150, { qualifier: ">" }), place({ crop: "corn", cec: 10 }))).value.rate.value).toBe(0));

  it("refuses without a yield on the plateau and in the drawdown, and not past it", () => {
    const noGoal = (test: number) => rateByBuildMaintain(p1995, bray(test), { ...place(corn), yieldGoal: undefined });
    for (const test of [20, 35]) expectRefusal(noGoal(test), /no yield goal is set, and the rate replaces what the crop removes/, "yieldGoal");
    expect(answered(noGoal(40)).value.rate.value).toBe(0);
  });

  it("the schema wants one limit, and an equation where there is a drawdown", () => {
    const parses = (over: object, rule: object = {}) => buildMaintainRule.safeParse({ ...p1995, ...rule, levels: [{ ...p1995.levels[0]!, ...over }] }).success;
    const limit = { value: 30, source: "common-practice" };
    expect(parses({})).toBe(true);
    expect(parses({ maintenanceLimit: limit })).toBe(false);
    expect(parses({ maintenanceLimit: limit, plateau: undefined })).toBe(true);
    expect(parses({ plateau: undefined })).toBe(false);
    expect(parses({}, { equations: { ...p1995.equations, drawdown: undefined } })).toBe(false);
  });
});
