import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { limeQualityCheck } from "../../../src/interpretation/checks/limeQualityCheck.ts";
import type { LimeQualityRule } from "../../../src/interpretation/rules/limeQuality.ts";
import { limeQuality } from "../../../src/interpretation/rules/limeQuality.ts";
import { checkedAsPublished, readCases } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { iowa, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const { rules } = readCases("limeQuality.yaml", limeQualityCheck.shape);

describe("what a liming material is worth, as published", () => {
  checkedAsPublished(limeQualityCheck);
});

const ecce = ruleIn(iowa, "ecce", "limeQuality");
const kinds: LimeQualityRule[] = [ecce, ...Object.values(rules).filter((r) => r.kind === "limeQuality")];
const meshes = [1, 4, 8, 10, 20, 30, 50, 60, 100];

/** A material as sieves find it: ever less passes an ever finer screen. */
const anyMaterial = fc.record({
  cce: between(0, 120),
  moisture: between(0, 100),
  passing: fc
    .array(between(0, 100), { minLength: meshes.length, maxLength: meshes.length })
    .map((shares) => Object.fromEntries(shares.sort((a, b) => b - a).map((share, i) => [String(meshes[i]), share]))),
});

describe("limeQuality", () => {
  it.each(kinds)("$id is worth no less than nothing and no more than its CCE", (rule) =>
    always([anyMaterial], (material) => {
      const { value } = answered(limeQuality(rule, material));
      expect(value).toBeGreaterThanOrEqual(-1e-9);
      expect(value).toBeLessThanOrEqual(material.cce + 1e-9);
    }));

  it("refuses where a screen was not reported", () =>
    expectRefusal(limeQuality(ecce, { cce: 90, moisture: 0, passing: { "8": 90 } }), /the share passing 4 mesh and 60 mesh is not known/, "passing 4 mesh", "passing 60 mesh"));
});

it("refuses sieves that cannot be: more passing a finer screen than a coarser one", () => {
  const rule = ruleIn(iowa, "ecce", "limeQuality");
  expectRefusal(limeQuality(rule, { cce: 90, moisture: 0, passing: { "4": 50, "8": 90, "60": 40 } }), /more is said to pass 8 mesh than a coarser screen/, "a sieve analysis that falls with finer screens");
});
