import { describe, expect, it } from "vitest";
import { starterShareCheck } from "../../../src/interpretation/checks/starterShareCheck.ts";
import { bandedRate, broadcastLeft } from "../../../src/interpretation/rules/starterShare.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

describe("phosphate in the planter band, as published", () => {
  checkedAsPublished(starterShareCheck);
});

const rule = ruleIn(pack("us-connecticut-starter"), "starter-phosphate", "starterShare");

it("the band that stands for the whole rate leaves nothing to broadcast", () =>
  always([between(0, 500)], (rate) => {
    const banded = answered(bandedRate(rule, rate, "corn", "the publication")).value;
    expect(answered(broadcastLeft(rule, rate, banded, "corn", "the publication")).value).toBeCloseTo(0, 9);
  }));

it("has nothing to say of another crop, or of none", () => {
  expectRefusal(bandedRate(rule, 60, "wheat", "the publication"), /the publication has no rule for a band beside wheat/, "a guideline for wheat");
  expectRefusal(broadcastLeft(rule, 60, 10, undefined, "the publication"), /no crop is planned/, "crop");
});
