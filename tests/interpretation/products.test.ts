import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { productsCheck } from "../../src/interpretation/checks/productsCheck.ts";
import type { Analysis, Fertilizer, Need } from "../../src/interpretation/products.ts";
import { analysisLabel, leastCostProducts, shareOf, suppliesOf } from "../../src/interpretation/products.ts";
import { checkedAsPublished } from "../support/cases.ts";
import { farmFile } from "../support/limePlace.ts";
import { answered, expectRefusal } from "../support/outcomes.ts";
import { recompute } from "../support/recompute.ts";
import { always, between } from "../support/repeatable.ts";

describe("products that meet a rate, as published", () => {
  checkedAsPublished(productsCheck);
});

const product = (id: string, analysis: Analysis, pricePerTon?: number): Fertilizer => ({ id, name: id, analysis, source: farmFile, pricePerTon });
const mop = product("mop", { N: 0, P2O5: 0, K2O: 60 }, 450);
const tsp = product("tsp", { N: 0, P2O5: 46, K2O: 0 }, 610);
const dap = product("dap", { N: 18, P2O5: 46, K2O: 0 }, 640);
const urea = product("urea", { N: 46, P2O5: 0, K2O: 0 }, 560);
const need = (nutrient: Need["nutrient"], value: number, unit: Need["rate"]["unit"] = "lb/ac"): Need => ({ nutrient, rate: { value, unit }, steps: [] });
const bought = (needs: Need[], list: Fertilizer[]) => {
  const { products, ...rest } = answered(leastCostProducts(needs, list)).value;
  return { amounts: Object.fromEntries(products.map((p) => [p.fertilizer.id, Number(p.rate.value.toFixed(3))])), ...rest };
};

describe("the least cost", () => {
  it("takes the nitrogen of a phosphate into account", () => {
    // 100 lb of P2O5 is 217.39 lb of DAP, which brings 39.13 lb of N; the other 60.87 lb is 132.33 lb of urea.
    const { amounts, costPerAcre, least } = bought([need("N", 100), need("P2O5", 100)], [urea, tsp, dap]);
    expect(amounts).toEqual({ dap: 217.391, urea: 132.325 });
    expect(costPerAcre).toBeCloseTo((217.391 * 640 + 132.325 * 560) / 2000, 2);
    expect(least).toBe("cost");
  });

  it("brings just what was asked, which the solver misses by a billionth: 88.5 kg/ha was told as 89 to apply and as 88 brought", () => {
    const { supplies } = bought([need("P2O5", 88.5, "kg/ha"), need("K2O", 90.25, "kg/ha")], [tsp, mop]);
    for (const { given, asked } of supplies) expect(given).toBe(asked);
  });

  it("takes the plain phosphate where nitrogen is not asked for and it is cheaper", () => expect(bought([need("P2O5", 92)], [dap, tsp]).amounts).toEqual({ tsp: 200 }));

  it("settles a tie by id, whatever the order of the list", () => {
    const twins = [product("b", { N: 0, P2O5: 0, K2O: 60 }, 450), product("a", { N: 0, P2O5: 0, K2O: 60 }, 450)];
    expect(bought([need("K2O", 60)], twins).amounts).toEqual({ a: 100 });
    expect(bought([need("K2O", 60)], [...twins].reverse()).amounts).toEqual({ a: 100 });
  });

  it("tells what comes along that was not asked for", () => {
    const { supplies } = bought([need("P2O5", 46)], [dap]);
    expect(supplies).toEqual([
      { nutrient: "N", asked: 0, given: expect.closeTo(18, 9) as number },
      { nutrient: "P2O5", asked: 46, given: expect.closeTo(46, 9) as number },
    ]);
  });

  it("tells what comes along though a guideline calls for none of it, as of phosphate on a soil that has enough", () => {
    const grade = product("6-24-24", { N: 6, P2O5: 24, K2O: 24 }, 520);
    const { supplies } = bought([need("P2O5", 0), need("K2O", 88.4)], [grade]);
    expect(supplies).toEqual([
      { nutrient: "N", asked: 0, given: expect.closeTo(22.1, 6) as number },
      { nutrient: "P2O5", asked: 0, given: expect.closeTo(88.4, 6) as number, needless: true },
      { nutrient: "K2O", asked: 88.4, given: 88.4 },
    ]);
    const { steps } = answered(leastCostProducts([need("P2O5", 0), need("K2O", 88.4)], [grade]));
    expect(steps.map((s) => s.what)).toContain("P₂O₅ brought along, more than is called for");
    expect(bought([need("P2O5", 0), need("K2O", 60)], [mop]).supplies.map((s) => s.nutrient)).toEqual(["K2O"]);
  });

  it("reads elements where the label or the rate states elements", () => {
    const irish = product("18-6-12", { N: 18, P: 6, K: 12 }, 500);
    expect(bought([need("P", 20, "kg/ha")], [irish]).amounts["18-6-12"]).toBeCloseTo(20 / 0.06 / 1.120851, 2);
    expect(shareOf(irish.analysis, "K2O")).toBeCloseTo(14.455, 3);
    expect(shareOf(mop.analysis, "K")).toBeCloseTo(49.81, 2);
    expect(analysisLabel(irish.analysis)).toBe("18-6-12 (N-P-K)");
    expect(analysisLabel({ N: 0, P2O5: 0, K2O: 22, S: 22, Mg: 11 })).toBe("0-0-22 + 11 Mg + 22 S");
    // The record takes each of the two either way; a label with a share left out would be another product's.
    expect(analysisLabel({ N: 11, P2O5: 52, K: 0 })).toBe("11-52-0");
    expect(analysisLabel({ N: 0, P: 0, K2O: 60 })).toBe("0-0-60");
    // K2O holds 83.01 percent of potassium by atomic weights: 24.91 of the oxide hold 20.68 of the element.
    expect(analysisLabel({ N: 0, P2O5: 10, K: 20.68 })).toBe("0-10-24.91");
  });

  it("counts sulfur stated as sulfur trioxide, and magnesium stated as its oxide, and neither twice", () => {
    const kieserite = product("kieserite", { N: 0, P2O5: 0, K2O: 0, MgO: 25, SO3: 50 }, 300);
    expect(shareOf(kieserite.analysis, "S")).toBeCloseTo(20.02, 2);
    expect(shareOf(kieserite.analysis, "Mg")).toBeCloseTo(15.08, 2);
    expect(bought([need("S", 20)], [kieserite]).amounts.kieserite).toBeCloseTo(99.9, 1);
    expect(suppliesOf([{ fertilizer: kieserite, rate: { value: 100, unit: "lb/ac" } }], [need("S", 20)]).map((s) => s.nutrient)).toEqual(["MgO", "S"]);
  });

  it("leaves products without a price out where the others suffice, and takes the least weight where they do not", () => {
    expect(bought([need("K2O", 60)], [mop, product("cheap", { N: 0, P2O5: 0, K2O: 62 })]).amounts).toEqual({ mop: 100 });
    const bare = bought([need("P2O5", 46), need("K2O", 60)], [mop, product("tsp", tsp.analysis), product("rock", { N: 0, P2O5: 3, K2O: 0 })]);
    expect(bare).toMatchObject({ amounts: { mop: 100, tsp: 100 }, least: "weight", costPerAcre: undefined });
  });
});

