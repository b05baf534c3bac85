import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import type { Farm, Field } from "../../../src/records/model.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { farmSummary } from "../../../src/views/summary/farmSummary.ts";
import { fieldSummary, tenureWords } from "../../../src/views/summary/fieldSummary.ts";
import { zoneOwed } from "../../../src/views/summary/owed.ts";
import { shareWords } from "../../../src/views/summary/recordsKept.ts";
import { allPaths } from "../../../src/views/site/routes.ts";
import { fertilityNow } from "../../../src/views/summary/fertilityNow.ts";
import { samplingView } from "../../../src/views/sampling/samplingView.ts";
import { pricesUsed } from "../../../src/views/summary/owedRows.ts";
import { nothingKnown } from "../../../src/views/summary/owedLine.ts";
import { summaryLines } from "../../../src/views/summary/summaryLines.ts";
import { summaryParts } from "../../../src/views/summary/summaryParts.ts";
import { archivedFarm, farmIn } from "../../support/archived.ts";
import type { FarmFolder } from "../../support/farmFolder.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { gardenFarm, library } from "../../support/gardenFarm.ts";
import { manyFields } from "../../support/manyFields.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const metric = readFarm({ content: join(installation, "tests", "fixtures", "metric"), library }).farm!;
const fieldOf = (farm: Farm, id: string): Field => farm.fields.find((f) => f.id === id)!;
const summary = (farm: Farm, id: string) => fieldSummary(farm, fieldOf(farm, id));
const fact = (facts: readonly { term: string; value: string }[], term: string): string => facts.find((f) => f.term === term)!.value;

/**
 * By hand, demo farm, potassium by Tri-State 2020, (120 - test) x (1 + 0.05 x CEC) x 4 years:
 *   Knoll, K 105, CEC 13.6 by the laboratory: 15 x 1.68 x 4 = 100.8 lb/ac, x 9.6613 acres = 974 lb; as 0-0-60, 168 lb/ac, x $450 / 2,000 x 9.6613 = $365;
 *   Outwash, K 92, CEC 6.1: 28 x 1.305 x 4 = 146.16 lb/ac, x 6.0851 = 889 lb; 243.6 lb/ac of 0-0-60 = $333.5, and lime 8.378 tons x $46 = $385.4: $719.
 *   Phosphate: Knoll, P 28, the rotation has wheat: (30 - 28) x 5 x 4 = 40 lb/ac, x 9.6613 = 386 lb; as 0-46-0, 86.96 lb/ac, x $610 / 2,000 x 9.6613 = $256;
 *   Outwash, P 23: 140 lb/ac, x 6.0851 = 852 lb; $565. The field: 974 + 889 = 1,863 lb of potash, 1,238 of phosphate; 365.2 + 718.9 + 256.2 + 564.9 = $1,905.
 */
