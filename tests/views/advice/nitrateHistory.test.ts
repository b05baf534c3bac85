import { describe, expect, it } from "vitest";
import type { Application, Field, FarmProduct, GrownCrop, Sampling, Season, Zone } from "../../../src/records/model.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { manureOf } from "../../../src/interpretation/manure.ts";
import { manureFound, manureSpread, nitrateHistory } from "../../../src/views/advice/nitrateHistory.ts";

const origin = { file: "fields/north/seasons/2025.yaml", line: 3, column: 5 };
const zone = { id: "hill", letter: "A", name: "Hill", soil: { texture: "siltLoam", origins: {} } } as Zone;
const urea: FarmProduct = { id: "urea", product: { kind: "fertilizer", name: "urea", analysis: { N: 46, P2O5: 0, K2O: 0 } }, origin, fertilizer: { id: "urea", name: "urea", analysis: { N: 46 }, source: { record: origin } } };
const slurry: FarmProduct = { id: "slurry", product: { kind: "manure", name: "dairy manure", perTon: { N: 10, P2O5: 4, K2O: 8, ammoniumN: 4 }, species: "cattle", dryMatter: 12 }, manure: manureOf("perTon", { N: 10, P2O5: 4, K2O: 8, ammoniumN: 4 }, undefined), origin };

const grown = (crop: CropId, year: number, over: Partial<GrownCrop> = {}): GrownCrop => ({ crop, zones: ["hill"], planted: `${year}-05-01`, harvested: `${year}-10-01`, origin, ...over });
const spread = (product: FarmProduct, date: string, over: Partial<Application> = {}): Application => ({ date, product, zones: ["hill"], rate: { value: 10, unit: "ton/ac" }, origin, ...over });
const season = (year: number, crop: CropId, applications: Application[] = [], over: Partial<GrownCrop> = {}): Season => ({ season: year, file: `${year}.yaml`, crops: [grown(crop, year, over)], applications });
const fieldOf = (...seasons: Season[]) => ({ id: "north", zones: [zone], formerZones: [], laterZones: [], seasons, samplings: [] }) as unknown as Field;
const of = (field: Field, sampling?: Sampling) => nitrateHistory(field, zone, 2025, "2025-06-11", sampling, undefined);
const values = (field: Field, sampling?: Sampling) => Object.fromEntries(Object.entries(of(field, sampling)).map(([fact, known]) => [fact, known.value]));
const five = (crop: CropId) => [2020, 2021, 2022, 2023, 2024].map((year) => season(year, crop));

