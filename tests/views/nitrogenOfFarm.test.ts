import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { FrozenInputs } from "../../src/views/issued/frozenInputs.ts";
import { adviceFrom, inputsOf } from "../../src/views/issued/frozenInputs.ts";
import { nitrogenRows } from "../../src/views/advice/nitrogenView.ts";
import { sheetCautions, spreaderSheets } from "../../src/views/season/seasonSheets.ts";
import { latestAdvice } from "../../src/views/advice/sample.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const library = fileURLToPath(new URL("../../content", import.meta.url));

/** Ten tons an acre each year of a manure with 5 lb of organic nitrogen a ton, as in the course's example. */
const season = (year: number, crop: string, more = ""): string => `season: ${year}
crops:
  - { crop: ${crop}, planted: ${year}-05-05, harvested: ${year}-10-10, yield: { value: 50, unit: bu/ac } }
applications:
  - { date: ${year}-04-02, product: slurry, rate: { value: 10, unit: ton/ac } }
${more}`;
const standing = (year: number, applications = ""): string => `season: ${year}
crops:
  - { crop: corn, planted: ${year}-05-05 }
applications:
  - { date: ${year}-04-02, product: slurry, rate: { value: 10, unit: ton/ac } }
${applications}`;

const lab = tinyFarm[paths.lab]! + `  nitrate:
    name: Nitrate
    measures:
      nitrateN: { method: potassiumChloride, unit: ppm }
`;
const sampling = (day: string, depth: number, nitrate: string): string => `date: ${day}
purpose: nitrate
lab: north-lab
package: nitrate
depth: { from: 0, to: ${depth}, unit: in }
${nitrate}composites:
  - { label: "N1", zone: west, cores: 18, results: { nitrateN: 5 } }
`;
const deep = sampling("2026-04-20", 24, "handling: { keeping: chilled }\n");
const june = sampling("2026-06-10", 12, "handling: { keeping: chilled }\nnitrate: { cropHeight: { value: 9, unit: in }, rainOfNormal: 100 }\n");

interface Small {
  readonly guidelines: string;
  readonly nitrate: string;
  readonly seasons?: Readonly<Record<number, string>>;
  readonly goal?: boolean;
  readonly analysis?: string;
}

/** The tiny farm with manure, a nitrate test and records of three seasons. */
const adviceOf = ({ guidelines, nitrate, goal = true, analysis = "perTon: { N: 8, P2O5: 4, K2O: 8, ammoniumN: 3 }", seasons = { 2024: season(2024, "corn"), 2025: season(2025, "soybean"), 2026: standing(2026) } }: Small) => {
  const farm = farmFolder()
    .write(paths.farm, `${tinyFarm[paths.farm]!.replace("[small-guide]", `[${guidelines}]`)}  slurry:
    kind: manure
    name: dairy slurry
    ${analysis}
    species: cattle
    dryMatter: 12
  urea:
    kind: fertilizer
    name: urea
    analysis: { N: 46, P2O5: 0, K2O: 0 }
`)
    .write(paths.lab, lab)
    .write(paths.field, tinyFarm[paths.field]!.replace("cec: 14 }", "cec: 14, organicMatter: 2 }").replace(goal ? "" : "\n    yieldGoal: { value: 180, unit: bu/ac }", ""))
    .remove(paths.season)
    .write("fields/north/samplings/2026-nitrate.yaml".replace("2026", nitrate.slice(6, 16)), nitrate);
  for (const [year, text] of Object.entries(seasons)) farm.write(`fields/north/seasons/${year}.yaml`, text);
  const { farm: read, problems } = farm.read({ library });
  if (!read) throw new Error(problems.map((p) => p.message).join("; "));
  const [field] = read.fields;
  return { farm: read, field: field!, advice: latestAdvice(read, field!, field!.zones.find((z) => z.id === "west")!)! };
};
const rows = (small: Small) => {
  const { farm, advice } = adviceOf(small);
  return nitrogenRows(farm, advice);
};

const nebraska = "us-nebraska-ec117-nitrogen, us-cornell-manure";

describe("nitrogen by a deep test, on a farm with manure and a soybean crop before", () => {
  it("takes off the nitrate, the organic matter, the soybean's credit and three years of manure", () => {
    const [row, ...rest] = rows({ guidelines: nebraska, nitrate: deep });
    // 35 + 1.2 x 180 - 8 x 5 - 0.14 x 180 x 2 - 45 - 26; the 26 lb are the course's example of manure, 10 x 5 x (35 + 12 + 5) percent.
    expect(row).toMatchObject({ value: "90", unit: "lb/ac", none: undefined });
    const [sum] = row!.steps.slice(-1);
    expect(sum).toMatchObject({ expression: "35 + 216 − 40 − 50.4 − 45 − 26", result: "89.6 lb N/ac" });
    expect(row!.steps.filter((s) => s.what.startsWith("Spread ")).map((s) => [s.what.split(",")[0], s.result])).toEqual([
      ["Spread 2 years ago", "2.5 lb N/ac"],
      ["Spread last year", "6 lb N/ac"],
      ["Spread this year", "17.5 lb N/ac"],
    ]);
    expect(row!.detail).toMatch(/those of Cornell manure release are used/);
    expect(rest).toEqual([]);
  });
  it("gives no rate where a season of the three is not recorded", () =>
    expect(rows({ guidelines: nebraska, nitrate: deep, seasons: { 2025: season(2025, "soybean"), 2026: standing(2026) } })[0]).toMatchObject({ value: "", none: expect.stringMatching(/the seasons before are not all recorded/) as string }));
  it("gives no rate without a yield goal", () =>
    expect(rows({ guidelines: nebraska, nitrate: deep, goal: false })[0]).toMatchObject({ none: expect.stringMatching(/^No nitrogen rate .*because no yield goal is set/) as string, missing: ["a yield goal in the plan of field.yaml"] }));
});