describe("a field's sheet", () => {
  const sheet = summary(demo, "causeway");

  it("begins with where the soil stands and what it is owed", () =>
    expect(sheet.lede).toBe("Soil pH is below its range on Outwash, and phosphorus and potassium on Knoll and Outwash. To reach the guidelines' targets the soil is owed 8.4 tons of lime, 1,238 lb of phosphate (P₂O₅) and 1,863 lb of potash (K₂O), about $1,905 at the farm's prices."));

  it("says for whom land is managed, and from whom it is rented", () => {
    const field = fieldOf(demo, "causeway");
    const held = (tenure: Field["tenure"]): string => tenureWords({ ...field, tenure });
    expect([held({ kind: "managed", from: "the school", since: undefined }), held({ kind: "rented", from: "the school", since: "2019-03-01" })]).toEqual(["managed for the school", "rented from the school since March 2019"]);
  });

  it("says who measured, when and how", () => {
    expect(sheet.why).toBe("Sampled on 18 October 2025, measured by Fulmar Soil Laboratory.");
    expect(fact(sheet.land, "Sampled last")).toBe("18 October 2025, 0 to 8 in deep, by Fulmar Soil Laboratory");
    expect(fact(sheet.land, "Methods")).toBe("Soil pH by 1:1 water; phosphorus and potassium by Mehlich-3, ICP");
    expect(fact(sheet.land, "Tenure")).toBe("owned since March 2006");
  });

  it("agrees with the sums by hand", () => {
    const [knoll, apron, outwash] = sheet.owed;
    expect(knoll).toMatchObject({ lime: { text: "none" }, potassium: { text: "974 lb K₂O", small: "101 lb/ac, over four years", owes: true }, phosphorus: { text: "386 lb P₂O₅", small: "40 lb/ac, over four years" }, money: "$621" });
    expect(apron).toMatchObject({ potassium: { text: "none", owes: false }, money: "none" });
    expect(outwash).toMatchObject({ lime: { text: "8.4 tons", small: "1.4 ton/ac" }, phosphorus: { text: "852 lb P₂O₅" }, potassium: { text: "889 lb K₂O" }, money: "$1,284" });
    expect(sheet.total).toMatchObject({ lime: "8.4 tons", phosphorus: "1,238 lb P₂O₅", potassium: "1,863 lb K₂O", words: "$1,905" });
  });

  it("tells each test's value, class, range and direction, and where it began", () => {
    const [knoll] = sheet.zones;
    expect(knoll!.about).toBe("9.7 acres, loam over glacial till, sampled 18 October 2025");
    expect(knoll!.rows.map((r) => [r.label, r.first, r.cell.value, r.cell.band, r.range, r.direction])).toEqual([
      ["Soil pH", "6.3 in 2014", "6.3", "in range", "6.2 to 6.8", "no detectable trend in six samplings, limed 2019"],
      ["Phosphorus", "32 in 2018", "28", "deficient", "30 to under 50 ppm", "no change beyond noise, but only four samplings"],
      ["Potassium", "129 in 2018", "105", "deficient", "120 to under 170 ppm", "no change beyond noise, but only four samplings"],
      ["Organic matter", "3.2 in 2014", "3.0", undefined, "", "no detectable trend in six samplings"],
    ]);
  });

  // Advice of 5 November 2020: nine amounts on three zones, read on its page: 4 as advised, Knoll's potash over nothing advised, Outwash's lime not spread, 3 over two crops.
  it("tells the records kept", () => {
    expect(fact(sheet.kept, "Samplings")).toBe("six full samplings, two pH checks and one nitrate test since October 2014");
    expect(fact(sheet.kept, "Tested in time")).toBe("all 32.9 acres. Tri-State 2020: every 3 to 4 years.");
    expect(fact(sheet.kept, "Advice followed")).toBe(
      "Of the advice kept as issued on 5 November 2020: 4 of 6 amounts as advised, 1 exceeded and 1 not followed; 3 not judged, because several crops were harvested before the next sampling",
    );
    expect(fact(sheet.kept, "Checks on the laboratory")).toBe("three pairs of duplicate bags; one corrected result, the first value kept beside it");
  });

  it("bears marks of evidence, the day of the prices, sources and two fingerprints", () => {
    expect([sheet.classes!, ...sheet.bases].map((b) => b.mark?.words)).toEqual(["from memory", "read in another text", "from memory"].map((how) => `${how}, not yet checked against the publication`));
    expect(sheet.notes[0]).toBe("Money is for the material alone, without hauling and spreading: ground limestone at $46 a ton, triple superphosphate, 0-46-0 at $610 a ton and muriate of potash, 0-0-60 at $450 a ton. Prices of 20 October 2025.");
    expect(sheet.sources).toContain("Ohio State University Extension, Bulletin 974, 2020");
    expect(sheet.proofs.map((p) => p.sha256)).toEqual([fieldOf(demo, "causeway").fingerprint.sha256, fieldOf(demo, "causeway").recommendations[0]!.record.sha256.replace("sha256:", "")]);
  });
});

it("a sheet of an old sampling says that it is due, and counts no acre as tested in time", () => {
  const sheet = summary(demo, "netloft");
  expect(sheet.why).toBe("Sampled on 12 October 2021, measured by Fulmar Soil Laboratory. It is due for sampling again: October 2025, overdue.");
  expect(fact(sheet.kept, "Tested in time")).toBe("none of 8.3 acres. Tri-State 2020: every 3 to 4 years.");
});

it("a field of which a zone was never sampled is due now", () => {
  const field = fieldOf(demo, "causeway");
  const fresh = { ...field, zones: [...field.zones, { ...field.zones[0]!, id: "new-piece", name: "New piece" }] };
  expect(fieldSummary({ ...demo, fields: [fresh] }, fresh).why).toMatch(/ It is due for sampling now: not every zone has been sampled\.$/);
});

it("tells a price with its cents, and a whole one without", () => {
  const farm = gardenFarm();
  const text = readFileSync(join(farm.path, "farm.yaml"), "utf8").replace("value: 46,", "value: 46.5,");
  const read = farm.write("farm.yaml", text).read({ library }).farm!;
  expect(pricesUsed(read, [fieldOf(read, "north")])).toEqual(["ground limestone at $46.50 a ton", "muriate of potash at $450 a ton"]);
});

