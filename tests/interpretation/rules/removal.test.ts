import { describe, expect, it } from "vitest";
import * as z from "zod";
import { cropRemoval } from "../../../src/interpretation/rules/removal.ts";
import { yieldUnits } from "../../../src/interpretation/units.ts";
import { cropIds, nutrientIds } from "../../../src/interpretation/vocabulary.ts";
import { published, readCases, toleranceOf } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { ruleIn, ruleNamed, triState } from "../../support/packs.ts";

const harvest = z.strictObject({ crop: z.enum(cropIds), value: z.number(), unit: z.enum(yieldUnits) });
const { rules, cases } = readCases(
  "removal.yaml",
  published.extend({
    rule: z.string(),
    input: z.strictObject({ nutrient: z.enum(nutrientIds), harvests: z.array(harvest).min(1) }),
    expect: z.strictObject({ removed: z.number() }),
  }),
);

describe("crop removal, as published", () => {
  it.each(cases)("$case", (c) => {
    const rule = ruleNamed(c.rule, rules, "removal");
    const removed = c.input.harvests.map(({ crop, ...yieldGoal }) => answered(cropRemoval(rule, crop, c.input.nutrient, yieldGoal, "the publication")).value);
    expect(Math.abs(removed.reduce((sum, each) => sum + each, 0) - c.expect.removed)).toBeLessThanOrEqual(toleranceOf(c));
  });
});

describe("refusals", () => {
  const removal = ruleIn(triState, "removal", "removal");
  it("a crop that the table lacks", () =>
    expectRefusal(cropRemoval(removal, "grassHay", "K2O", { value: 3, unit: "ton/ac" }, "Tri-State 2020"), /Tri-State 2020 gives no K₂O removal for grass hay/, "K₂O removal of grass hay"));

  it("a nutrient that the table lacks", () =>
    expectRefusal(cropRemoval(removal, "corn", "N", { value: 180, unit: "bu/ac" }, "Tri-State 2020"), /Tri-State 2020 gives no N removal for corn/, "N removal of corn"));

  it("bushels of a crop that is weighed", () =>
    expectRefusal(cropRemoval(removal, "alfalfa", "K2O", { value: 180, unit: "bu/ac" }, "Tri-State 2020"), /the yield of alfalfa is in bu\/ac and its removal is stated per ton/, "a yield in ton/ac"));
});
