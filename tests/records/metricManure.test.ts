import { describe, expect, it } from "vitest";
import type { BalancedId } from "../../src/interpretation/balance/balance.ts";
import { balanceBySeason } from "../../src/interpretation/balance/balance.ts";
import { manureMeasures, manureOf } from "../../src/interpretation/manure.ts";
import { convert } from "../../src/interpretation/units.ts";
import { manureSpread } from "../../src/views/advice/nitrateHistory.ts";
import { placeRecords } from "../../src/views/balance/placeRecords.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { answered } from "../support/outcomes.ts";
import { recompute } from "../support/recompute.ts";
import { always, between } from "../support/repeatable.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const cubic = "perCubicMeter: { N: 2.6, P2O5: 1.2, K2O: 2.5, ammoniumN: 1.4 }";
const liquid = (kilograms: number): string => `${cubic}\ndensity: { value: ${kilograms}, unit: kg/l }\nspecies: cattle`;
const solid = "perTonne: { N: 6, P2O5: 3.2, K2O: 8, ammoniumN: 1.2 }\nspecies: cattle\ndryMatter: 25";
const folder = (rest: string, rate: string) =>
  farmFolder()
    .write(paths.farm, `${tinyFarm[paths.farm]!}  slurry:\n    kind: manure\n    name: cattle slurry\n${rest.split("\n").map((line) => `    ${line}\n`).join("")}`)
    .write(paths.season, tinyFarm[paths.season]!.replace("product: potash", "product: slurry").replace("{ value: 100, unit: lb/ac }", rate));
const applied = (rest: string, rate: string, nutrient: BalancedId = "P2O5") => {
  const field = folder(rest, rate).read().farm!.fields[0]!;
  const { value, steps } = answered(balanceBySeason(placeRecords(field, field.zones[0]!), nutrient, [])[0]!.applied);
  return { kilograms: convert(value, "lb/ac", "kg/ha"), step: steps[0]! };
};

