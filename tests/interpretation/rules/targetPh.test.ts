import { describe, expect, it } from "vitest";
import * as z from "zod";
import { bandOf } from "../../../src/interpretation/rules/bands.ts";
import type { OwnTarget } from "../../../src/interpretation/rules/targetPh.ts";
import { phBands, targetPhFor } from "../../../src/interpretation/rules/targetPh.ts";
import { facts, published, readCases } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { iowa, ruleIn, ruleNamed, triState } from "../../support/packs.ts";

const { rules, cases } = readCases(
  "targetPh.yaml",
  published.extend({
    rule: z.string(),
    input: z.strictObject({ facts, pH: z.number().optional(), own: z.number().optional() }),
    expect: z.union([
      z.strictObject({ limeBelow: z.number(), target: z.union([z.number(), z.literal("none")]) }),
      z.strictObject({ call: z.enum(["lime due", "in range", "above range"]) }),
    ]),
  }),
);

const ownTarget = (value: number): OwnTarget => ({ value, step: { what: "Target pH of the field", result: `pH ${value}` } });

describe("when to lime and how far, as published", () => {
  it.each(cases)("$case", (c) => {
    const rule = ruleNamed(c.rule, rules, "targetPh");
    const { pH, own } = c.input;
    const target = answered(targetPhFor(rule, c.input.facts, own === undefined ? undefined : ownTarget(own), "the publication")).value;
    if ("call" in c.expect) expect(bandOf(pH!, phBands(rule, target)).band).toBe(c.expect.call);
    else expect([target.limeBelow, target.target ?? "none"]).toEqual([c.expect.limeBelow, c.expect.target]);
  });
});

describe("refusals", () => {
  const rule = ruleIn(triState, "target-ph", "targetPh");
  it("no subsoil pH, where the trigger depends on it", () =>
    expectRefusal(targetPhFor(rule, { crop: "corn" }, undefined, "Tri-State 2020"), /the subsoil pH is not known, and Tri-State 2020 sets the target by it/, "subsoilPh"));

  it("no crop", () => expectRefusal(targetPhFor(rule, { subsoilPh: 6.5 }, undefined, "Tri-State 2020"), /the crop is not known, and Tri-State 2020 sets the target by it/, "crop"));

  it("a crop that no row covers", () =>
    expectRefusal(targetPhFor(rule, { crop: "wheat", subsoilPh: 6.5 }, undefined, "Tri-State 2020"), /Tri-State 2020 gives no target pH for wheat/, "targetPh"));

  it("a crop that no row covers, in the other guideline", () =>
    expectRefusal(targetPhFor(ruleIn(iowa, "target-ph", "targetPh"), { crop: "alfalfa" }, undefined, "Iowa 2002"), /Iowa 2002 gives no target pH for alfalfa/, "targetPh"));
});
