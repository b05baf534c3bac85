import { describe, expect, it } from "vitest";
import { limeClassCheck } from "../../../src/interpretation/checks/limeClassCheck.ts";
import { limeAdvice } from "../../../src/interpretation/lime/lime.ts";
import { limeByClass } from "../../../src/interpretation/rules/limeClass.ts";
import { convert } from "../../../src/interpretation/units.ts";
import { soilCategoryIds } from "../../../src/interpretation/vocabulary.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const rule = ruleIn(pack("pl-iung-lime"), "lime", "limeClass");

describe("need for lime and dose, as published", () => {
  checkedAsPublished(limeClassCheck);

  it("a higher pH never takes more lime", () =>
    always([between(3, 8.5), between(3, 8.5), between(0, 3.999)], (a, b, i) => {
      const soilCategory = soilCategoryIds[Math.floor(i)]!;
      const [low, high] = [Math.min(a, b), Math.max(a, b)].map((pH) => limeByClass(rule, pH, { soilCategory }, "the page"));
      if (low!.kind === "answer" && high!.kind === "answer") expect(high!.value.rate).toBeLessThanOrEqual(low!.value.rate);
    }));

  it("the answer is known no better than the medium of its pH", () => expect(answered(limeByClass(rule, 4, { soilCategory: "light" }, "the page")).steps.map((s) => s.evidence)).toContain("secondary"));

  it("a dose over what may be spread at one time is split, by the farm's own lime", () => {
    const lime = { id: "burnt", name: "burnt lime", stated: { calciumOxide: { value: 80, source: "common-practice" as const } } };
    const pH = measured("pH", 5.4, { method: "potassiumChloridePh" });
    const advice = limeAdvice({ facts: { soilCategory: "heavy" }, packs: [pack("pl-iung-lime")], pH, buffers: [], incorporated: true, materials: [lime] });
    expect(answered(advice.needed).value).toMatchObject({ requirement: { value: 6, unit: "t/ha" } });
    const { rate, applications } = answered(advice.rates[0]!.outcome).value;
    // 6 t/ha of CaO in lime of 80 % is 7.5 t/ha; at most 4 t/ha of CaO at one time makes two.
    expect(convert(rate.value, rate.unit, "t/ha")).toBeCloseTo(7.5, 9);
    expect(applications).toHaveLength(2);
  });

  // The page prints the most for one time, 1.5 t/ha of CaO on very light soil, in brackets beside the class necessary alone (IUNG, Table 2).
  it("a dose of any other class is not split, though it be more than that", () => {
    const at = (pH: number) => answered(limeByClass(rule, pH, { soilCategory: "veryLight" }, "the page"));
    expect(at(4).value).toMatchObject({ rate: 3, mostAtOnce: 1.5 });
    expect(at(4.2).value).toMatchObject({ rate: 2, mostAtOnce: undefined });
    expect(at(4.2).steps.map((s) => s.what)).not.toContain("Most to spread at one time");
  });

  it("grassland, by name", () => expectRefusal(limeByClass(rule, 4, { soilCategory: "light", crop: "grassPasture" }, "the page"), /^the doses of IUNG are printed for arable land, and grassland has classes of its own$/, "a guideline for this place"));

  it("organic soil", () => expectRefusal(limeByClass(rule, 4, { soilCategory: "light", organicMatter: 25 }, "the page"), /^the soil is organic, and the page speaks of mineral soils alone$/, "a lime dose for organic soil"));

  it("no category", () => expectRefusal(limeByClass(rule, 5, { texture: "sand" }, "the page"), /the soil's agronomic category is not known, and the page sets the dose by it/, "soilCategory"));
});