describe("what the seasons say for a nitrate test", () => {
  it("five years of corn without manure", () =>
    expect(values(fieldOf(...five("corn"), season(2025, "corn", [], { harvested: "2025-10-10" })))).toEqual({
      texture: "siltLoam",
      previousCrop: "corn",
      manuredSinceHarvest: "no",
      manuredBefore: "no",
      manureYears: 0,
      sinceSod: 6,
      fertilizerOnlyYears: 5,
      earlyNitrogen: 0,
    }));

  it("manure since the harvest, and before it", () => {
    const [a, b, c, d, e] = five("corn");
    const with2024 = { ...e!, applications: [spread(slurry, "2024-11-02")] };
    expect(values(fieldOf(a!, b!, c!, d!, with2024, season(2025, "corn")))).toMatchObject({ manuredSinceHarvest: "yes", manuredBefore: "no", manureYears: 1, fertilizerOnlyYears: 0 });
    const with2022 = { ...c!, applications: [spread(slurry, "2022-04-02")] };
    expect(values(fieldOf(a!, b!, with2022, d!, e!, season(2025, "corn")))).toMatchObject({ manuredSinceHarvest: "no", manuredBefore: "yes", manureYears: 1, fertilizerOnlyYears: 2 });
  });

  it("manure on another zone does not count", () => {
    const other = { ...season(2024, "corn"), applications: [spread(slurry, "2024-11-02", { zones: ["dale"] })] };
    expect(values(fieldOf(...five("corn").slice(0, 4), other, season(2025, "corn")))).toMatchObject({ manuredSinceHarvest: "no", manureYears: 0 });
  });

  it.each(["alfalfa", "clover", "grassHay"] as const)("sod last year, of %s, is one year since sod", (previousCrop) => expect(values(fieldOf(season(2023, "corn"), season(2024, previousCrop), season(2025, "corn")))).toMatchObject({ sinceSod: 1, previousCrop, fertilizerOnlyYears: 0 }));

  it("fertilizer nitrogen between harvest and test, and none after it", () => {
    const lb = (value: number) => ({ rate: { value, unit: "lb/ac" as const } });
    const applications = [spread(urea, "2025-05-05", lb(100)), spread(urea, "2025-06-14", lb(100))];
    const earlier = { ...season(2024, "corn"), applications: [spread(urea, "2024-05-05", lb(300))] };
    expect(values(fieldOf(earlier, season(2025, "corn", applications))).earlyNitrogen).toBeCloseTo(46, 9);
  });

  it("fertilizer of the autumn before counts, in the record of the crop it was for, though no harvest is written", () => {
    const autumn = [spread(urea, "2024-11-05", { rate: { value: 100, unit: "lb/ac" } })];
    const unharvested = { ...season(2024, "corn"), crops: [{ ...grown("corn", 2024), harvested: undefined }] };
    expect(values(fieldOf(unharvested, season(2025, "corn", autumn))).earlyNitrogen).toBeCloseTo(46, 9);
    expect(values(fieldOf({ ...season(2024, "corn"), applications: autumn }, season(2025, "corn"))).earlyNitrogen).toBeCloseTo(46, 9);
  });

  it("what is not recorded is absent, never none", () => {
    expect(values(fieldOf())).toEqual({ texture: "siltLoam" });
    expect(Object.keys(of(fieldOf(season(2024, "corn"), season(2025, "corn")))).sort()).toEqual(["earlyNitrogen", "manuredSinceHarvest", "previousCrop", "sinceSod", "texture"]);
  });

  it("the stand and the yield of the crop before", () => {
    const stand = { plantsPerSquareFoot: 5, percent: 80, regrowth: { value: 20.32, unit: "cm" as const } };
    expect(values(fieldOf(season(2024, "alfalfa", [], { stand, yield: { value: 4, unit: "ton/ac" } }), season(2025, "corn")))).toMatchObject({ standDensity: 5, standPercent: 80, regrowth: expect.closeTo(8, 9) as number });
    expect(values(fieldOf(season(2024, "soybean", [], { yield: { value: 52, unit: "bu/ac" } }), season(2025, "corn")))).toMatchObject({ previousYield: 52 });
  });

  it("how the bags were taken", () => {
    const bag = (cores?: number) => ({ label: "1", zone: "hill", measurements: [], origin, ...(cores !== undefined && { cores }) });
    const sampling = (...composites: ReturnType<typeof bag>[]) =>
      ({ date: "2025-06-11", handling: { keeping: "chilled" }, composites, nitrate: { cropHeight: { value: 22.86, unit: "cm" }, hoursToLab: 20, rainOfNormal: 104, daysSinceRain: 3, plannedNitrogen: { value: 200, unit: "kg/ha" }, origin } }) as unknown as Sampling;
    expect(values(fieldOf(), sampling(bag(18), bag(12)))).toMatchObject({ cores: 12, keeping: "chilled", cropHeight: expect.closeTo(9, 9) as number, hoursToLab: 20, rainOfNormal: 104, daysSinceRain: 3, plannedNitrogen: expect.closeTo(178.4, 1) as number });
    expect(values(fieldOf(), sampling(bag(18), bag()))).not.toHaveProperty("cores");
  });
});

describe("manure of three years", () => {
  const seasons = [season(2023, "corn", [spread(slurry, "2023-04-01")]), season(2024, "corn"), season(2025, "corn", [spread(slurry, "2025-04-01", { rate: { value: 20_000, unit: "lb/ac" } }), spread(slurry, "2025-07-01")])];
  it("up to the test, with its organic nitrogen", () =>
    expect(manureSpread(fieldOf(...seasons), zone, 2025, "2025-06-11")).toEqual([
      expect.objectContaining({ yearsAgo: 2, tonsPerAcre: 10, organicNitrogen: 6, species: "cattle", dryMatter: 12 }),
      expect.objectContaining({ yearsAgo: 0, tonsPerAcre: expect.closeTo(10, 9) as number }),
    ]));
  it("is not known where a season is not recorded", () => expect(manureSpread(fieldOf(...seasons.slice(1)), zone, 2025, "2025-06-11")).toBeUndefined());
  it("what is recorded of it is found all the same, for the cautions that manure calls for", () => {
    expect(manureFound(fieldOf(seasons[2]!), zone, 2025, "2025-06-11")).toEqual([expect.objectContaining({ yearsAgo: 0 })]);
    expect(manureFound(fieldOf(season(2024, "corn", [spread(slurry, "2024-04-01")])), zone, 2025, "2025-06-11")).toEqual([expect.objectContaining({ yearsAgo: 1 })]);
    expect(manureFound(fieldOf(), zone, 2025, "2025-06-11")).toEqual([]);
  });
  it("without ammonium in the analysis its organic nitrogen is not known", () => {
    const plain: FarmProduct = { ...slurry, product: { kind: "manure", name: "dairy manure", perTon: { N: 10, P2O5: 4, K2O: 8 } }, manure: manureOf("perTon", { N: 10, P2O5: 4, K2O: 8 }, undefined) };
    expect(manureSpread(fieldOf(season(2023, "corn"), season(2024, "corn", [spread(plain, "2024-04-01")]), season(2025, "corn")), zone, 2025, "2025-06-11")?.[0]?.organicNitrogen).toBeUndefined();
  });
});
