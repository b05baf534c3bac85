import { describe, expect, it } from "vitest";
import { fieldView } from "../../../src/views/field/field.ts";
import { liquidPrice, liquidRate, liquidVolume } from "../../../src/views/advice/liquid.ts";
import { seasonView } from "../../../src/views/season/season.ts";
import { spreaderSheets } from "../../../src/views/season/seasonSheets.ts";
import { gardenFarm, library } from "../../support/gardenFarm.ts";

/** 28 percent solution by its printed density: 3.346 gal/ac bring 10 lb of nitrogen. */
const solution = { poundsPerGallon: 10.67 };

describe("a liquid by volume", () => {
  it("is told for the area rates are told for", () => {
    expect(liquidRate(solution, 266.75, "us")).toBe("25.0 gal/ac");
    // 266.75 lb/ac are 298.99 kg/ha, at 1.27854 kg/l.
    expect(liquidRate(solution, 266.75, "metric")).toBe("233.8 l/ha");
    expect(liquidRate(solution, 266.75, "garden")).toBe("0.57 gal/1000 sq ft");
  });
  it("is told in all, and priced as it is sold", () => {
    expect(liquidVolume(solution, 10670, "us")).toBe("1,000 gal");
    expect(liquidVolume(solution, 10670, "metric")).toBe("3,785 l");
    expect(liquidPrice(solution, 300, "us", "USD")).toBe("$1.60 per gal");
    expect(liquidPrice(solution, 300, "metric", "EUR")).toBe("€0.42 per l");
  });
  it("is not guessed without a density", () => {
    expect(liquidRate({}, 100, "us")).toBeUndefined();
    expect(liquidVolume({}, 100, "us")).toBeUndefined();
    expect(liquidPrice({}, 100, "us", "USD")).toBeUndefined();
  });
});

const farmFile = `name: Tiny Farm
units: us
currency: USD
guidelines: [us-tristate-974-2020, us-oregon-lime-2025]
products:
  potash:
    kind: fertilizer
    name: muriate of potash
    price: { value: 1.2, per: gal }
    density: { value: 12, unit: lb/gal }
    analysis: { N: 0, P2O5: 0, K2O: 15 }
`;
const farmOf = (text: string) => gardenFarm().write("farm.yaml", text);

describe("a farm that buys its potash as a liquid", () => {
  const read = () => farmOf(farmFile).read({ library });
  const gallons = (text: string): number => Number(/([\d,]+) gal\b(?!\/)/.exec(text)![1]!.replaceAll(",", ""));

  it("is read without a word, and a price by the gallon is one for its weight", () => {
    const { farm, problems } = read();
    expect(problems).toEqual([]);
    // 1.20 for 12 lb is 0.10 a pound, 200 a short ton.
    expect(farm!.products.get("potash")!.fertilizer!.pricePerTon).toBeCloseTo(200, 9);
  });

  it("shows gallons beside pounds in the advice, with the sum", () => {
    const { farm } = read();
    const row = fieldView(farm!, farm!.fields.find((f) => f.id === "north")!).advice.flatMap((z) => z.rows).find((r) => r.id.endsWith("-product"))!;
    expect(row.detail).toMatch(/^of muriate of potash \([\d.]+ gal\/ac\); supplies/);
    const [, rate] = /\(([\d.]+) gal\/ac\)/.exec(row.detail)!;
    expect(Number(rate)).toBeCloseTo(Number(row.value) / 12, 0);
    expect(row.steps.map((s) => `${s.what}: ${s.result}`).join("\n")).toMatch(/The same by volume, at 12 lb\/gal: [\d.]+ gal\/ac/);
    expect(row.steps.find((s) => s.what.startsWith("The same by volume"))!.note).toMatch(/a gallon holds 1\.8 lb of K₂O/i);
  });

  it("shows them in what to buy, in the season's table and on the driver's sheet, and they add up", () => {
    const { farm } = read();
    const view = seasonView(farm!);
    const bought = view.toBuy.find((b) => b.name.startsWith("Muriate") && b.where === "")!;
    expect(bought.price).toBe("$1.20 per gal");
    const notes = view.products.find((t) => t.heads.rate === "lb/ac")!.groups.flatMap((g) => g.rows.flatMap((r) => r.notes.filter((n) => n.startsWith("By volume"))));
    expect(notes.length).toBeGreaterThan(0);
    const sheet = spreaderSheets(farm!).find((s) => s.heads.rate === "lb/ac" && s.title.startsWith("Muriate"))!;
    const each = sheet.rows.map((r) => gallons(r.volume.split(", ")[1]!));
    expect(notes.map((n) => gallons(n.split(", ")[1]!))).toEqual(each);
    expect(Math.abs(each.reduce((a, b) => a + b, 0) - gallons(bought.load))).toBeLessThanOrEqual(each.length);
  });

  it.each([
    ["a price by the gallon without a density", "    density: { value: 12, unit: lb/gal }\n", "", /products\.potash\.price\.per: a price by volume needs density/],
    ["a density in the wrong unit", "{ value: 12, unit: lb/gal }", "{ value: 12, unit: kg/l }", /products\.potash\.density\.value: is lighter or heavier than any liquid that is spread/],
    // Water: 1 kg a liter, and 8.3 lb a gallon.
    ["the same the other way round", "{ value: 12, unit: lb/gal }", "{ value: 1, unit: lb/gal }", /products\.potash\.density\.value: is lighter or heavier than any liquid that is spread/],
  ])("refuses %s", (_, from, to, told) => expect(farmOf(farmFile.replace(from, to)).lines({ library }).join("\n")).toMatch(told));
});
