import { describe, expect, it } from "vitest";
import { samplingSpecCheck } from "../../../src/interpretation/checks/samplingSpecCheck.ts";
import type { Outcome } from "../../../src/interpretation/outcome.ts";
import { samplingBySpec } from "../../../src/interpretation/rules/samplingParts.ts";
import { samplingSpecRule } from "../../../src/interpretation/rules/samplingSpec.ts";
import type { SamplingQuestion } from "../../../src/interpretation/rules/samplingWhen.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

describe("how to take a sample, as published", () => {
  checkedAsPublished(samplingSpecCheck);
});

const rule = (id: string, section = "routine-sampling") => ruleIn(pack(id), section, "samplingSpec");
const minnesota = rule("us-minnesota-sampling");
const wisconsin = rule("us-wisconsin-a2100-sampling");
const ask = (spec: typeof minnesota, question: Partial<SamplingQuestion>) => samplingBySpec(spec, { purpose: "routine", ...question }, "Minnesota sampling");

it("a larger field never takes fewer composites", () =>
  always([between(5, 100), between(5, 100)], (a, b) => {
    const composites = (value: number) => answered(ask(wisconsin, { area: { value, unit: "acre" }, fertility: "nonResponsive", yearsSinceTest: 2 }).composites).value.least;
    expect(composites(Math.max(a, b))).toBeGreaterThanOrEqual(composites(Math.min(a, b)));
  }));

it("takes the area in any unit", () => {
  // 20 acres are 8.093713 ha by definition; 8.1 ha are a little more.
  const composites = (value: number) => answered(ask(minnesota, { area: { value, unit: "ha" }, terrain: "level" }).composites).value;
  expect([composites(8.09), composites(8.1)]).toEqual([{ least: 1, most: 1 }, { least: 2, most: 2 }]);
});

it("every step says where it comes from", () => {
  const parts = ask(minnesota, { area: { value: 33, unit: "acre" }, tillage: "tilled", terrain: "level" });
  for (const part of [parts.cores, parts.depth, parts.handling] as Outcome<unknown>[]) for (const step of answered(part).steps) expect([step.source, step.evidence]).toEqual([{ reference: "umn-how-to-sample" }, "read"]);
  expect(answered(parts.composites).steps.map((s) => [s.expression, s.result])).toEqual([[undefined, "20 acres"], ["33 ÷ 20", "2"]]);
});

describe("no answer", () => {
  it("to what the publication is silent on", () => {
    expectRefusal(ask(minnesota, {}).interval, /^Minnesota sampling says nothing of the interval for routine sampling$/, "a guideline on the interval");
    expectRefusal(ask(minnesota, { purpose: "nitrate" }).cores, /^Minnesota sampling says nothing of the number of cores for nitrate sampling$/, "a guideline on the number of cores");
    expectRefusal(ask(minnesota, { purpose: "nitrate" }).handling, /^Minnesota sampling says nothing of handling/, "a guideline on handling");
    expectRefusal(ask(rule("us-iowa-sampling"), { area: { value: 40, unit: "acre" } }).composites, /says nothing of the number of composites/, "a guideline on the number of composites");
  });
  it("where it speaks of other places only", () => expectRefusal(ask(minnesota, { tillage: "noTill" }).depth, /says nothing of the depth for routine sampling in such a place$/, "a guideline on the depth"));
  it("without the fact it hangs on", () => {
    expectRefusal(ask(minnesota, {}).depth, /^how the ground is worked is not known, and Minnesota sampling sets the depth by it$/, "tillage");
    expectRefusal(ask(minnesota, { area: { value: 5, unit: "acre" } }).composites, /^whether the ground is level or rolling is not known/, "terrain");
    expectRefusal(ask(minnesota, { terrain: "level" }).composites, /^the area is not known$/, "area");
    expectRefusal(ask(rule("us-kentucky-agr16-sampling"), {}).interval, /^the crop is not known/, "crop");
  });
  it("outside the table", () => expectRefusal(ask(wisconsin, { area: { value: 120, unit: "acre" }, fertility: "nonResponsive", yearsSinceTest: 1 }).composites, /^the field has 120 acres and the table of .* is for 5 to 100$/, "a guideline for a field of this size"));
});

it("the schema refuses what does not rise, what is not graded, and what says nothing", () => {
  const bare = { kind: "samplingSpec", id: "x", purpose: "routine" } as const;
  const valid = (more: object) => samplingSpecRule.safeParse({ ...bare, ...more }).success;
  const from = { source: "common-practice" } as const;
  expect(valid({})).toBe(false);
  expect(valid({ cores: [{ least: 10, most: 20, ...from }] })).toBe(true);
  expect(valid({ cores: [{ least: 20, most: 10, ...from }] })).toBe(false);
  expect(valid({ cores: [{ ...from }] })).toBe(false);
  expect(valid({ cores: [{ least: 10, source: { reference: "umn-how-to-sample" } }] })).toBe(false);
  expect(valid({ depths: [{ to: 8, toMost: 6, unit: "in", ...from }] })).toBe(false);
  expect(valid({ composites: [{ unit: "acre", rows: [[5, 10, 2], [10, 25, 3]], ...from }] })).toBe(false);
});