it("a range that hangs on what is not known is not told as one that nobody set", () => {
  // Tri-State limes corn below pH 6.0 or 6.2, by the pH of the subsoil, which is not known here: whatever it is, 5.6 is below and 6.9 above.
  const folder = farmFolder().change(paths.farm, "[small-guide]", "[us-tristate-974-2020]").remove("guidelines").change(paths.sampling, "pH: 6.2", "pH: 5.6");
  const { farm } = folder.read({ library });
  const ranges = fertilityNow(farm!, farm!.fields[0]!).map((zone) => zone.rows.filter((r) => r.analyte === "pH").map((r) => [r.cell.band, r.range]));
  expect(ranges[0]).toEqual([["lime due", "not fully known"]]);
});

it("a field that no guideline answers for says so, and names no number", () => {
  const sheet = summary(demo, "ropewalk");
  expect(sheet.lede).toBe("Where the soil stands against its targets is not known. What it would take to reach the guidelines' targets is not fully known; the reasons stand below.");
  expect(sheet.owed[0]).toMatchObject({ lime: { text: "not known" }, phosphorus: { text: "not known" }, potassium: { text: "not known" }, money: "not known" });
  expect(sheet.notes).toEqual(["No lime amount, because Tri-State 2020 gives no target pH for grass pasture. No phosphate or potash amount, because Tri-State 2020 has no rule for grass pasture."]);
});

/** By hand: tests/fixtures/metric.test.ts for the lime; 40 + 30 kg/ha of phosphate on 1 ha each = 70 kg; at 46 %, 152.2 kg x £420 / 1,000 = £63.9; potash 60 kg, at 60 % 100 kg x £0.33 = £33: £97. */
it("an index system owes by the year, in its own units, and says that nobody says for how long", () => {
  const sheet = summary(metric, "longstrand");
  expect(sheet.total).toMatchObject({ lime: "3.6 t", phosphorus: "70 kg P₂O₅ a year", potassium: "60 kg K₂O a year", words: "£115 and £97 a year" });
  expect(sheet.notes[0]).toBe("RB209 2010 gives a yearly amount over what the crop takes, and no one number of years for it, so no sum over the years can be told.");
  expect(sheet.notes[1]).toContain("The records do not say of what day these prices are.");
  expect(summary(metric, "shingle").zones[0]!.rows[1]).toMatchObject({ range: "6.1 to under 10.1 mg/l", direction: "one sampling so far" });
  expect(fact(summary(metric, "shingle").kept, "Tested in time")).toMatch(/^all 2\.0 ha\. Teagasc: every 3 to 5 years/);
});

/** By hand: 108.8 lb/ac of K2O (tests/interpretation/buildUp.test.ts) is 108.8 / 43.56 = 2.5 lb on 1,000 sq ft. */
it("a garden is told in pounds for 1,000 sq ft, and the farm's sheet does not add it to the acres", () => {
  const farm = gardenFarm().read({ library }).farm!;
  expect(summary(farm, "kitchen").owed[0]!.potassium.small).toBe("2.5 lb/1000 sq ft, over four years");
  expect(summary(farm, "north").owed[0]!.potassium.small).toBe("109 lb/ac, over four years");
  expect(farmSummary(farm).totals.map((t) => t.name)).toEqual(["All told in garden units", "All told in US units", "The farm"]);
});

