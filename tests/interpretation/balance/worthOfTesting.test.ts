import { expect, it } from "vitest";
import type { Outcome } from "../../../src/interpretation/outcome.ts";
import { answer, noAnswer } from "../../../src/interpretation/outcome.ts";
import type { Fertilizer } from "../../../src/interpretation/products.ts";
import { testingCost } from "../../../src/interpretation/statistics/testingCost.ts";
import type { Amount, RateUnit } from "../../../src/interpretation/units.ts";
import type { WorthQuestion } from "../../../src/interpretation/balance/worthOfTesting.ts";
import { worthOfTesting } from "../../../src/interpretation/balance/worthOfTesting.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { ruleIn, triState } from "../../support/packs.ts";

const record = { record: { file: "farm.yaml", line: 1, column: 1 } };
const phosphate: Fertilizer = { id: "p", name: "triple superphosphate", analysis: { N: 0, P2O5: 46, K2O: 0 }, source: record, pricePerTon: 610 };
const potash: Fertilizer = { id: "k", name: "muriate of potash", analysis: { N: 0, P2O5: 0, K2O: 60 }, source: record, pricePerTon: 450 };
const rate = (value: number): Outcome<Amount<RateUnit>> => answer({ value, unit: "lb/ac" }, []);

/**
 * 20 dollars a bag every 3 years for 10 acres is 0.6667 an acre and year, as the farm press worked it (67 cents an acre, 2020).
 * 180 bu of corn take 180 x 0.35 = 63 lb P2O5 and 180 x 0.20 = 36 lb K2O (Tri-State 2020, from memory).
 * In products: 63 / 0.46 / 2,000 x 610 = 41.7717; 36 / 0.60 / 2,000 x 450 = 13.50; together 55.2717.
 */
const asked: WorthQuestion = {
  advised: { P2O5: rate(0), K2O: rate(60) },
  harvest: { season: 2026, crop: "corn", yield: { value: 180, unit: "bu/ac" }, source: record },
  coefficients: [{ pack: "Tri-State 2020", rule: ruleIn(triState, "removal", "removal") }],
  fertilizers: [phosphate, potash],
  lime: answer(69, []),
  testing: answer({ cost: answered(testingCost({ fee: 20, acresPerSample: 10, yearsBetween: 3 })).value, years: 3 }, []),
  written: { units: "us", currency: "USD" },
};

it("is what the results saved on phosphate and potash, less a year of the lime, less the laboratory", () => {
  // Advised: 60 / 0.60 / 2,000 x 450 = 22.50. Saved 32.7717; lime 69 / 3 = 23; left 32.7717 - 23 - 0.6667 = 9.1051.
  const { value, steps } = answered(worthOfTesting(asked));
  expect(value.advised).toBeCloseTo(22.5, 9);
  expect(value.blind).toBeCloseTo(55.2717, 4);
  expect(value.saved).toBeCloseTo(32.7717, 4);
  expect(value.lime).toBeCloseTo(23, 9);
  expect(value.testing).toBeCloseTo(0.6667, 4);
  expect(value.left).toBeCloseTo(9.1051, 4);
  expect(steps.at(-1)).toMatchObject({ expression: "$32.77 − $23.00 − $0.67", result: "$9.11" });
  expect(steps.find((s) => s.what.startsWith("Lime the results called for"))).toMatchObject({ expression: "$69.00 ÷ 3 years", result: "$23.00" });
  expect(steps.find((s) => s.what.startsWith("Taken away"))).toMatchObject({ result: "63 P₂O₅ and 36 K₂O", evidence: "memory" });
});

it("falls below zero where the results call for more than the harvest takes", () => {
  // 120 lb of potash: 45.00; with 63 lb of phosphate 86.7717; saved 55.2717 - 86.7717 = -31.50.
  const { value, steps } = answered(worthOfTesting({ ...asked, advised: { P2O5: rate(63), K2O: rate(120) }, lime: answer(0, []) }));
  expect(value.saved).toBeCloseTo(-31.5, 9);
  expect(steps.find((s) => s.what === "Saved by the results")!.result).toBe("−$31.50");
  expect(value.left).toBeCloseTo(-31.5 - 0.66667, 4);
});

it("advice that is just the removal is worth no more than it cost: nothing, less the laboratory", () => {
  const { value } = answered(worthOfTesting({ ...asked, advised: { P2O5: rate(63), K2O: rate(36) }, lime: answer(0, []) }));
  expect(value.saved).toBeCloseTo(0, 9);
  expect(value.left).toBeCloseTo(-0.66667, 4);
});

it("counts a removal that is printed as the element as that of its oxide", () => {
  // 63 lb P2O5 hold 27.49 lb P (x 0.4364), 36 lb K2O hold 29.89 lb K (x 0.8301): the same harvest, and the same money.
  const rule = ruleIn(triState, "removal", "removal");
  const element = { P2O5: { nutrient: "P", share: 0.4364 }, K2O: { nutrient: "K", share: 0.8301 } } as const;
  const rows = rule.rows.flatMap((row) => (row.nutrient === "P2O5" || row.nutrient === "K2O" ? [{ ...row, nutrient: element[row.nutrient].nutrient, value: row.value * element[row.nutrient].share }] : []));
  expect(answered(worthOfTesting({ ...asked, coefficients: [{ pack: "Tri-State 2020", rule: { ...rule, rows } }] })).value.blind).toBeCloseTo(55.27, 1);
});

it("leaves lime out of the sum where it is not known, and says so", () => {
  const found = answered(worthOfTesting({ ...asked, lime: noAnswer("buffer pH was not measured") }));
  expect(found.value.lime).toBeUndefined();
  expect(found.value.left).toBeCloseTo(32.1051, 4);
  expect(found.cautions).toEqual(["Lime is not in the sum, because buffer pH was not measured."]);
});

it("has no answer without a price, a product, a rate, a coefficient, a yield or a cost of testing", () => {
  expectRefusal(worthOfTesting({ ...asked, fertilizers: [{ ...phosphate, pricePerTon: undefined }, potash] }), /not every product that it takes has a price: triple superphosphate/, "prices in farm.yaml");
  expect(worthOfTesting({ ...asked, fertilizers: [potash] }).kind).toBe("noAnswer");
  expectRefusal(worthOfTesting({ ...asked, advised: { P2O5: noAnswer("phosphorus was not tested", ["P"]), K2O: rate(0) } }), /^there is no phosphate rate: phosphorus was not tested$/, "P");
  expectRefusal(worthOfTesting({ ...asked, coefficients: [] }), /^none of the chosen guidelines says what a harvest takes away$/, "P₂O₅ removal of corn");
  expect(worthOfTesting({ ...asked, harvest: { ...asked.harvest, yield: undefined } }).kind).toBe("noAnswer");
  expectRefusal(worthOfTesting({ ...asked, testing: noAnswer("the fee is not recorded", ["fee"]) }), /^the fee is not recorded$/, "fee");
});

it("writes its sum in the farm's units and currency", () => {
  // An acre's 9.1051 is 22.4992 a hectare.
  const { steps } = answered(worthOfTesting({ ...asked, written: { units: "metric", currency: "EUR" } }));
  expect(steps.at(-1)).toMatchObject({ what: "Left, a hectare and year", result: "€22.50" });
  expect(JSON.stringify(steps.map((s) => [s.what, s.result, s.expression]))).not.toMatch(/acre|lb/);
});
