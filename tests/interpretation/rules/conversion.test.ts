import { describe, expect, it } from "vitest";
import { conversionCheck } from "../../../src/interpretation/checks/conversionCheck.ts";
import { conversionRule, convertedResult } from "../../../src/interpretation/rules/conversion.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

describe("another test, as published", () => {
  checkedAsPublished(conversionCheck);
});

const bray = ruleIn(pack("us-ohio-test-relations"), "phosphorus", "conversion");
const paste = ruleIn(pack("soil-salt-relations"), "one-to-one", "conversion");
const mehlich = (value: number, over: Parameters<typeof measured>[2] = {}) => measured("P", value, over);

it("there and back again is the same result", () =>
  always([between(1, 300)], (value) => {
    const there = answered(convertedResult(bray, mehlich(value, { method: "bray1" }), {}, "the bulletin")!).value;
    expect(there.method).toBe("mehlich3");
    expect(answered(convertedResult(bray, mehlich(there.value), {}, "the bulletin")!).value.value).toBeCloseTo(value, 9);
  }));

it("says where the relation was found, and how the number came about", () =>
  expect(answered(convertedResult(bray, mehlich(27), {}, "the bulletin")!).steps.at(-1)).toMatchObject({ what: "As Bray P1 might read it, found on soils of Ohio and Indiana", expression: "27 ÷ 1.35", result: "20 ppm", evidence: "derived" }));

it("is silent of a result by a third test, of another nutrient, or in another unit", () => {
  expect(convertedResult(bray, mehlich(27, { method: "olsen" }), {}, "the bulletin")).toBeUndefined();
  expect(convertedResult(bray, measured("K", 27), {}, "the bulletin")).toBeUndefined();
  expect(convertedResult(bray, mehlich(27, { unit: "lb/ac" }), {}, "the bulletin")).toBeUndefined();
});

describe("refusals", () => {
  const salts = (value: number) => measured("salts", value, { method: "water1to1" });
  it("a less-than", () => expectRefusal(convertedResult(bray, mehlich(3, { qualifier: "<" }), {}, "the bulletin")!, /the laboratory says < 3 ppm/, "P as a number"));
  it("no texture", () => expectRefusal(convertedResult(paste, salts(2), {}, "the bulletin")!, /the soil texture is not known, and the bulletin has a relation for each/, "texture"));
  it("a soil it has no relation for", () => expectRefusal(convertedResult(paste, salts(2), { texture: "muck" }, "the bulletin")!, /the bulletin has no relation for this soil/));
  it("less than nothing", () => expectRefusal(convertedResult(paste, salts(0.2), { texture: "loam" }, "the bulletin")!, /the relation of the bulletin gives nothing or less at 0.20 dS\/m/, "salts by saturated paste"));
});

it("refuses a relation of a test to itself", () => expect(conversionRule.safeParse({ ...bray, to: "bray1" }).success).toBe(false));
