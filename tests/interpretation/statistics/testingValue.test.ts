import { describe, expect, it } from "vitest";
import { testingCostCheck, testingValueCheck } from "../../../src/interpretation/checks/testingCheck.ts";
import { testingCost } from "../../../src/interpretation/statistics/testingCost.ts";
import { testingValue } from "../../../src/interpretation/statistics/testingValue.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { always, between } from "../../support/repeatable.ts";

describe("costs, as published", () => {
  checkedAsPublished(testingCostCheck);
});
describe("values", () => {
  checkedAsPublished(testingValueCheck);
});

describe("testingValue", () => {
  const ask = (low: number, rightLow: number, rightHigh: number, gain = 30) =>
    testingValue({
      payoff: { apply: { low: gain, high: -20 }, skip: { low: -10, high: 0 } },
      prior: { low, high: 1 - low },
      likelihood: { low: { L: rightLow, H: 1 - rightLow }, high: { L: 1 - rightHigh, H: rightHigh } },
    });

  it("is never below zero nor above that of certainty, and nothing where the guess is sure", () =>
    always([between(0, 1), between(0, 1), between(0, 1), between(-20, 60)], (low, a, b, gain) => {
      const { ofTest, ofCertainty } = answered(ask(low, a, b, gain)).value;
      expect(ofTest).toBeGreaterThanOrEqual(-1e-9);
      expect(ofTest).toBeLessThanOrEqual(ofCertainty + 1e-9);
      expect(answered(ask(1, a, b, gain)).value.ofTest).toBeCloseTo(0, 9);
    }));

  it("refuses chances that do not add up, missing payoffs, and nothing", () => {
    expectRefusal(testingValue({ payoff: { skip: { low: 0 } }, prior: { low: 0.9 }, likelihood: { low: { L: 1 } } }), /the chances given are not whole/, "chances");
    expectRefusal(testingValue({ payoff: { skip: {} }, prior: { low: 1 }, likelihood: { low: { L: 1 } } }), /an action has no payoff/, "payoff");
    expectRefusal(testingValue({ payoff: {}, prior: {}, likelihood: {} }), /no state of the soil or no action is given/, "states", "actions");
  });
});

it("testingCost refuses no acres and no years", () => expectRefusal(testingCost({ fee: 8, acresPerSample: 0, yearsBetween: 4 }), /are not both above zero/, "acres per sample", "years between samplings"));
