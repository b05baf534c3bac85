import { describe, expect, it } from "vitest";
import { samplingDepthCheck } from "../../../src/interpretation/checks/samplingDepthCheck.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { noRuleFor, outsideLimits } from "../../../src/interpretation/rules/limits.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured } from "../../support/measured.ts";
import { expectRefusal } from "../../support/outcomes.ts";

describe("the depth a calibration holds for, as published", () => {
  checkedAsPublished(samplingDepthCheck);
});

describe("a sample that ends where it should", () => {
  const inches = (from: number) => outsideLimits({ method: "mehlich3", unit: "ppm", depth: { from: 0, to: 8, unit: "in", source: { reference: "bulletin-1" }, evidence: "read" } }, measured("P", 20, { depth: { from, to: 8, unit: "in" } }), "corn", "the bulletin");
  it("and begins within an inch of it is read", () => expect([0, 1].map(inches)).toEqual([undefined, undefined]));
  it("and begins deeper is none of the depth", () => expectRefusal(inches(2)!, /the sample was taken 2 to 8 in deep and the bulletin is calibrated for 0 to 8 in/, "a sample 0 to 8 in deep"));
});

it("tells of a crop of nearly that name which the rule holds for, and of no other", () => {
  const refused = (crop: CropId, held: readonly CropId[]) => noRuleFor(crop, held, "the bulletin").because;
  expect(refused("winterWheat", ["corn", "wheat"])).toBe("the bulletin has no rule for winter wheat, but one for wheat");
  expect(refused("wheat", ["winterWheat", "springWheat", "corn"])).toBe("the bulletin has no rule for wheat, but one for winter wheat and spring wheat");
  expect(refused("alfalfa", ["wheat"])).toBe("the bulletin has no rule for alfalfa");
});