describe("made-up farms", () => {
  it("without prices owes amounts, and says that there is no price", () => {
    const farm = farmFolder().change(paths.farm, "[small-guide]", "[us-tristate-974-2020]").remove("guidelines").read({ library }).farm!;
    const sheet = summary(farm, "north");
    expect(sheet.owed[0]).toMatchObject({ potassium: { owes: true }, money: "no price" });
    expect(sheet.lede).not.toContain("$");
    expect(sheet.notes.join(" ")).toContain("No price is recorded for muriate of potash, so its cost is not in the sum.");
  });

  it("ends its sentences once where the laboratory's name ends in a stop", () => {
    const farm = farmFolder().change(paths.lab, "North Laboratory", "Old Lab, Inc.").read().farm!;
    expect(summary(farm, "north").why).toBe("Sampled on 18 October 2025, measured by Old Lab, Inc.");
    expect(farmSummary(farm).why).toBe("Sampled on 18 October 2025, measured by Old Lab, Inc.");
    expect(samplingView(farm, farm.fields[0]!, farm.fields[0]!.samplings.at(-1)!).lede).toMatch(/sent to Old Lab, Inc\.$/);
  });

  it("without a sampling asks for one, and owes nothing that it knows of", () => {
    const farm = farmFolder().remove("fields/north/samplings").read().farm!;
    const sheet = summary(farm, "north");
    expect(sheet.why).toBe("No full sampling with results is in the records.");
    expect(sheet.zones.map((z) => z.rows)).toEqual([[], []]);
    expect(sheet.notes).toEqual(["No amounts, because no full sampling with results is on record."]);
    expect(fact(sheet.kept, "Samplings")).toBe("none");
    expect(farmSummary(farm).why).toBe("No full sampling with results is in the records.");
  });

  it("without a boundary tells rates, and neither sums nor money", () => {
    const farm = farmFolder().change(paths.farm, "[small-guide]", "[us-tristate-974-2020]").remove("guidelines").remove(paths.zones).read({ library }).farm!;
    const sheet = summary(farm, "north");
    expect(sheet.owed[0]!.potassium).toEqual({ text: "109 lb per acre of K₂O", small: "area not known", owes: true });
    expect(sheet.notes.join(" ")).toContain("No totals, because the area is not known.");
    expect(fact(sheet.land, "Area")).toBe("not known; two zones");
  });

  it("says of which season a direction is, where the newest full sampling is of the other", () => {
    const event = (date: string, K: number) => `date: ${date}\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n  - { label: "0041", zone: west, cores: 20, results: { pH: 6.2, P: 20, K: ${K} } }\n`;
    const farm = farmFolder().write("fields/north/samplings/2026-04-14.yaml", event("2026-04-14", 160)).read({ library }).farm!;
    const rows = summary(farm, "north").zones[0]!.rows;
    expect(rows.filter((r) => r.analyte === "K").map((r) => [r.first, r.cell.value, r.direction])).toEqual([["96 in autumn 2024", "160", "in autumn: no change beyond noise, but only two samplings"]]);
    expect(rows.find((r) => r.analyte === "P")!.first).not.toContain("autumn");
  });

  it("calls nothing owed nor unpriced what only lacks an area", () => {
    const zones = fieldOf(demo, "causeway").zones.map((zone) => ({ ...zone, squareMeters: undefined }));
    const field = { ...fieldOf(demo, "causeway"), zones };
    const farm: Farm = { ...demo, fields: [field] };
    const sheet = fieldSummary(farm, field);
    expect(sheet.lede).toContain("The soil is owed lime, phosphorus and potassium to reach the guidelines' targets; how much in all cannot be told without the area.");
    expect(sheet.owed.map((row) => row.money)).toEqual(["area not known", "none", "area not known"]);
    expect(sheet.total).toMatchObject({ lime: "area not known", phosphorus: "area not known", potassium: "area not known", words: "area not known" });
    expect(sheet.notes.join(" ")).not.toContain("No price is recorded");
    expect(summaryLines(farm, farm.fields).owed[0]).toMatchObject({ lime: "area not known", potassium: "area not known", money: "area not known" });
  });

  // West: (20 - 12) x 5 x 4 years = 160 lb/ac of P2O5, 347.8 lb/ac at 46 %, $600 a ton; potash has no price.
  it("counts the products that have a price, and names the others alone", () => {
    const farm = farmFolder()
      .write(paths.farm, tinyFarm[paths.farm]!.replace("[small-guide]", "[us-tristate-974-2020]").replace("  potash:", "  phosphate: { kind: fertilizer, name: superphosphate, price: { value: 600, per: ton }, analysis: { N: 0, P2O5: 46, K2O: 0 } }\n  potash:"))
      .change(paths.sampling, "P: { value: 3, qualifier: \"<\" }", "P: 12")
      .remove("guidelines")
      .read({ library }).farm!;
    const acres = fieldOf(farm, "north").zones[0]!.squareMeters! / 4046.8564224;
    const sheet = summary(farm, "north");
    expect(sheet.owed[0]!.money).toBe(`$${Math.round((((160 / 0.46) * 600) / 2000) * acres)}, in part`);
    expect(sheet.notes.join(" ")).toContain("superphosphate at $600 a ton");
    expect(sheet.notes.join(" ")).toContain("No price is recorded for muriate of potash, so its cost is not in the sum.");
  });

  it("calls nothing owed only what it knows of every zone", () => {
    // Phosphorus was not tested on the east end, potassium is enough on both, and at pH 6.1 the subsoil, which nobody tested, decides whether to lime.
    const farm = farmFolder()
      .change(paths.farm, "[small-guide]", "[us-tristate-974-2020]")
      .remove("guidelines")
      .write(paths.sampling, tinyFarm[paths.sampling]!.replace("P: { value: 3, qualifier: \"<\" }\n      K: 104", "P: 30\n      K: 150").replace("pH: 6.2", "pH: 6.1").replace("pH: 6.5", "pH: 6.1"))
      .read({ library }).farm!;
    const sheet = summary(farm, "north");
    expect(sheet.owed.map(({ lime, phosphorus, potassium, money }) => [lime.text, phosphorus.text, potassium.text, money])).toEqual([
      ["not known", "none", "none", "not fully known"],
      ["not known", "not known", "none", "not fully known"],
    ]);
    expect(sheet.total).toMatchObject({ lime: "not known", phosphorus: "not fully known", potassium: "none", words: "not fully known" });
    expect(sheet.lede).toContain("is not fully known; the reasons stand below.");
  });

  it("counts a bag whose results are awaited as no test", () => {
    const bags = ["west", "east"].map((zone, i) => `  - { label: "003${i}", zone: ${zone} }\n`).join("");
    const awaited = `date: 2029-12-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n${bags}`;
    const farm = farmFolder().change(paths.farm, "[small-guide]", "[us-tristate-974-2020]").remove("guidelines").write("fields/north/samplings/2029-12-18.yaml", awaited).read({ library }).farm!;
    // Sampled with results in October 2025; in December 2029 that is over four years ago, and the new bags have said nothing yet.
    expect(fact(summary(farm, "north").kept, "Tested in time")).toMatch(/^none of /);
    expect(fact(summary(farm, "north").kept, "Samplings")).toBe("two full samplings since October 2024; results of one sampling are awaited");
    // One bag without results does not make a sampling of nothing.
    const north = fieldOf(farm, "north");
    const samplings = north.samplings.map((s, i) => (i === 1 ? { ...s, composites: s.composites.map((c, j) => (j === 0 ? { ...c, measurements: [] } : c)) } : s));
    expect(fact(summary({ ...farm, fields: [{ ...north, samplings }] }, "north").kept, "Samplings")).toMatch(/^two full samplings since October 2024;/);
  });

  it("leaves the judgement open while the land was not sampled again", () => {
    const { lede, kept } = summary(farmIn(archivedFarm()), "north");
    expect(lede).toContain("the reasons stand below");
    // Potash on both zones, and lime on both, of which east is to have none: on the day of issue nothing was followed yet.
    expect(fact(kept, "Advice followed")).toBe("Of the advice kept as issued on 10 November 2025: none can be judged yet; 4 still open, because the land was not sampled again yet");
  });

  it("of thirty zones has a line for each, and sums them", () => {
    const field = fieldOf(demo, "causeway");
    const zones = Array.from({ length: 30 }, (_, i) => ({ ...field.zones[0]!, name: `Zone ${i + 1}` }));
    const many = { ...field, zones };
    const farm: Farm = { ...demo, fields: [many] };
    const sheet = fieldSummary(farm, many);
    expect(sheet.zones).toHaveLength(30);
    // 30 x 9.6613 x 100.8 = 29,215.8 lb.
    expect(sheet.total.potassium).toBe("29,216 lb K₂O");
    expect(sheet.lede).toMatch(/^Phosphorus and potassium are below their ranges on all 30 zones\./);
  });
});

