import * as z from "zod";
import type { Fertilizer, Need } from "../products.ts";
import { leastCostProducts, perGallon, suppliesOf } from "../products.ts";
import { convert, rateUnits } from "../units.ts";
import type { SuppliedId } from "../vocabulary.ts";
import { suppliedIds } from "../vocabulary.ts";
import type { CheckKind } from "./check.ts";
import { near, published, valueOf } from "./check.ts";

const perNutrient = z.partialRecord(z.enum(suppliedIds), z.number());
const amounts = z.record(z.string(), z.number());
const shape = published.extend({
  input: z.strictObject({
    unit: z.enum(rateUnits).default("lb/ac"),
    need: perNutrient,
    given: amounts.optional(),
    products: z.record(z.string(), perNutrient),
    prices: amounts.optional(),
    densities: amounts.optional().describe("lb/gal"),
  }),
  expect: z.strictObject({
    amounts: amounts.optional(),
    supplied: perNutrient.optional(),
    over: perNutrient.optional(),
    costPerAcre: z.number().optional(),
    perGallon: z.record(z.string(), perNutrient).optional().describe("lb of each nutrient in a gallon"),
  }),
});
type ProductsCase = z.infer<typeof shape>;

export const productsCheck: CheckKind<ProductsCase> = {
  file: "products",
  list: "cases",
  title: "Products that meet a rate",
  shape,
  run: (c) => {
    const { unit, need, given, products, prices, densities } = c.input;
    const fertilizers = Object.entries(products).map(([id, analysis]): Fertilizer => ({
      id,
      name: id,
      analysis,
      source: "common-practice",
      pricePerTon: prices?.[id],
      poundsPerGallon: densities?.[id],
    }));
    const needs = Object.entries(need).map(([nutrient, value]): Need => ({
      nutrient: nutrient as Need["nutrient"],
      rate: { value, unit },
      steps: [],
    }));
    const back = (pounds: number): number => convert(pounds, "lb/ac", unit);
    if (given) {
      const spread = fertilizers.flatMap((fertilizer) =>
        given[fertilizer.id] === undefined
          ? []
          : [{ fertilizer, rate: { value: convert(given[fertilizer.id]!, unit, "lb/ac"), unit: "lb/ac" as const } }],
      );
      const supplies = suppliesOf(spread, needs);
      const of = (id: string) => supplies.find((s) => s.nutrient === id);
      return [
        ...Object.entries(c.expect.supplied ?? {}).map(([id, wanted]) => near(id, of(id) && back(of(id)!.given), wanted, c)),
        ...Object.entries(c.expect.over ?? {}).map(([id, wanted]) =>
          near(`${id} over what is asked`, of(id) && back(of(id)!.given - of(id)!.asked), wanted, c),
        ),
      ];
    }
    if (c.expect.perGallon)
      return Object.entries(c.expect.perGallon).flatMap(([id, wanted]) => {
        const liquid = fertilizers.find((f) => f.id === id)!;
        return Object.entries(wanted).map(([nutrient, pounds]) =>
          near(`${id}, lb of ${nutrient} a gallon`, perGallon(liquid, nutrient as SuppliedId), pounds, c),
        );
      });
    return valueOf(leastCostProducts(needs, fertilizers), (purchase) => [
      ...Object.entries(c.expect.amounts ?? {}).map(([id, wanted]) => {
        const bought = purchase.products.find((p) => p.fertilizer.id === id);
        return near(id, bought && back(bought.rate.value), wanted, c);
      }),
      ...(c.expect.costPerAcre === undefined ? [] : [near("cost an acre", purchase.costPerAcre, c.expect.costPerAcre, c)]),
    ]);
  },
};
