import { expect, it } from "vitest";
import { answer } from "../../src/interpretation/outcome.ts";
import { zoneProducts } from "../../src/views/advice/productsView.ts";
import { latestAdvice } from "../../src/views/advice/sample.ts";
import { spreadRate } from "../../src/views/season/seasonAmounts.ts";
import { gardenFarm, library } from "../support/gardenFarm.ts";

/** What to buy where a guideline asks for `pounds` of boron an acre, in each of two kinds of units. */
const boron = (pounds: number) => {
  const read = gardenFarm().read({ library }).farm!;
  const potash = read.products.get("potash")!;
  const borax = { ...potash, id: "borax", fertilizer: { ...potash.fertilizer!, id: "borax", name: "borax, 11 B", analysis: { B: 11 } } };
  const [field] = read.fields;
  const found = latestAdvice(read, field!, field!.zones[0]!)!;
  const rates = [{ ...found.advice.rates[0]!, nutrient: "B" as const, analyte: "B" as const, outcome: answer({ rate: { value: pounds, unit: "lb/ac" as const } }, []) }];
  const zone = { ...found, advice: { ...found.advice, rates } };
  return (["us", "garden"] as const).map((units) => zoneProducts({ ...read, units, products: new Map([["borax", borax]]) }, zone).rows[0]!);
};

// 1.5 lb of boron an acre are 1.5 / 0.11 = 13.6 lb of borax; an acre is 43.56 times 1,000 sq ft: 0.313 lb of borax, and 0.034 lb of boron.
it("shows a small product, and what it brings, with two figures that count", () => {
  const [acre, garden] = boron(1.5);
  expect([acre!.value, garden!.value]).toEqual(["14", "0.31"]);
  expect(acre!.detail).toMatch(/^of borax, 11 B; supplies 1\.5 lb\/ac of B;/);
  expect(garden!.detail).toMatch(/^of borax, 11 B; supplies 0\.034 lb\/1000 sq ft of B;/);
});

// 0.5 / 0.11 = 4.5 lb; as a whole number it would be a tenth more.
it("rounds no small rate to whole pounds on a page of the season", () => {
  expect(boron(0.5)[0]!.value).toBe("4.5");
  expect(spreadRate("fertilizer", 0.5 / 0.11, "us").value).toBe("4.5");
  expect(spreadRate("fertilizer", 5, "garden").value).toBe("0.11");
});
