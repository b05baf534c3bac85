import { describe, expect, it } from "vitest";
import { farmFolder, linesAfter } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

/** Read within a test, which clears its folder away. */
type Lines = () => string[];

const { farm, field, sampling, season } = paths;

/** How much of a thing is a slip is common practice: far from what anyone does, and a warning, never an error. */
describe("an amount that nobody spreads", () => {
  const slurry = (rate: string, analysis = "perThousandGal: { N: 30, P2O5: 14, K2O: 25 }"): Lines => () =>
    farmFolder()
      .write(farm, `${tinyFarm[farm]!}  slurry:\n    kind: manure\n    name: dairy slurry\n    ${analysis}\n    density: { value: 8.3, unit: lb/gal }\n`)
      .write(season, tinyFarm[season]!.replace("product: potash", "product: slurry").replace("{ value: 100, unit: lb/ac }", rate))
      .lines();
  const potash = (rate: string): Lines => () => linesAfter(season, "{ value: 100, unit: lb/ac }", rate);
  const lime = (rate: string): Lines => () => farmFolder().write(season, tinyFarm[season]!.replace("product: potash", "product: ground-limestone").replace("{ value: 100, unit: lb/ac }", rate)).lines();
  const told = (words: string): string[] => [`${season}:11:20: applications[1].rate.value: warning: ${words}; is it a slip, or another unit?`];

  it.each([
    // 60 percent of 200,000 lb.
    ["tons for pounds", potash("{ value: 100, unit: ton/ac }"), "100 ton/ac of potash brings 120,000 lb/ac of potash, more than any crop is given"],
    ["a garden's unit for an acre's", potash("{ value: 100, unit: lb/1000 sq ft }"), "100 lb/1000 sq ft of potash brings 2,614 lb/ac of potash, more than any crop is given"],
    ["a point lost", potash("{ value: 1700, unit: kg/ha }"), "1,700 kg/ha of potash brings 1,020 kg/ha of potash, more than any crop is given"],
    // 46 percent of 2,000 lb; its nitrogen by itself would pass.
    ["phosphate alone", () => farmFolder().change(farm, "analysis: { N: 0, P2O5: 0, K2O: 60 }", "analysis: { N: 18, P2O5: 46, K2O: 0 }").write(season, tinyFarm[season]!.replace("value: 100, unit: lb/ac", "value: 1, unit: ton/ac")).lines(), "1 ton/ac of potash brings 920 lb/ac of phosphate, more than any crop is given"],
    ["gallons for thousands of them", slurry("{ value: 8, unit: gal/ac }"), "8 gal/ac is less of a liquid manure than is ever spread"],
    // 30 lb of nitrogen in 1,000 gallons.
    ["a nought too many", slurry("{ value: 80000, unit: gal/ac }"), "80,000 gal/ac of slurry brings 2,400 lb/ac of nitrogen, more than any crop is given"],
    ["an acre's pounds on a garden", slurry("{ value: 40000, unit: lb/1000 sq ft }", "perTon: { N: 10, P2O5: 5, K2O: 10 }"), "40,000 lb/1000 sq ft of slurry brings 8,712 lb/ac of nitrogen, more than any crop is given"],
    ["pounds of lime for tons", lime("{ value: 2, unit: lb/ac }"), "2 lb/ac is less lime than any soil is given"],
    ["tons of lime for pounds", lime("{ value: 4000, unit: ton/ac }"), "4,000 ton/ac is more lime than any soil is given"],
  ])("%s", (_, lines, words) => expect(lines()).toEqual(told(words)));

  it.each([
    ["potash for years to come", potash("{ value: 1600, unit: kg/ha }")],
    ["nothing", potash("{ value: 0, unit: lb/ac }")],
    ["no lime", lime("{ value: 0, unit: ton/ac }")],
    ["pelleted lime", lime("{ value: 150, unit: lb/ac }")],
    ["lime on sour ground", lime("{ value: 20, unit: ton/ac }")],
    ["slurry by the gallon", slurry("{ value: 3000, unit: gal/ac }")],
    ["slurry by weight", slurry("{ value: 30, unit: t/ha }")],
    // Two inches of compost weigh some 6,000 lb on 1,000 sq ft (common practice).
    ["compost on a new bed", slurry("{ value: 6000, unit: lb/1000 sq ft }", "perTon: { N: 20, P2O5: 14, K2O: 20 }")],
    ["no slurry", slurry("{ value: 0, unit: gal/ac }")],
  ])("not %s", (_, lines) => expect(lines()).toEqual([]));
});