describe("for a reader who should not see everything", () => {
  const farm: Farm = { ...demo, withheld: { reader: "the landlord", parts: new Set(["costs"] as const), someFields: true } };

  it("costs are left out, and said to be", () => {
    const sheet = summary(farm, "causeway");
    expect(sheet.total.words).toBe("left out for this reader");
    expect(sheet.notes[0]).toBe("Prices and costs: left out for this reader.");
    const whole = farmSummary(farm);
    expect([sheet.lede, whole.lede, ...[...sheet.owed, ...summaryLines(farm, farm.fields).owed, ...whole.totals].map((o) => o.money), ...sheet.notes, ...whole.notes].filter((text) => text.includes("$"))).toEqual([]);
  });

  it("yields and years that are left out are said to be", () => {
    const few: Farm = { ...demo, withheld: { reader: "the lender", parts: new Set(["yields"] as const), years: { from: 2018 }, someFields: false } };
    const { kept } = summary(few, "causeway");
    expect(fact(kept, "Crops, yields and applications")).toBe("twelve seasons recorded, 2014 to 2025; yields are left out for this reader; earlier years are left out for this reader");
    expect(fact(kept, "Samplings")).toMatch(/since October 2014; earlier years are left out for this reader$/);
    const between: Farm = { ...few, withheld: { ...few.withheld!, years: { from: 2018, to: 2024 } } };
    expect(fact(summary(between, "causeway").kept, "Samplings")).toMatch(/; earlier and later years are left out for this reader$/);
  });

  it("the number of files and of fields is not told", () => {
    expect(summary(farm, "causeway").proofs[0]!.what).toBe("The records of this field, whole");
    expect(farmSummary(farm).proofs[0]!.what).toBe("The farm's records, whole");
    expect(farmSummary(farm).land[0]!.term).toBe("Fields shown to this reader");
  });
});

