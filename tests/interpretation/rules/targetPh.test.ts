import { describe, it } from "vitest";
import { targetPhCheck } from "../../../src/interpretation/checks/targetPhCheck.ts";
import { targetPhFor } from "../../../src/interpretation/rules/targetPh.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { iowa, pack, ruleIn, triState } from "../../support/packs.ts";

describe("when to lime and how far, as published", () => {
  checkedAsPublished(targetPhCheck);
});

describe("refusals", () => {
  const rule = ruleIn(triState, "target-ph", "targetPh");
  it("no subsoil pH, where the trigger depends on it", () =>
    expectRefusal(targetPhFor(rule, { crop: "corn" }, undefined, "Tri-State 2020"), /the subsoil pH is not known, and Tri-State 2020 sets the target by it/, "subsoilPh"));

  it("no crop", () => expectRefusal(targetPhFor(rule, { subsoilPh: 6.5 }, undefined, "Tri-State 2020"), /the crop is not known, and Tri-State 2020 sets the target by it/, "crop"));

  it("a crop that no row covers", () =>
    expectRefusal(targetPhFor(rule, { crop: "wheat", subsoilPh: 6.5 }, undefined, "Tri-State 2020"), /Tri-State 2020 gives no target pH for wheat/, "targetPh"));

  // Tri-State 1995, Table 1, limes organic soil to 5.3 where mineral soil is limed to 6.0 to 6.8; a row that names no soil is one of farmed mineral soil.
  it("an organic soil, where the row names no soil", () => {
    const rule = ruleIn(iowa, "target-ph", "targetPh");
    const own = { value: 6.4, step: { what: "Lime up to, as set for this field", result: "pH 6.4", source: "common-practice" } } as const;
    for (const facts of [{ texture: "muck" }, { soilClass: "organic" }, { organicMatter: 55 }] as const)
      for (const target of [undefined, own])
        expectRefusal(targetPhFor(rule, { crop: "corn", ...facts }, target, "Iowa 2002"), /the soil is organic, and Iowa 2002 gives no target pH for organic soil/, "targetPh");
    answered(targetPhFor(rule, { crop: "corn", organicMatter: 4 }, undefined, "Iowa 2002"));
    answered(targetPhFor(ruleIn(pack("us-tristate-lime-1995"), "target-ph", "targetPh"), { crop: "corn", organicMatter: 55 }, undefined, "Tri-State 1995"));
  });

  it("a crop that no row covers, in the other guideline", () =>
    expectRefusal(targetPhFor(ruleIn(iowa, "target-ph", "targetPh"), { crop: "alfalfa" }, undefined, "Iowa 2002"), /Iowa 2002 gives no target pH for alfalfa/, "targetPh"));
});