describe("what is recorded twice counts twice", () => {
  const crop = "  - crop: corn\n    planted: 2025-05-06\n    harvested: 2025-10-10\n    yield: { value: 171, unit: bu/ac }\n";
  const load = "  - date: 2025-04-28\n    product: potash\n    zones: [west]\n    rate: { value: 100, unit: lb/ac }\n";
  const second = (text: string): string[] => linesAfter(season, "applications:\n", text.startsWith("  - crop") ? `${text}applications:\n` : `applications:\n${text}`);

  it("a crop, told at the second", () => {
    expect(second(crop)).toEqual([`${season}:7:5: crops[2]: warning: corn harvested on 2025-10-10 of zone "west" stands already in crops[1], and both count; keep one if it is one`]);
    expect(second(crop.replace("    planted", "    zones: [east]\n    planted"))).toEqual([`${season}:7:5: crops[2]: warning: corn harvested on 2025-10-10 of zone "east" stands already in crops[1], and both count; keep one if it is one`]);
  });

  it("a crop without days, unless another yield tells that it was another cut", () => {
    const cuts = (...yields: number[]): string[] => farmFolder().write(season, `season: 2025\ncrops:\n${yields.map((y) => `  - { crop: alfalfa, yield: { value: ${y}, unit: ton/ac } }\n`).join("")}`).lines();
    expect(cuts(2.1, 1.6)).toEqual([]);
    expect(cuts(2.1, 2.1)).toEqual([`${season}:4:5: crops[2]: warning: alfalfa of zone "west" stands already in crops[1], and both count; keep one if it is one`]);
  });

  it("a load, told at the second", () => {
    expect(second(load)).toEqual([`${season}:12:5: applications[2]: warning: the same rate of potash on 2025-04-28 of zone "west" stands already in applications[1], and both count; keep one if it is one`]);
  });

  it.each([
    ["another cut", crop.replace("harvested: 2025-10-10", "harvested: 2025-08-01")],
    ["another planting", crop.replace("planted: 2025-05-06", "planted: 2025-06-01")],
    ["another crop", crop.replace("corn", "soybean")],
    ["another day", load.replace("2025-04-28", "2025-04-29")],
    ["another zone", load.replace("west", "east")],
    ["another rate", load.replace("100", "120")],
    ["another product", load.replace("potash", "ground-limestone")],
  ])("not %s", (_, text) => expect(second(text)).toEqual([]));
});

