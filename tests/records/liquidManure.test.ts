import { describe, expect, it } from "vitest";
import { balanceBySeason } from "../../src/interpretation/balance/balance.ts";
import { placeRecords } from "../../src/views/balance/placeRecords.ts";
import { manureSpread } from "../../src/views/advice/nitrateHistory.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { answered } from "../support/outcomes.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const slurry = (rest: string): string => `${tinyFarm[paths.farm]!}  slurry:
    kind: manure
    name: dairy slurry
${rest.split("\n").map((line) => `    ${line}`).join("\n")}
`;
const spread = (rate: string): string => tinyFarm[paths.season]!.replace("product: potash", "product: slurry").replace("{ value: 100, unit: lb/ac }", rate);
const folder = (rest: string, rate = "{ value: 4000, unit: gal/ac }") => farmFolder().write(paths.farm, slurry(rest)).write(paths.season, spread(rate));
const field = (...args: Parameters<typeof folder>) => folder(...args).read().farm!.fields[0]!;
const phosphate = (...args: Parameters<typeof folder>) => {
  const one = field(...args);
  const [season] = balanceBySeason(placeRecords(one, one.zones[0]!), "P2O5", []);
  return answered(season!.applied);
};
const byVolume = (density: string): string => `perThousandGal: { N: 30, P2O5: 28.1, K2O: 25, ammoniumN: 14 }\ndensity: ${density}\nspecies: cattle`;

describe("manure spread by the gallon", () => {
  it("weighs what its density says: 12.2 lb in 1,000 gal are 2.9 lb in a ton, at 8.3 lb a gallon", () => {
    // Livestock and Poultry Environmental Learning Center, "Common manure test results conversions", examples A and B of one sample (read).
    const { manure } = folder("perThousandGal: { N: 0, P2O5: 12.2, K2O: 0 }\ndensity: { value: 8.3, unit: lb/gal }").read().farm!.products.get("slurry")!;
    expect(manure!.perTon.P2O5).toBeCloseTo(2.94, 2);
  });

  it("brings its analysis times its thousands of gallons, whatever it weighs", () => {
    // The same page: 28.1 lb P2O5 in 1,000 gal, and that such manure weighs 8 to 9 lb a gallon; 4 x 28.1 = 112.4.
    for (const density of ["{ value: 8, unit: lb/gal }", "{ value: 9, unit: lb/gal }", "{ value: 1, unit: kg/l }"]) {
      const { value, steps } = phosphate(byVolume(density));
      expect(value).toBeCloseTo(112.4, 9);
      expect(steps[0]).toMatchObject({ what: "dairy slurry, 2025-04-28: all that 4,000 gal/ac hold", expression: "4 thousand gal × 28.1 lb", result: "112.4 lb P₂O₅/ac" });
    }
  });

  it("may be recorded by liters, or by weight with its density", () => {
    // 3.785411784 l in a gallon and 0.40468564224 ha in an acre, exact by definition: 37,416 l/ha are 4,000 gal/ac.
    expect(phosphate(byVolume("{ value: 8.3, unit: lb/gal }"), "{ value: 37415.96, unit: l/ha }").value).toBeCloseTo(112.4, 3);
    // 4,000 gal of 8.3 lb are 16.6 tons.
    expect(phosphate(byVolume("{ value: 8.3, unit: lb/gal }"), "{ value: 16.6, unit: ton/ac }").value).toBeCloseTo(112.4, 9);
    expect(phosphate("perTon: { N: 0, P2O5: 6.7, K2O: 0 }\ndensity: { value: 8.3, unit: lb/gal }").value).toBeCloseTo(16.6 * 6.7, 9);
  });

  it("gives the nitrogen rules its tons and organic nitrogen, with how that was worked out", () => {
    const one = field(byVolume("{ value: 8.3, unit: lb/gal }"));
    const farm = folder(byVolume("{ value: 8.3, unit: lb/gal }")).write("fields/north/seasons/2024.yaml", "season: 2024\ncrops:\n  - crop: corn\n").write("fields/north/seasons/2023.yaml", "season: 2023\ncrops:\n  - crop: corn\n");
    const [found] = manureSpread(farm.read().farm!.fields[0]!, one.zones[0]!, 2025, "2025-06-10")!;
    // Advice that was sealed keeps these very facts, to the last digit: another one among them would be told as a change of the records.
    expect(Object.keys(found!)).toEqual(["name", "yearsAgo", "tonsPerAcre", "nitrogen", "organicNitrogen", "organicBy", "species", "dryMatter", "source"]);
    expect(found!.organicNitrogen).toBe(30 / 4.15 - 14 / 4.15);
    expect(found).toMatchObject({ tonsPerAcre: 16.6, organicBy: "16 lb per 1,000 gal × 2 ÷ 8.3 lb/gal", species: "cattle" });
    // Either way round, 4 thousand gallons hold 64 lb of organic nitrogen.
    expect(found!.tonsPerAcre * found!.organicNitrogen!).toBeCloseTo(64, 9);
  });

  it.each([
    ["an analysis by neither", "species: cattle", /products\.slurry: needs one of perTon, perThousandGal \(lb\), perTonne, perCubicMeter \(kg\)$/],
    ["an analysis by both", `perTon: { N: 1, P2O5: 1, K2O: 1 }\n${byVolume("{ value: 8.3, unit: lb/gal }")}`, /products\.slurry\.perThousandGal: stands beside perTon; keep the one that the laboratory prints$/],
    ["no density", "perThousandGal: { N: 30, P2O5: 20, K2O: 25 }", /products\.slurry\.density: is missing, and perThousandGal needs it: weigh a bucket; slurry weighs about as much as water, \{ value: 8\.3, unit: lb\/gal \}$/],
    ["a price by the gallon of what has no density", "perTon: { N: 1, P2O5: 1, K2O: 1 }\nprice: { value: 0.02, per: gal }", /products\.slurry\.price\.per: a price by volume needs density/],
    ["ammonium above nitrogen", "perThousandGal: { N: 10, P2O5: 20, K2O: 25, ammoniumN: 12 }\ndensity: { value: 8.3, unit: lb/gal }", /perThousandGal\.ammoniumN: is more than N, which it is a part of$/],
    ["gallons of what has no density", "perTon: { N: 1, P2O5: 1, K2O: 1 }", /applications\[1\]\.rate\.unit: is by volume, and the weight of slurry is not known; give it density in farm\.yaml, such as \{ value: 8\.3, unit: lb\/gal \}, or write the rate by weight/],
  ])("is refused with %s, at its place", (_, rest, message) => {
    const lines = folder(rest).lines();
    expect(lines).toHaveLength(1);
    expect(lines[0]).toMatch(message);
  });
});
