import { describe, expect, it } from "vitest";
import { samplingDepthCheck } from "../../../src/interpretation/checks/samplingDepthCheck.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { noRuleFor, outsideLimits } from "../../../src/interpretation/rules/limits.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured } from "../../support/measured.ts";
import { advise } from "../../../src/interpretation/advise.ts";
import { fullSample } from "../../support/fullSample.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";

describe("the depth a calibration holds for, as published", () => {
  checkedAsPublished(samplingDepthCheck);
});

describe("a sample that ends where it should", () => {
  const inches = (from: number) => outsideLimits({ method: "mehlich3", unit: "ppm", depth: { from: 0, to: 8, unit: "in", source: { reference: "bulletin-1" }, evidence: "read" } }, measured("P", 20, { depth: { from, to: 8, unit: "in" } }), "corn", "the bulletin");
  it("and begins within an inch of it is read", () => expect([0, 1].map(inches)).toEqual([undefined, undefined]));
  it("and begins deeper is none of the depth", () => expectRefusal(inches(2)!, /the sample was taken 2 to 8 in deep and the bulletin is calibrated for 0 to 8 in/, "a sample 0 to 8 in deep"));
});

// Ontario's ministry, 2025: results "are reported in units of milligrams per litre of soil (mg/L) or parts per million (ppm), which are approximately equal".
describe("another unit that the publication's readers take for its own", () => {
  const corn = (unit: "ppm" | "mg/l" | "lb/ac") => advise({ ...fullSample, packs: [pack("ca-ontario-pub811")], facts: { crop: "corn" }, yieldGoal: undefined, measurements: [measured("P", 11, { method: "olsen", unit })] }).rates.find((r) => r.nutrient === "P2O5")!.outcome;
  it("is read as it, and that is said", () => {
    expect(answered(corn("mg/l")).value.rate).toEqual({ value: 50, unit: "kg/ha" });
    expect(answered(corn("ppm")).value).toEqual(answered(corn("mg/l")).value);
    expect(answered(corn("mg/l")).steps).toContainEqual(expect.objectContaining({ what: "Results in mg/l are taken for ppm", source: { reference: "on-testing" }, evidence: "read" }));
    expect(answered(corn("ppm")).steps.map((s) => s.what)).not.toContain("Results in mg/l are taken for ppm");
  });
  it("and no third one", () => expectRefusal(corn("lb/ac"), /the result is in lb\/ac and Ontario Publication 811 reads ppm/, "P in ppm"));
  it("so does the limit for the water", () => {
    const over = (value: number) => advise({ ...fullSample, packs: [pack("ca-ontario-pub811")], facts: { crop: "dryBeans" }, measurements: [measured("P", value, { method: "olsen", unit: "mg/l" })] }).cautions.includes("phosphorusOverLimit");
    expect([60, 61].map(over)).toEqual([false, true]);
  });
});

it("tells of a crop of nearly that name which the rule holds for, and of no other", () => {
  const refused = (crop: CropId, held: readonly CropId[]) => noRuleFor(crop, held, "the bulletin").because;
  expect(refused("winterWheat", ["corn", "wheat"])).toBe("the bulletin has no rule for winter wheat, but one for wheat");
  expect(refused("wheat", ["winterWheat", "springWheat", "corn"])).toBe("the bulletin has no rule for wheat, but one for winter wheat and spring wheat");
  expect(refused("alfalfa", ["wheat"])).toBe("the bulletin has no rule for alfalfa");
});
