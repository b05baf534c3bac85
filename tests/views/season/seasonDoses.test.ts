import { describe, expect, it } from "vitest";
import type { Farm } from "../../../src/records/model.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { zoneProducts } from "../../../src/views/advice/productsView.ts";
import { seasonDetails } from "../../../src/views/season/seasonDetails.ts";
import { rateFiles } from "../../../src/views/season/seasonMapFiles.ts";
import { spreaderSheets } from "../../../src/views/season/seasonSheets.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";

/** One zone of grass on clay loam, P index 1 and K index 1 at 0 to 7.5 cm, pH 5.5; limed by `guidelines` in order. */
const grassFarm = (crop: string, guidelines = "uk-rb209-2023", texture = "clayLoam"): Farm => {
  const { farm, problems } = farmFolder()
    .remove("fields/north")
    .remove("guidelines")
    .write("farm.yaml", `name: Meadow Farm\nunits: metric\ncurrency: GBP\nguidelines: [${guidelines}]\nproducts:\n  lime: { kind: lime, name: ground limestone, stated: { neutralizingValue: 50 } }\n  potash: { kind: fertilizer, name: muriate of potash, analysis: { N: 0, P2O5: 0, K2O: 60 } }\n  tsp: { kind: fertilizer, name: triple superphosphate, analysis: { N: 0, P2O5: 46, K2O: 0 } }\n`)
    .write("labs/north-lab.yaml", "name: North Laboratory\npackages:\n  basic:\n    name: Basic test\n    measures:\n      pH: { method: water1to2half, unit: pH }\n      P: { method: olsen, unit: mg/l }\n      K: { method: ammoniumNitrate, unit: mg/l }\n")
    .write("fields/meadow/field.yaml", `name: Meadow\nzones:\n  whole: { letter: A, name: Whole, soil: { texture: ${texture} } }\ntillage: sod\nplan:\n  - { season: 2026, crop: ${crop} }\n`)
    .write("fields/meadow/samplings/2025-10-12.yaml", "date: 2025-10-12\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 7.5, unit: cm }\ncomposites:\n  - { label: A1, zone: whole, results: { pH: 5.5, P: 13, K: 88 } }\n")
    .read({ library });
  expect(problems).toEqual([]);
  return farm!;
};
const potash = "in doses, kg/ha of K₂O: 30 in the autumn before, 80 in spring for the first cut, 100 for the second cut, 60 after the last cut or by autumn";

// RB209 (2023), section 3, table 3.3, two cuts at P 1 and K 1: phosphate 70 and 25; potash 30, 80, 100 and 60, and "no more than 80 to 90 kg/ha in
// spring": 450 kg/ha of muriate of potash at one time would be 270.
describe("potash and phosphate that a guideline spreads in doses", () => {
  const cut = (): Farm => grassFarm("grassSilageTwoCuts");

  it("are not one load to the driver", () => {
    const sheets = spreaderSheets(cut());
    expect(sheets.map((s) => [s.title, s.rows.map((r) => [r.rate, r.beware])])).toEqual([
      ["Ground limestone", [[expect.anything(), ""]]],
      ["Muriate of potash", [["450", potash]]],
      ["Triple superphosphate", [["207", "in doses, kg/ha of P₂O₅: 70 for the first cut, 25 for the second cut"]]],
    ]);
  });

  it("are told beside the season's rate, and beside the product on the field's page", () => {
    const farm = cut();
    const [mop] = seasonDetails(farm).products;
    expect(mop!.groups[0]!.rows[0]!.notes).toContain(`${potash.replace("in doses", "In doses")}.`);
    const field = farm.fields[0]!;
    expect(zoneProducts(farm, latestAdvice(farm, field, field.zones[0]!)!).rows[0]!.detail).toContain("; spread in the doses above");
  });

  it("are several applications on a rate map, of no one size", () => {
    const [head, row] = rateFiles(cut(), false).find((f) => f.map.key === "fertilizer-potash")!.csv.trimEnd().split("\r\n");
    expect(head).toContain("rate_kg_ha,applications,rate_each_kg_ha,");
    expect(row).toMatch(/^meadow,whole,muriate of potash,grassSilageTwoCuts,2026,450,4,,/);
  });

  // Table 3.4: grazing has one rate a season.
  it("and a rate that is given at once stays one", () => {
    const grazed = grassFarm("grassPasture");
    expect(spreaderSheets(grazed).flatMap((s) => s.rows.map((r) => r.beware))).toEqual(expect.not.arrayContaining([expect.stringContaining("dose")]));
    const csv = rateFiles(grazed, false).find((f) => f.map.key === "fertilizer-tsp")!.csv;
    expect(csv).toMatch(/,(\d+(?:\.\d)?),1,\1,/);
  });
});

// A loam has no line in the lime table of RB209 (2023), so the superseded edition limes it; phosphate and potash are by the newer one.
describe("the caution of a superseded guideline", () => {
  it("stands on the sheets whose own rates rest on one", () =>
    expect(spreaderSheets(grassFarm("grassPasture", "uk-rb209-2023, uk-rb209-2010", "loam")).map((s) => [s.sources, s.cautions.some((c) => c.title === "a superseded guideline")])).toEqual([
      ["RB209 2010", true],
      ["RB209 2023", false],
      ["RB209 2023", false],
    ]));
});
