import { describe, expect, it } from "vitest";
import { limeFactorCheck } from "../../../src/interpretation/checks/limeFactorCheck.ts";
import { limeByFactor } from "../../../src/interpretation/rules/limeFactor.ts";
import type { cropIds } from "../../../src/interpretation/vocabulary.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const rule = ruleIn(pack("uk-rb209-2010"), "lime", "limeFactor");
const at = (pH: number, crop?: (typeof cropIds)[number]) => limeByFactor(rule, pH, { crop }, "the guide");

describe("lime for each unit of pH, as published", () => {
  checkedAsPublished(limeFactorCheck);

  it("a higher pH never takes more lime, on arable land", () =>
    always([between(5.4, 8), between(5.4, 8)], (a, b) => expect(answered(at(Math.max(a, b), "oats")).value.rate).toBeLessThanOrEqual(answered(at(Math.min(a, b), "oats")).value.rate)));

  it("the same pH on grass is answered as printed, in doubt, and with less at one time", () => {
    const { value, steps } = answered(at(6.4, "grassSilageOneCut"));
    expect(value).toEqual({ rate: 0.5, target: 6.5, mostAtOnce: 7, doubt: "the formula that fits every other cell gives 0.6" });
    expect(steps.at(-1)?.note).toMatch(/doubtful: .*less than 2 t\/ha is not worth a pass/);
  });

  it("a pH below the printed table", () => expectRefusal(at(5.3, "oats"), /soil pH 5.3 is below the lowest that the guide prints, 5.4/, "a table for pH 5.3"));
  it("no crop", () => expectRefusal(at(6), /the crop is not known, and the guide sets the lime rate by it/, "crop"));
  it("a crop without a column", () => expectRefusal(at(6, "alfalfa"), /the guide has no lime rate for alfalfa/, "a guideline for this place"));
});