describe("no answer", () => {
  it("names the nutrient that nothing supplies", () => expectRefusal(leastCostProducts([need("K2O", 60), need("P2O5", 40)], [tsp]), /^there is nothing on the farm's list that supplies potash$/, "a product that supplies potash"));
  it("where nothing is asked for", () => expectRefusal(leastCostProducts([need("K2O", 0)], [mop]), /^nothing is asked for$/));
});

const anyProduct = fc.record({ N: between(0, 30), P2O5: between(0, 30), K2O: between(0, 30), price: between(100, 1500) });

it("meets every need, and no other mix of the same products that meets them is cheaper", () =>
  always([fc.array(anyProduct, { minLength: 1, maxLength: 8 }), between(1, 200), between(0, 200), between(0, 200), fc.array(between(0, 2000), { minLength: 8, maxLength: 8 })], (list, n, p, k, other) => {
    const products = list.map(({ price, ...analysis }, i) => product(`p${i}`, analysis, price));
    const needs = [need("N", n), need("P2O5", p), need("K2O", k)];
    const outcome = leastCostProducts(needs, products);
    if (outcome.kind === "noAnswer") return;
    for (const { asked, given } of outcome.value.supplies) expect(given).toBeGreaterThanOrEqual(asked - 1e-4);
    const mix = products.map((fertilizer, i) => ({ fertilizer, rate: { value: other[i]!, unit: "lb/ac" as const } }));
    if (suppliesOf(mix, needs).some((s) => s.given < s.asked)) return;
    const price = mix.reduce((sum, m) => sum + (m.rate.value / 2000) * m.fertilizer.pricePerTon!, 0);
    expect(outcome.value.costPerAcre!).toBeLessThanOrEqual(price * (1 + 1e-4) + 1e-6);
  }));

it("prints sums that come to the result beside them", () => {
  const { steps } = answered(leastCostProducts([need("N", 100), need("P2O5", 100), need("K2O", 55)], [urea, tsp, dap, mop]));
  const sums = steps.flatMap((step) => recompute(step) ?? []);
  expect(sums.length).toBe(4);
  for (const { computed, printed, within } of sums) expect(Math.abs(computed - printed)).toBeLessThanOrEqual(within);
});

describe("the lines of the sum are in the farm's units and currency", () => {
  const cost = (...written: Parameters<typeof leastCostProducts>[2][]) => written.map((w) => answered(leastCostProducts([need("K2O", 60)], [mop], w)).steps.at(-1)!);
  // 100 lb/ac at 450 a ton: 22.50 an acre, 55.60 a hectare (100 lb/ac are 112.085 kg/ha, 450 a short ton are 496.04 a tonne), 0.52 for 1,000 sq ft.
  it("dollars an acre, pounds a hectare, euros for 1,000 sq ft", () => {
    const price = mop.pricePerTon!;
    const steps = cost({ units: "us", currency: "USD" }, { units: "metric", currency: "GBP" }, { units: "garden", currency: "EUR" }, { units: "us", currency: "NOK" });
    expect(steps.map((s) => s.what.split(",")[0])).toEqual(["Cost an acre", "Cost a hectare", "Cost for 1", "Cost an acre"]);
    expect(steps[0]).toMatchObject({ expression: `100 ÷ 2,000 × $${price.toFixed(2)}`, result: `$${(price / 20).toFixed(2)}` });
    expect(steps[1]!.expression).toMatch(/^112\.1 ÷ 1,000 × £/);
    expect(steps[1]!.result).toBe(`£${((price / 20) / 0.40468564224).toFixed(2)}`);
    expect(steps[2]).toMatchObject({ expression: `2.3 ÷ 2,000 × €${price.toFixed(2)}`, result: `€${(price / 20 / 43.56).toFixed(2)}` });
    expect(steps[3]!.result).toBe(`${(price / 20).toFixed(2)} NOK`);
  });
  it("says a need that was asked for in another unit again in the farm's", () => {
    const { steps } = answered(leastCostProducts([need("K2O", 100, "kg/ha")], [mop], { units: "us", currency: "USD" }));
    expect(steps[0]).toEqual({ what: "The same in lb/ac", result: "89.22 lb/ac" });
  });
});