/**
 * By hand: Saltings, East lea, (120 - 91) x (1 + 0.05 x CEC) x 4 and West lea; with Causeway 1,863 + 1,220 = 3,083 lb; money 1,905 + 457 = $2,363, each rounded.
 * Low in phosphorus: Knoll 9.7 and Outwash 6.1 = 15.7 acres, each rounded.
 * Low in potassium: Knoll 9.7, Outwash 6.1 and both leas 10.7 = 26.4 of 63.8 acres. In time: all but Netloft's 8.3: 55.5, 86.9 percent, told as 87.
 */
describe("the farm's sheet", () => {
  const sheet = farmSummary(demo);
  it("says between which days it was sampled, or on which", () => {
    expect(sheet.why).toBe("Sampled between 12 October 2021 and 18 October 2025, measured by Fulmar Soil Laboratory.");
    expect(farmSummary({ ...demo, fields: [fieldOf(demo, "saltings")] }).why).toBe("Sampled on 18 October 2025, measured by Fulmar Soil Laboratory.");
  });

  it("sums its fields", () => {
    expect(sheet.totals).toMatchObject([{ name: "The farm", lime: "8.4 tons", phosphorus: "1,238 lb P₂O₅", potassium: "3,083 lb K₂O", money: "$2,363" }]);
    const each = demo.fields.flatMap((f) => f.zones.map((z) => zoneOwed(demo, f, z)?.purchases.reduce((sum, p) => sum + (p.cost ?? 0), 0) ?? 0));
    expect(each.reduce((a, b) => a + b, 0) + 385.39).toBeCloseTo(2362.63, 1);
  });
  it("tells the land by class and by tenure", () => {
    expect(sheet.fertility.map((f) => [f.label, f.below, f.within, f.above, f.unrated])).toEqual([
      ["Soil pH", "6.1 acres", "45.9 acres", "none", "11.9 acres"],
      ["Phosphorus", "15.7 acres", "10.7 acres", "25.5 acres", "11.9 acres"],
      ["Potassium", "26.4 acres", "17.2 acres", "8.3 acres", "11.9 acres"],
    ]);
    expect(fact(sheet.land, "Tenure")).toBe("41.3 acres owned and 22.6 acres rented, each rounded");
  });
  it("tells the land that is mapped, and that some is not; without any, that it is not known", () => {
    const unmapped = (ids: readonly string[]): Farm => ({ ...demo, fields: demo.fields.map((f) => (ids.includes(f.id) ? { ...f, zones: f.zones.map((z) => ({ ...z, squareMeters: undefined })) } : f)) });
    const some = farmSummary(unmapped(["ropewalk"]));
    expect(fact(some.land, "Area")).toBe("52.0 acres, without one zone that has no boundary");
    expect([some.counted, sheet.counted]).toEqual(["Zones", "Area"]);
    expect(fact(farmSummary(unmapped(demo.fields.map((f) => f.id))).land, "Area")).toBe("not known");
  });
  it("names the zones of a gap by their field, once", () => {
    const without = (id: string, zones: readonly string[]): Field => {
      const field = fieldOf(demo, id);
      return { ...field, zones: field.zones.map((z) => ({ ...z })), samplings: field.samplings.map((s) => ({ ...s, composites: s.composites.filter((c) => !zones.includes(c.zone)) })) };
    };
    const fields = [without("causeway", ["knoll", "outwash"]), without("netloft", fieldOf(demo, "netloft").zones.map((z) => z.id))];
    expect(farmSummary({ ...demo, fields }).notes.join(" ")).toContain("No amounts, because no full sampling with results is on record: Causeway (Knoll and Outwash) and Netloft.");
  });
  it("lists each form of a nutrient by itself where the fields' guidelines count in oxides and in elements", () => {
    const lab = (P: string): string => `name: North Laboratory\npackages:\n  basic:\n    name: Basic test\n    measures:\n      P: { method: ${P}, unit: mg/l }\n      K: { method: ${P === "olsen" ? "ammoniumNitrate" : P}, unit: mg/l }\n`;
    const folder = farmFolder().remove("fields/north").remove("guidelines").change(paths.farm, "[small-guide]", "[ie-teagasc]").write("labs/north-lab.yaml", lab("morgan")).write("labs/south-lab.yaml", lab("olsen"));
    for (const [id, rest, by, P, K] of [["north", "", "north-lab", 4, 60], ["south", "guidelines: [uk-rb209-2010]\n", "south-lab", 12, 70]] as const) {
      folder.write(`fields/${id}/field.yaml`, `name: ${id}\n${rest}zones:\n  whole: { letter: A, name: Whole }\nplan:\n  - { season: 2026, crop: ${id === "north" ? "grassSilageSecondCut" : "grassSilageTwoCuts"} }\n`);
      folder.write(`fields/${id}/zones.geojson`, `{ "type": "FeatureCollection", "features": [{ "type": "Feature", "properties": { "zone": "whole" }, "geometry": { "type": "Polygon", "coordinates": [[[-8, ${id === "north" ? 53 : 54}], [-7.997, ${id === "north" ? 53 : 54}], [-7.997, ${id === "north" ? "53.002" : "54.002"}], [-8, ${id === "north" ? 53 : 54}]]] } }] }\n`);
      folder.write(`fields/${id}/samplings/2025-11-12.yaml`, `date: 2025-11-12\npurpose: routine\nlab: ${by}\npackage: basic\ndepth: { from: 0, to: ${id === "north" ? 10 : 7.5}, unit: cm }\ncomposites:\n  - { label: A1, zone: whole, results: { P: ${P}, K: ${K} } }\n`);
    }
    expect(farmSummary(folder.read({ library }).farm!).lede).toMatch(/the soil is owed \d+ lb of phosphorus \(P\) a year, \d+ lb of phosphate \(P₂O₅\) a year, \d+ lb of potassium \(K\) a year and \d+ lb of potash \(K₂O\) a year\b/);
  });
  it("makes no whole of a share that is nearly one, and not nothing of a small one", () => {
    const share = { inTime: 999, all: 1000, zonesInTime: 9, zones: 10, unmeasured: 0, untold: 0 };
    expect(shareWords(share, "us")).toMatch(/, 99 percent$/);
    expect(shareWords({ ...share, inTime: 1 }, "us")).toMatch(/, 1 percent$/);
  });

  it("names a guideline with several intervals once", () => {
    // RB209 2023 asks for land every 3 to 5 years, and for grass that is cut at least every 3.
    const rb209 = demo.allGuidelines.get("uk-rb209-2023")!;
    const [arable, hay] = ["potatoes", "grassHay"].map((crop) => ({ ...fieldOf(demo, "causeway"), guidelines: [rb209], plan: [{ ...fieldOf(demo, "causeway").plan[0]!, crop: crop as CropId }] }));
    const said = (fields: Field[]) => fact(farmSummary({ ...demo, fields }).kept, "Tested in time").replace(/^.*?\. (?=RB209)/, "");
    expect(said([arable!])).toBe("RB209 2023: every 3 to 5 years.");
    expect(said([arable!, { ...hay!, id: "other" }])).toMatch(/^RB209 2023: every 3 to 5 years or .* years, by the field's use\.$/);
  });
  it("tells of every field without an interval why it has none", () => {
    const rb209 = { ...fieldOf(demo, "causeway"), guidelines: [demo.allGuidelines.get("uk-rb209-2023")!], plan: [] };
    const silent = ["netloft", "ropewalk"].map((id) => ({ ...fieldOf(demo, id), guidelines: [] }));
    const tested = (fields: Field[]) => fact(farmSummary({ ...demo, fields }).kept, "Tested in time");
    const none = "none of the chosen guidelines gives an interval for routine sampling";
    expect(tested(silent)).toBe(`not known, because ${none}`);
    expect(tested([rb209, ...silent])).toBe(`not known: of Causeway, because the crop is not known, and RB209 2023 sets the interval by it; of Netloft and Ropewalk, because ${none}`);
    expect(tested([fieldOf(demo, "saltings"), rb209, ...silent])).toMatch(new RegExp(`4 years\\. Without Causeway, because the crop is not known, and RB209 2023 sets the interval by it\\. Without Netloft and Ropewalk, because ${none}\\.$`));
  });

  it("tells the share of acres tested in time", () => expect(fact(sheet.kept, "Tested in time")).toBe("55.5 of 63.8 acres, 87 percent. Tri-State 2020: every 3 to 4 years."));
  it("of a large farm keeps the sums, and deals the lines out to pages, each field once", () => {
    const large = manyFields(demo, 400);
    const parts = summaryParts(large);
    expect(parts.map((p) => `${p.title}: ${p.holds}`)).toEqual(["Field 1 to Field 266: 266 fields", "Field 267 to Field 400: 134 fields"]);
    expect(parts.flatMap((p) => p.fields)).toEqual(large.fields);
    expect([...allPaths(large).keys()].filter((path) => path.startsWith("summary"))).toEqual(["summary.html", "summary/fields-1.html", "summary/fields-2.html"]);
    expect([...allPaths(demo).keys()].filter((path) => path.startsWith("summary"))).toEqual(["summary.html"]);
  });
  it("of a large farm counts the zones of a gap, where their names would fill the page", () => {
    const many = manyFields({ ...demo, fields: [fieldOf(demo, "ropewalk")] }, 13);
    const unanswered = farmSummary({ ...many, fields: [...many.fields, fieldOf(demo, "netloft")] });
    expect(unanswered.notes.join(" ")).toContain(": 13 zones.");
    expect(unanswered.notes.join(" ")).not.toContain("Field 12");
  });
  it("tells apart what lacks for one reason at different places", () => {
    // Iowa 2013 says of a soil in its range that it needs nothing, and of a lower one only what the crop needs.
    const sheet = (west: string, east: string) => `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 6, unit: in }\ncomposites:\n  - { label: A1, zone: west, results: { pH: 6.9, ${west} } }\n  - { label: B1, zone: east, results: { pH: 6.9, ${east} } }\n`;
    const [poor, hungry, good] = ["P: 10, K: 300", "P: 60, K: 80", "P: 60, K: 300"] as const;
    const folder = farmFolder().change("farm.yaml", "[small-guide]", "[us-iowa-pm1688-2013]").write(paths.sampling, sheet(poor, hungry)).write("fields/south/field.yaml", tinyFarm[paths.field]!.replace("North Field", "South Field"));
    folder.write("fields/south/samplings/2025-10-18.yaml", sheet(hungry, good));
    const { farm } = folder.read({ library });
    const because = "because Iowa 2013 says what the next crop needs, and not what would bring the soil up to a target";
    expect(fieldSummary(farm!, farm!.fields[0]!).notes.filter((note) => note.includes(because))).toEqual([expect.stringContaining(`No phosphate amount, ${because}: West end. No potash amount, ${because}: East end.`)]);
    expect(farmSummary(farm!).notes.join(" ")).toContain(`No phosphate amount, ${because}: North Field (West end). No potash amount, ${because}: North Field (East end) and South Field (West end).`);
    const apart = { ...farm!, fields: [{ ...farm!.fields[0]!, samplings: farm!.fields[0]!.samplings.map((s) => ({ ...s, composites: s.composites.filter((c) => c.zone === "west") })), zones: farm!.fields[0]!.zones.filter((z) => z.id === "west") }, farm!.fields[1]!] };
    expect(farmSummary(apart).notes.join(" ")).toContain(`No phosphate amount, ${because}: North Field. No potash amount, ${because}: South Field (West end).`);
  });

  it("says of a question that is open everywhere no place, and has no table where nothing is known", () => {
    const many = manyFields({ ...demo, fields: [fieldOf(demo, "ropewalk")] }, 3);
    const { notes, totals } = farmSummary(many);
    expect(notes.join(" ")).toContain("No phosphate or potash amount, because Tri-State 2020 has no rule for grass pasture.");
    const { owed } = summaryLines(many, many.fields);
    expect(nothingKnown([...owed, ...totals])).toBe(true);
    expect(nothingKnown([...owed, ...summaryLines(demo, demo.fields).owed])).toBe(false);
    expect(nothingKnown([summary(demo, "ropewalk").total])).toBe(true);
    expect(nothingKnown([summary(demo, "netloft").total])).toBe(false);
    const open = { lime: "not known", phosphorus: "not known", potassium: "not known" };
    expect((["lime", "phosphorus", "potassium"] as const).map((known) => nothingKnown([open, { ...open, [known]: "none" }]))).toEqual([false, false, false]);
  });
  it("has a line for each field", () => expect(summaryLines(demo, demo.fields).fields.map((f) => [f.field.name, f.inTime])).toEqual([["Causeway", "all"], ["Netloft", "none, due again"], ["Ropewalk", "all"], ["Saltings", "all"]]));
  it("calls no field due again that was never sampled", () => {
    const netloft = fieldOf(demo, "netloft");
    const never = { ...netloft, samplings: [], zones: netloft.zones.map((zone) => ({ ...zone })) };
    expect(summaryLines(demo, [never]).fields[0]).toMatchObject({ sampled: "never", inTime: "none yet, and due" });
  });
});

it("has a row of organic matter for every zone once one of them was tested for it, and none where none was", () => {
  const rows = (folder: FarmFolder): string[][] => {
    const { farm } = folder.read();
    return fertilityNow(farm!, farm!.fields[0]!).map((zone) => zone.rows.map((r) => `${r.analyte} ${r.cell.value || r.cell.why}`));
  };
  const measured = () => farmFolder().change(paths.lab, "      K: {", '      organicMatter: { method: lossOnIgnition, unit: "%" }\n      K: {');
  expect(rows(measured()).map((zone) => zone.length)).toEqual([3, 3]);
  expect(rows(measured().change(paths.sampling, "      K: 104", "      K: 104\n      organicMatter: 3.1")).map((zone) => zone.slice(3))).toEqual([["organicMatter 3.1"], ["organicMatter not tested"]]);
});
