import { describe, it } from "vitest";
import { targetPhCheck } from "../../../src/interpretation/checks/targetPhCheck.ts";
import { targetPhFor } from "../../../src/interpretation/rules/targetPh.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { expectRefusal } from "../../support/outcomes.ts";
import { iowa, ruleIn, triState } from "../../support/packs.ts";

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

  it("a crop that no row covers, in the other guideline", () =>
    expectRefusal(targetPhFor(ruleIn(iowa, "target-ph", "targetPh"), { crop: "alfalfa" }, undefined, "Iowa 2002"), /Iowa 2002 gives no target pH for alfalfa/, "targetPh"));
});