describe("the same manure as a metric laboratory prints it", () => {
  const metric = Object.fromEntries([2024, 2025, 2026].map((year) => [year, (year === 2026 ? standing(year) : season(year, year === 2024 ? "corn" : "soybean")).replace("{ value: 10, unit: ton/ac }", "{ value: 22, unit: m3/ha }")]));
  const small: Small = { guidelines: nebraska, nitrate: deep, seasons: metric, analysis: "perCubicMeter: { N: 4, P2O5: 2, K2O: 4, ammoniumN: 1.5 }\n    density: { value: 1.02, unit: kg/l }" };

  it("is credited in the rule's own tons, and the steps say how it came to them", () => {
    const [row] = rows(small);
    // 22 m³ hold 55 kg of organic N; 49.07 lb/ac, of which (35 + 12 + 5) percent.
    expect(row!.steps.find((s) => s.what === "From all of it")!.result).toBe("25.5 lb N/ac");
    expect(row!.steps.filter((s) => /^dairy slurry|^Organic nitrogen of/.test(s.what)).slice(0, 2)).toMatchObject([
      { what: "dairy slurry, spread at 22 m³/ha, by its density 22.44 t/ha", result: "10.01 ton/ac, as Cornell manure release reads it" },
      { what: "Organic nitrogen of dairy slurry", expression: "2.5 kg/m³ × 2 ÷ 1.02 kg/l", result: "4.9 lb per ton" },
    ]);
  });

  it("is kept with advice as issued, and worked out from it to the same words", () => {
    const { farm, field, advice } = adviceOf(small);
    const kept = JSON.parse(JSON.stringify(inputsOf(advice))) as FrozenInputs;
    expect(kept.nitrogen!.question.manure).toHaveLength(3);
    expect(nitrogenRows(farm, adviceFrom({ zone: "west", letter: "A", name: "West end" }, kept, advice.sampling, farm.products, field.guidelines))[0]!.steps).toEqual(nitrogenRows(farm, advice)[0]!.steps);
  });
});

describe("nitrogen by a June test, on the same farm", () => {
  it("is not lowered again by credits, and says so beside them", () => {
    const [rate, soybean, manure] = rows({ guidelines: "us-iowa-nitrate, us-cornell-manure", nitrate: june });
    // (15 - 5) x 8, for manured soil.
    expect(rate).toMatchObject({ value: "80", none: undefined });
    expect(soybean).toMatchObject({ subject: "Nitrogen credit, crop before", value: "0", detail: "for corn 2026, nothing to be taken off" });
    expect(manure).toMatchObject({ subject: "Nitrogen credit, manure", value: "26" });
    expect(manure!.detail).toMatch(/^for corn 2026, not to be taken off the rate above, whose test found that nitrogen in the soil already/);
  });
  it("is spread with the cautions of its own product: urea is no anhydrous ammonia", () => {
    const { farm } = adviceOf({ guidelines: "us-iowa-nitrate", nitrate: june });
    const titles = (of: typeof farm): string[] => spreaderSheets(of).flatMap((s) => s.cautions.map((c) => c.title));
    expect(titles(farm)).toContain("nitrate and wells");
    expect([titles(farm), sheetCautions(farm).map((c) => c.title)].flat()).not.toContain("anhydrous ammonia");
    const urea = farm.products.get("urea")!;
    const ammonia = { ...urea, fertilizer: { ...urea.fertilizer!, analysis: { N: 82, P2O5: 0, K2O: 0 } } };
    expect(titles({ ...farm, products: new Map([["urea", ammonia]]) })).toContain("anhydrous ammonia");
  });
  it("names what the sampling's record lacks", () =>
    expect(rows({ guidelines: "us-iowa-nitrate", nitrate: june.replace("cropHeight: { value: 9, unit: in }, ", "") })[0]).toMatchObject({
      value: "",
      none: "No nitrogen rate for corn 2026, from the nitrate test of 10 June 2026, because the height of the crop is not recorded, and Iowa late-spring nitrate asks for 6 to 12 in.",
      missing: ["cropHeight under nitrate in the sampling's file"],
    }));
  it("counts the fertilizer of the season before the test", () => {
    const fertilized = standing(2026, "  - { date: 2026-05-04, product: urea, rate: { value: 100, unit: lb/ac } }\n");
    const [row] = rows({ guidelines: "us-newyork-nitrate", nitrate: june, seasons: { 2024: season(2024, "corn"), 2025: season(2025, "soybean"), 2026: fertilized } });
    expect(row).toMatchObject({ none: expect.stringMatching(/the fertilizer nitrogen before the test is 46 lb\/ac, and New York PSNT asks for less than 40 lb\/ac/) as string });
  });
  it("knows the first year after sod", () => {
    const seasons = { 2024: season(2024, "corn"), 2025: season(2025, "alfalfa").replace("unit: bu/ac", "unit: ton/ac").replace("value: 50", "value: 5"), 2026: standing(2026) };
    expect(rows({ guidelines: "us-newyork-nitrate", nitrate: june, seasons })[0]).toMatchObject({ none: expect.stringMatching(/the number of years since sod is 1, and New York PSNT asks for more than 1/) as string });
  });
});