describe("manure as a metric laboratory prints it", () => {
  it("by the cubic meter: 30 m³/ha of 1.2 kg/m³ bring 36 kg/ha, whatever it weighs", () => {
    for (const density of [0.97, 1, 1.06]) {
      const { kilograms, step } = applied(liquid(density), "{ value: 30, unit: m3/ha }");
      expect(kilograms).toBeCloseTo(36, 9);
      expect(step).toMatchObject({ what: "cattle slurry, 2025-04-28: all that 30 m³/ha hold", expression: "30 m³ × 1.2 kg", result: "36 kg P₂O₅/ha" });
      expect(recompute(step)).toMatchObject({ computed: 36, printed: 36 });
    }
  });

  it("by the tonne: 25 t/ha of 8 kg/t bring 200 kg/ha", () => {
    const { kilograms, step } = applied(solid, "{ value: 25, unit: t/ha }", "K2O");
    expect(kilograms).toBeCloseTo(200, 9);
    expect(step).toMatchObject({ what: "cattle slurry, 2025-04-28: all that 25 t/ha hold", expression: "25 t × 8 kg", result: "200 kg K₂O/ha" });
  });

  it("by its elements, where the sheet states them: 30 m³ of 0.6 kg of P hold 18 kg, 41.2 of P₂O₅", () => {
    const elements = liquid(1).replace("P2O5: 1.2, K2O: 2.5", "P: 0.6, K: 3.5");
    const { kilograms, step } = applied(elements, "{ value: 30, unit: m3/ha }");
    expect(kilograms).toBeCloseTo(18 * 2.2914, 2);
    expect(step).toMatchObject({ expression: "30 m³ × 0.6 kg of P × 2.291", result: "41.2 kg P₂O₅/ha" });
    expect(applied(elements, "{ value: 30, unit: m3/ha }", "K2O").step).toMatchObject({ expression: "30 m³ × 3.5 kg of K × 1.205", result: "126.5 kg K₂O/ha" });
    expect(recompute(step)!.computed).toBeCloseTo(41.238, 9);
    // 0.6 kg in 1,000 kg are 1.2 lb in a ton of 2,000 lb.
    expect(folder(elements, "{ value: 30, unit: m3/ha }").read().farm!.products.get("slurry")!.manure!.perTon.P2O5).toBeCloseTo(1.2 * 2.2914, 3);
  });

  it.each([
    // 31.5 t of 1.05 kg/l are 30 m³; 30,000 l are 30 m³; 30 m³ of 0.9 kg/l are 27 t.
    [liquid(1.05), "{ value: 31.5, unit: t/ha }", 36, "31.5 t/ha, by its density 30 m³/ha,"],
    [liquid(1.05), "{ value: 30000, unit: l/ha }", 36, "30,000 l/ha"],
    [`${solid}\ndensity: { value: 0.9, unit: kg/l }`, "{ value: 30, unit: m3/ha }", 27 * 3.2, "30 m³/ha, by its density 27 t/ha,"],
    // 20 short tons of 8 lb/gal are 5,000 gal, which hold 5 x 10 lb.
    ["perThousandGal: { N: 22, P2O5: 10, K2O: 20, ammoniumN: 12 }\ndensity: { value: 8, unit: lb/gal }\nspecies: cattle", "{ value: 20, unit: ton/ac }", (5 * 10 * 0.45359237) / 0.40468564224, "20 ton/ac, by its density 5 thousand gal/ac,"],
    // Exact by definition: 1 US gallon an acre is 0.003785411784 m³ on 0.40468564224 ha.
    [liquid(1), "{ value: 4000, unit: gal/ac }", (4000 * 0.003785411784 * 1.2) / 0.40468564224, "4,000 gal/ac"],
  ])("spread by another measure, it is told in the one of its analysis: %#", (rest, rate, kilograms, said) => {
    const found = applied(rest, rate);
    expect(found.kilograms).toBeCloseTo(kilograms, 9);
    expect(found.step.what).toBe(`cattle slurry, 2025-04-28: all that ${said} hold`);
    expect(found.step.expression).toMatch(rest.includes("perThousandGal") ? /^5 thousand gal × 10 lb$/ : rest.includes("perTonne") ? /^[\d.]+ t × 3\.2 kg$/ : /^[\d.]+ m³ × 1\.2 kg$/);
  });

  it("is the same manure by every measure", () =>
    always([between(0.01, 60), between(0.5, 2.5), between(0.1, 90)], (kilograms, density, cubicMeters) => {
      const poundsPerGallon = convert(density, "kg/l", "lb/gal");
      const held = (amount: number) => ({ N: amount, P2O5: amount, K2O: amount, ammoniumN: amount });
      const written = { perCubicMeter: kilograms, perTonne: kilograms / density, perThousandGal: convert(kilograms, "kg/m3", "lb/1000 gal"), perTon: (kilograms / density) * 2 };
      const inTons = Object.entries(written).map(([measure, amount]) => manureOf(measure as keyof typeof written, held(amount), poundsPerGallon));
      for (const { perTon } of inTons) for (const amount of Object.values(perTon)) expect(Math.abs(amount / written.perTon - 1)).toBeLessThan(1e-12);
      const spread = { season: 2025, date: "2025-02-20", name: "slurry", rate: { value: cubicMeters * density, unit: "t/ha" }, volume: { value: cubicMeters, unit: "m3/ha" }, source: "common-practice" } as const;
      const brought = inTons.map((manure) => answered(balanceBySeason({ seasons: [2025], harvests: [], spreads: [{ ...spread, holds: { kind: "manure", ...manure } }] }, "N", [])[0]!.applied).value);
      for (const value of brought) expect(Math.abs(convert(value, "lb/ac", "kg/ha") / (cubicMeters * kilograms) - 1)).toBeLessThan(1e-12);
    }));

  it("has a measure for each of the schema's keys", () => expect(Object.keys(manureMeasures)).toEqual(["perTon", "perThousandGal", "perTonne", "perCubicMeter"]));
});

