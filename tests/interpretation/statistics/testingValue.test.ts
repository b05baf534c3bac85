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

  // By hand, 4 fields of 10 being low. Without a test: applying 0.4 x 30 - 0.6 x 20 = 0, better than skipping, -4. The message L: applying
  // 0.3 x 30 - 0.15 x 20 = 6; H: skipping 0.1 x -10 = -1. Sure of it: 0.4 x 30 = 12.
  it("shows the best without the test, the best with it, and the difference", () => {
    const { value, steps } = answered(ask(0.4, 0.75, 0.75));
    expect([value.without, value.withTest, value.ofTest, value.ofCertainty]).toEqual([0, 5, 5, 12].map((money) => expect.closeTo(money, 9) as number));
    expect(steps.map(({ expression, result }) => [expression, result])).toEqual([[undefined, "0"], [undefined, "5"], ["5 − 0", "5"]]);
  });

  it("of a message that only one state gives away is as good as certain; tenths of a chance may add up to a hair less than 1", () => {
    const { value } = answered(
      testingValue({
        payoff: { apply: { low: 30, medium: 5, high: -20 }, skip: { low: -10, medium: 0, high: 0 } },
        prior: { low: 0.7, medium: 0.2, high: 0.1 },
        likelihood: { low: { L: 1 }, medium: { M: 1 }, high: { H: 1 } },
      }),
    );
    expect([value.withTest, value.ofTest]).toEqual([expect.closeTo(22, 9), expect.closeTo(2, 9)]);
    expect(value.ofTest).toBeCloseTo(value.ofCertainty, 9);
  });

  it("refuses chances that do not add up, missing payoffs, and nothing", () => {
    expectRefusal(testingValue({ payoff: { skip: { low: 0 } }, prior: { low: 0.9 }, likelihood: { low: { L: 1 } } }), /the chances given are not whole/, "chances");
    expectRefusal(testingValue({ payoff: { skip: {} }, prior: { low: 1 }, likelihood: { low: { L: 1 } } }), /an action has no payoff/, "payoff");
    expectRefusal(testingValue({ payoff: { skip: { low: 0, high: 0 } }, prior: { low: 0.5, high: 0.5 }, likelihood: { low: { L: 1 } } }), /the chances given are not whole/, "chances");
    const likelihood = { low: { L: 1 } };
    for (const nothing of [testingValue({ payoff: { skip: { low: 0 } }, prior: {}, likelihood }), testingValue({ payoff: {}, prior: { low: 1 }, likelihood })])
      expectRefusal(nothing, /no state of the soil or no action is given/, "states", "actions");
  });
});

it.each([[1, "8 ÷ 5 acres ÷ 1 year"], [4, "8 ÷ 5 acres ÷ 4 years"]])("testingCost of every %i years tells its sum", (yearsBetween, expression) =>
  expect(testingCost({ fee: 8, acresPerSample: 5, yearsBetween })).toMatchObject({ steps: [{ expression }] }));
it("testingCost refuses no acres and no years", () => expectRefusal(testingCost({ fee: 8, acresPerSample: 0, yearsBetween: 4 }), /are not both above zero/, "acres per sample", "years between samplings"));
