import { describe, expect, it } from "vitest";
import { samplingDepthCheck } from "../../../src/interpretation/checks/samplingDepthCheck.ts";
import { outsideLimits } from "../../../src/interpretation/rules/limits.ts";
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