describe("a year far after all the others", () => {
  it("of a sampling, from which every page would speak", () => {
    const later = (year: string) => farmFolder().write(`fields/north/samplings/${year}-10-18.yaml`, tinyFarm[sampling]!.replaceAll("2025", year).replace(/pH: [\d.]+/, "pH: 6.9")).lines();
    expect(later("2052")).toEqual(["fields/north/samplings/2052-10-18.yaml:1:1: date: warning: 2052-11-01 is 27 years after every other record, and every page speaks from it; is the year a slip?"]);
    expect(later("2040")).toEqual([]);
  });

  it("of a season whose harvest has a day, wherever its field stands among the others", () => {
    const harvested = (year: string) => `season: ${year}\ncrops: [{ crop: corn, harvested: ${year}-10-10 }]\n`;
    const south = farmFolder().write("fields/south/field.yaml", tinyFarm[field]!).write("fields/south/seasons/2024.yaml", harvested("2024"));
    expect(south.write("fields/north/seasons/2052.yaml", harvested("2052")).lines()).toEqual(["fields/north/seasons/2052.yaml:1:1: season: warning: 2052-10-10 is 27 years after every other record, and every page speaks from it; is the year a slip?"]);
  });

  it("after the day that was set to speak from is told, since it is shown and advised from all the same", () => {
    const told = "is of 2025-11-01, after 2025-10-26, the day to speak from; what is due is reckoned from that day, and later records are shown and advised from all the same";
    expect(farmFolder().lines({ today: "2025-10-26" })).toEqual([`${sampling}:1:1: date: warning: ${told}`]);
    for (const today of ["2025-11-01", "2026-03-01"]) expect(farmFolder().lines({ today })).toEqual([]);
  });

  it("of a season without a day, and of a plan", () => {
    expect(farmFolder().write("fields/north/seasons/2052.yaml", "season: 2052\ncrops: [{ crop: corn }]\n").lines()).toEqual(["fields/north/seasons/2052.yaml:1:1: season: warning: 2052 is 27 years ahead; is it a slip?"]);
    expect(linesAfter(field, "season: 2026", "season: 2062")).toEqual([`${field}:7:5: plan[1].season: warning: 2062 is 37 years ahead; is it a slip?`]);
    expect(linesAfter(field, "season: 2026", "season: 2040")).toEqual([]);
    // A farm that has nothing recorded yet has no day to count from.
    expect(farmFolder().remove("fields/north/samplings").remove("fields/north/seasons").lines()).toEqual([]);
  });
});

describe("percents written as shares of one", () => {
  const told = (line: string): string[] => [`farm.yaml:${line}: warning: looks like shares of one; in percent, 0.46 is 46`];
  const lime = (analysis: string): Lines => () => linesAfter(farm, "stated: { cce: 90 }", `analysis: ${analysis}`);
  it.each([
    ["a fertilizer", () => linesAfter(farm, "K2O: 60", "K2O: 0.6"), "13:15: products.potash.analysis"],
    ["lime", () => linesAfter(farm, "cce: 90", "cce: 0.9"), "9:20: products.ground-limestone.stated.cce"],
    ["analyzed lime", lime('{ cce: 0.9, moisture: 2, passing: { "8": 99 } }'), "9:22: products.ground-limestone.analysis.cce"],
    ["how fine it is", lime('{ cce: 90, moisture: 2, passing: { "8": 0.99, "60": 0.7 } }'), "9:48: products.ground-limestone.analysis.passing"],
  ])("%s", (_, lines, line) => expect(lines()).toEqual(told(line)));

  it("not of a weak liquid, nor of what holds none of these", () => {
    expect(linesAfter(farm, "{ N: 0, P2O5: 0, K2O: 60 }", "{ N: 0.5, P2O5: 0, K2O: 0.6 }")).toEqual([]);
    expect(linesAfter(farm, "K2O: 60", "K2O: 1")).toEqual([]);
    expect(linesAfter(farm, "K2O: 60", "K2O: 0")).toEqual([]);
    expect(lime('{ cce: 2, moisture: 0, passing: { } }')()).toEqual([]);
  });

  it("and no finer screen lets more through than a coarser one", () => {
    expect(lime('{ cce: 90, moisture: 2, passing: { "60": 90, "8": 70 } }')()).toEqual(["farm.yaml:9:56: products.ground-limestone.analysis.passing.60: is more than the 70 that pass 8 mesh, a coarser screen"]);
    expect(lime('{ cce: 90, moisture: 2, passing: { "8": 70, "60": 70, "100": 70 } }')()).toEqual([]);
  });
});

// ISO 4217 has no UDS.
it("a currency that there is not is doubted", () => {
  expect(linesAfter(paths.farm, "currency: USD", "currency: UDS")).toEqual(["farm.yaml:3:11: currency: warning: UDS is no currency that is known here, and every sum of money would bear it; is it a slip?"]);
  expect(linesAfter(paths.farm, "currency: USD", "currency: ISK")).toEqual([]);
});

it("a price may be as high as a tonne costs in any currency", () => {
  expect(linesAfter(farm, "name: muriate of potash", "name: muriate of potash\n    price: { value: 12500000, per: t }")).toEqual([]);
});
