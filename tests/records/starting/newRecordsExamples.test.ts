import { describe, expect, it } from "vitest";
import { newField, wrapped } from "../../../src/records/starting/newRecordsField.ts";
import { newSampling, type NewSampling } from "../../../src/records/starting/newRecordsSampling.ts";
import { newSeason, type NewSeason } from "../../../src/records/starting/newRecordsSeason.ts";

/** What stands as an example is in the units that the person thinks in, and in his own words where there are any. */
const field = (units: "us" | "metric" | "garden", zones: readonly string[] = ["West", "East"]): string => newField({ id: "north", name: "North", zones, units }).text;

it("a field's examples are in its units, and the first zone alone has a soil of its own", () => {
  expect(["us", "metric", "garden"].map((units) => /^#limeDepth: (.*)$/m.exec(field(units as "us"))![1])).toEqual(["{ value: 8, unit: in }", "{ value: 20, unit: cm }", "{ value: 8, unit: in }"]);
  expect(["us", "metric", "garden"].map((units) => /distance: (\{.*?\})/.exec(field(units as "us"))![1])).toEqual(["{ value: 60, unit: ft }", "{ value: 20, unit: m }", "{ value: 10, unit: ft }"]);
  expect(["us", "metric", "garden"].map((units) => [...field(units as "us").matchAll(/^ {4}#soil: \{ texture: (\w+) \}$/gm)].map(([, texture]) => texture))).toEqual([["siltLoam"], ["siltLoam"], ["sandyLoam"]]);
  expect(["us", "metric", "garden"].map((units) => field(units as "us").includes("# category, where"))).toEqual([false, true, false]);
  expect(field("us")).toContain("  west:\n    letter: A\n    name: West\n    #soil: { texture: siltLoam }\n  east:\n    letter: B\n    name: East\n#");
  expect(field("us", ["Ψ", "Ω"])).toContain("  zone-b:\n    letter: B\n");
});

it("long lists go on in lines of 110 letters, none of which ends with a blank", () => {
  const lines = wrapped(Array.from({ length: 30 }, (_, i) => `word-${i}`), "    ").split("\n");
  expect(lines.length).toBeGreaterThan(1);
  for (const [i, line] of lines.entries()) {
    expect(line).toMatch(i === 0 ? /^word/ : /^ {4}# word/);
    expect(line).not.toMatch(/ $/);
    expect(line.replace(/^ {4}# /, "").length).toBeLessThanOrEqual(106);
  }
  expect(lines.map((line) => line.replace(/^ {4}# /, "")).join(" ")).toBe(Array.from({ length: 30 }, (_, i) => `word-${i}`).join(", "));
});

describe("a sampling", () => {
  const sampling = (more: Partial<NewSampling> = {}) =>
    newSampling({ field: "north", date: "2026-10-01", purpose: "routine", lab: "lab", package: "basic", depth: { from: 0, to: 8, unit: "in" }, bags: [{ label: "0012", zone: "west" }], metric: false, reads: ["nitrateN"], asksCrop: false, ...more });

  it("has its purpose in its name where it is not a routine one", () =>
    expect((["routine", "phCheck", "nitrate"] as const).map((purpose) => sampling({ purpose }).path)).toEqual(["fields/north/samplings/2026-10-01.yaml", "fields/north/samplings/2026-10-01-ph.yaml", "fields/north/samplings/2026-10-01-nitrate.yaml"]));

  it("counts cores that were planned as taken, to be put right, and gives others as an example", () => {
    expect(sampling({ bags: [{ label: "0012", zone: "west", cores: 9 }] }).text).toContain('  - label: "0012"\n    zone: west\n    # How many cores went into the bag, here as planned; put it right where fewer were taken; fewer cores, more noise.\n    cores: 9\n');
    expect(sampling({ cores: 20 }).text).toContain("    # How many cores went into the bag; fewer cores, more noise.\n    #cores: 20\n");
    expect(sampling().text).toContain("#cores: 15\n");
  });

  it("names tools and results as they are usual for it", () => {
    expect([sampling().text, sampling({ metric: true }).text].map((text) => /tube probe, (.*?)"/.exec(text)![1])).toEqual(["3/4 in", "2 cm"]);
    expect([sampling({ purpose: "nitrate" }).text, sampling({ purpose: "nitrate", reads: ["mineralN"] }).text].map((text) => /# results: \{ (\w+): 42 \}/.exec(text)![1])).toEqual(["nitrateN", "mineralN"]);
  });
});

it("a season's examples are of its crop, its zones and one of the farm's products, in the field's units", () => {
  const season = (more: Partial<NewSeason> = {}): string => newSeason({ field: "north", year: 2026, crop: "corn", zones: ["west", "east"], product: "potash", rateUnit: "kg/ha", ...more }).text;
  expect(season()).toContain("    #zones: [west]\n");
  expect(season()).toContain("#applications:\n#  - { date: 2026-04-20, product: potash, rate: { value: 100, unit: kg/ha }, incorporated: true }\n");
  expect(season({ product: undefined })).toContain("once farm.yaml has products.\napplications: []\n");
  expect((["corn", "alfalfa", "winterBarley"] as const).map((crop) => /#yield: (\{.*\})/.exec(season({ crop }))![1])).toEqual(["{ value: 100, unit: bu/ac }", "{ value: 4, unit: ton/ac }", expect.stringContaining("unit: ")]);
});
