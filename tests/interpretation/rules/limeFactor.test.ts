import { describe, expect, it } from "vitest";
import { limeFactorCheck } from "../../../src/interpretation/checks/limeFactorCheck.ts";
import { limeByFactor, limeFactorRule } from "../../../src/interpretation/rules/limeFactor.ts";
import type { Facts } from "../../../src/interpretation/rules/facts.ts";
import { targetPhFor } from "../../../src/interpretation/rules/targetPh.ts";
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

  it("takes the soil for mineral where nothing tells, and says so", () => {
    const granted = (facts: Facts) => answered(limeByFactor(rule, 6, { crop: "oats", ...facts }, "the guide")).steps.some((s) => s.what === "Taken for granted");
    expect([granted({}), granted({ texture: "sandyLoam" }), granted({ organicMatter: 3 })]).toEqual([true, false, false]);
  });

  it("a pH below the printed table", () => expectRefusal(at(5.3, "oats"), /soil pH 5.3 is below the lowest that the guide prints, 5.4/, "a table for pH 5.3"));
  it("no crop", () => expectRefusal(at(6), /the crop is not known, and the guide sets the lime rate by it/, "crop"));
  it("a crop without a column", () => expectRefusal(at(6, "alfalfa"), /the guide has no lime rate for alfalfa/, "a guideline for this place"));
});

describe("lime by RB209 of 2023", () => {
  const rule2023 = ruleIn(pack("uk-rb209-2023"), "lime", "limeFactor");
  const lime = (pH: number, facts: Facts, own?: number) => limeByFactor(rule2023, pH, facts, "the guide", own === undefined ? undefined : { value: own, step: { what: "Lime up to, as set for this field", result: `pH ${own}` } });

  it("takes the pH that a field sets, since the sum is printed for any", () => {
    const { value, steps } = answered(lime(5.5, { crop: "potatoes", texture: "sandyLoam" }, 6));
    expect(value).toMatchObject({ rate: 3.5, target: 6 });
    expect(steps.map((s) => s.what)).toEqual(["Lime up to, as set for this field", "Rate for each unit of pH below the target"]);
  });

  it("the newsletter's rates are to their own pH alone", () => expect(answered(limeByFactor(rule, 5.5, { crop: "oats" }, "the guide", { value: 6, step: { what: "set", result: "pH 6.0" } })).value.target).toBe(6.7));

  // Table 1.2 prints a factor for organic soils; of which target there are two words.
  it("limes soil of 10 to 20 % organic matter by the factor for it, to the target that its field sets and to no other", () => {
    const organic: Facts = { crop: "oats", texture: "sandyLoam", organicMatter: 12 };
    expect(answered(lime(5.5, organic, 6.2)).value.rate).toBeCloseTo(5.6, 9);
    expect(answered(lime(5.5, { ...organic, crop: "grassHay" }, 6)).value.rate).toBeCloseTo(3, 9);
    expectRefusal(lime(5.5, organic), /two targets/, "targetPh");
    expectRefusal(lime(5.5, { ...organic, organicMatter: 25 }, 6.2), /is peat to RB209 2023/, "a guideline for this soil");
  });

  it("may name rows for a field's own target only where its sum is for any: else that target would never be put in", () => {
    expect(limeFactorRule.safeParse({ ...rule2023, anyTarget: undefined }).error?.issues).toMatchObject([{ path: ["leftOut", expect.any(Number), "withTarget"], message: "needs anyTarget: the publication's sum must be for any target" }]);
    expect(limeFactorRule.safeParse(rule2023).success).toBe(true);
  });

  it("a texture that is not known", () => expectRefusal(lime(6, { crop: "oats" }), /the soil texture is not known, and the guide sets the lime rate by it/i, "texture"));
  // Figure 1.1 of section 1 leads to no texture called loam.
  it("a texture that the table does not name, with those that it does", () => expectRefusal(lime(6, { crop: "oats", texture: "loam" }), /^the lime table of RB209 2023 has no loam; a soil of this name is sandy loam, silt loam or clay loam to it/, "a guideline for this soil"));
  it("a crop that it does not name, on that texture too", () => expectRefusal(lime(6, { crop: "raspberry", texture: "loam" }), /^the guide has no lime rate for raspberries$/, "a guideline for this place"));
  it("a crop that it does not name, whatever the texture", () => expectRefusal(lime(6, { crop: "alfalfa", texture: "clay" }), /^the guide has no lime rate for alfalfa$/, "a guideline for this place"));

  // Table 1.1 has 6.0 for organic soil under arable crops, the note under table 1.2 a target of 6.7.
  it.each([
    [9.9, undefined],
    [10, /two targets that cannot both hold/],
    [20, /two targets that cannot both hold/],
    [20.1, /is peat to RB209 2023, and its texture is recorded as another/],
  ])("organic matter of %d %%", (organicMatter, because) => {
    const facts: Facts = { crop: "oats", texture: "clayLoam", organicMatter };
    const target = targetPhFor(ruleIn(pack("uk-rb209-2023"), "target-ph", "targetPh"), facts, undefined, "the guide", 6);
    if (!because) {
      expect(answered(lime(6, facts)).value.rate).toBeCloseTo(5.6, 9);
      expect(answered(target).value.target).toBe(6.7);
    } else {
      expectRefusal(lime(6, facts), because, organicMatter > 20 ? "a guideline for this soil" : "targetPh");
      expectRefusal(target, because, "targetPh");
    }
  });
});
