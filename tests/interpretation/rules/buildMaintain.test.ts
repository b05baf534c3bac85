import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import type { Facts } from "../../../src/interpretation/rules/conditions.ts";
import { rateByBuildMaintain, rateByLevels } from "../../../src/interpretation/rules/buildMaintain.ts";
import { yieldUnits } from "../../../src/interpretation/units.ts";
import { cropIds } from "../../../src/interpretation/vocabulary.ts";
import { published, readCases, toleranceOf } from "../../support/cases.ts";
import { measured, measuredFor } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { ruleIn, ruleNamed, triState } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const { rules, cases } = readCases(
  "buildMaintain.yaml",
  published.extend({
    rule: z.string(),
    removal: z.string().optional(),
    input: z.strictObject({
      value: z.number(),
      crop: z.enum(cropIds),
      cec: z.number().optional(),
      yieldGoal: z.strictObject({ value: z.number(), unit: z.enum(yieldUnits) }).optional(),
    }),
    expect: z.strictObject({ rate: z.number().optional(), class: z.string().optional() }),
  }),
);

describe("build-up, maintenance and nothing, as published", () => {
  it.each(cases)("$case", (c) => {
    const rule = ruleNamed(c.rule, rules, "buildMaintain");
    const { value, crop, cec, yieldGoal } = c.input;
    const removal = ruleNamed(c.removal ?? "us-tristate-974-2020/removal", rules, "removal");
    const place = { facts: { crop, cec }, yieldGoal, removal, pack: "the publication" };
    const m = measuredFor(rule.limits, rule.analyte, value);
    if (c.expect.class !== undefined) expect(answered(rateByLevels(rule, m, place)).value.band).toBe(c.expect.class);
    if (c.expect.rate !== undefined) {
      const { rate } = answered(rateByBuildMaintain(rule, m, place)).value;
      expect(rate.unit).toBe("lb/ac");
      expect(Math.abs(rate.value - c.expect.rate)).toBeLessThanOrEqual(toleranceOf(c));
    }
  });
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
    expect(answered(rateByLevels(potash, little, { facts: corn, yieldGoal: goal, removal, pack: "Tri-State 2020" })).value.band).toBe("deficient");
    expectRefusal(rate(potash, little), /the laboratory says < 40 ppm, and the rate needs a number/, "K as a number");
  });

  it("a less-than over the critical level has neither", () =>
    expectRefusal(rate(potash, measured("K", 121, { qualifier: "<" })), /the laboratory says < 121 ppm, which may lie on either side of a level/, "K as a number"));

  it("a more-than at the limit is an answer: nothing is applied", () => expect(answered(rate(potash, measured("K", 170, { qualifier: ">" }))).value.rate.value).toBe(0));
});