describe("the nitrogen rules, which read tons", () => {
  const found = (rest: string, rate: string) =>
    manureSpread(folder(rest, rate).write("fields/north/seasons/2024.yaml", "season: 2024\n").write("fields/north/seasons/2023.yaml", "season: 2023\n").read().farm!.fields[0]!, folder(rest, rate).read().farm!.fields[0]!.zones[0]!, 2025, "2025-06-10")![0]!;

  it("get the organic nitrogen of a cubic meter by the density, and say how", () => {
    // 1.2 kg of organic N in 1 m³ of 1,050 kg: 1.2 / 1050 x 2000 lb a ton; 30 m³ are 31.5 t.
    const manure = found(liquid(1.05), "{ value: 30, unit: m3/ha }");
    expect(manure).toMatchObject({ organicBy: "1.2 kg/m³ × 2 ÷ 1.05 kg/l", spread: "30 m³/ha, by its density 31.5 t/ha" });
    expect(manure.organicNitrogen).toBeCloseTo((1.2 / 1050) * 2000, 9);
    expect(manure.tonsPerAcre).toBeCloseTo(convert(31.5, "t/ha", "ton/ac"), 9);
  });

  it("get that of a tonne doubled, without a density", () => {
    const manure = found(solid, "{ value: 25, unit: t/ha }");
    expect(manure).toMatchObject({ organicBy: "4.8 kg/t × 2", spread: "25 t/ha" });
    expect(manure.organicNitrogen).toBeCloseTo(9.6, 9);
  });

  it("do not know it where the laboratory prints no ammonium", () => expect(found(liquid(1).replace(", ammoniumN: 1.4", ""), "{ value: 30, unit: m3/ha }").organicNitrogen).toBeUndefined());
});

describe("an analysis that cannot be read", () => {
  it.each([
    ["two measures", `${liquid(1)}\nperTonne: { N: 1, P2O5: 1, K2O: 1 }`, /products\.slurry\.perCubicMeter: stands beside perTonne; keep the one that the laboratory prints$/],
    ["no measure", "species: cattle", /products\.slurry: needs one of perTon, perThousandGal \(lb\), perTonne, perCubicMeter \(kg\)$/],
    ["no density", cubic, /products\.slurry\.density: is missing, and perCubicMeter needs it: weigh a bucket; slurry weighs about as much as water, \{ value: 1, unit: kg\/l \}$/],
    ["the other spelling of a meter", liquid(1).replace("perCubicMeter", "perCubicMetre"), /products\.slurry\.perCubicMetre: is not a key known here; did you mean perCubicMeter\?$/],
    ["a nutrient left out, which is not none", liquid(1).replace("P2O5: 1.2, ", ""), /products\.slurry\.perCubicMeter: needs P2O5 and K2O, or P and K where the sheet states elements; write 0 for a nutrient it does not hold$/],
    ["no nitrogen, which is not none", liquid(1).replace("N: 2.6, ", "").replace(", ammoniumN: 1.4", ""), /products\.slurry\.perCubicMeter\.N: is missing/],
    ["a nutrient both as oxide and as element", liquid(1).replace("P2O5: 1.2", "P2O5: 1.2, P: 0.5"), /products\.slurry\.perCubicMeter: needs P2O5 and K2O, or P and K/],
    ["ammonium above nitrogen", liquid(1).replace("ammoniumN: 1.4", "ammoniumN: 3"), /products\.slurry\.perCubicMeter\.ammoniumN: is more than N, which it is a part of$/],
  ])("is refused with %s, at its place", (_, rest, message) => {
    const lines = folder(rest, "{ value: 30, unit: t/ha }").lines();
    expect(lines).toEqual([expect.stringMatching(message)]);
  });

  it.each([
    ["a volume of what has no density", solid, "{ value: 30, unit: m3/ha }", /applications\[1\]\.rate\.unit: is by volume, and the weight of slurry is not known; give it density in farm\.yaml, such as \{ value: 1, unit: kg\/l \}, or write the rate by weight/],
    ["a unit as the sheet prints it", liquid(1), "{ value: 30, unit: m³/ha }", /rate\.unit: the text "m³\/ha" is not known; did you mean m3\/ha\?$/],
  ])("nor %s", (_, rest, rate, message) => expect(folder(rest, rate).lines().join("\n")).toMatch(message));
});
