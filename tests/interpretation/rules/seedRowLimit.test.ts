import { describe, expect, it } from "vitest";
import { seedRowLimitCheck } from "../../../src/interpretation/checks/seedRowLimitCheck.ts";
import { checkSeedRow, seedRowLimitRule } from "../../../src/interpretation/rules/seedRowLimit.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

describe("fertilizer that touches the seed, as published", () => {
  checkedAsPublished(seedRowLimitCheck);
});

const rule = ruleIn(pack("us-kansas-seed-row"), "seed-row", "seedRowLimit");
const row = { spacing: 30, nitrogen: 5, potash: 2, holdsUrea: false };

it("wider rows never bear more", () =>
  always([between(5, 40), between(5, 40)], (a, b) => {
    const limit = (spacing: number) => answered(checkSeedRow(rule, { ...row, spacing }, { crop: "corn", texture: "loam" }, "the publication")).value.limit;
    expect(limit(Math.max(a, b))).toBeLessThanOrEqual(limit(Math.min(a, b)));
  }));

describe("refusals", () => {
  const check = (facts: Parameters<typeof checkSeedRow>[2], change = {}) => checkSeedRow(rule, { ...row, ...change }, facts, "the publication");
  it("another crop, or none", () => {
    expectRefusal(check({ crop: "soybean", texture: "loam" }), /the publication gives no seed-row limit for soybean/, "a guideline for soybean");
    expectRefusal(check({ texture: "loam" }), /no crop is planned/, "crop");
  });
  it("a soil that is not known, or not in the table", () => {
    expectRefusal(check({ crop: "corn" }), /the soil texture is not known, and the publication sets the limit by it/, "texture");
    expectRefusal(check({ crop: "corn", texture: "muck" }), /the publication gives no seed-row limit for muck or peat/, "a guideline for this soil");
  });
  it("rows wider than any printed", () =>
    expectRefusal(check({ crop: "corn", texture: "loam" }, { spacing: 42 }), /the rows are 42 in apart and the publication prints no limit for rows wider than 40 in/, "a limit for this row spacing"));
});

it("the schema refuses rows out of order, or with a limit missing", () => {
  const valid = (rows: number[][]) => seedRowLimitRule.safeParse({ ...rule, rows }).success;
  expect(valid([[40, 6, 4], [30, 8, 6]])).toBe(true);
  expect(valid([[30, 8, 6], [40, 6, 4]])).toBe(false);
  expect(valid([[40, 6]])).toBe(false);
});
