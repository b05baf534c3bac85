import { describe, expect, it } from "vitest";
import { fieldView } from "../../../src/views/field/field.ts";
import { homeView } from "../../../src/views/home/home.ts";
import { rateMaps } from "../../../src/views/season/seasonMaps.ts";
import { seasonZones } from "../../../src/views/season/seasonZones.ts";
import { zoneOwed } from "../../../src/views/summary/owed.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";
import { paths } from "../../support/tinyFarm.ts";

/** A field that is low in phosphorus and potassium, for which the farm buys a product each, with this spread after its sampling. */
const farmOf = (applications: string, planned = 2026) => {
  const { farm, problems } = farmFolder()
    .remove("fields/north/samplings")
    .remove("fields/north/seasons")
    .write(paths.farm, "name: Tiny Farm\nunits: us\ncurrency: USD\nguidelines: [us-tristate-974-2020]\nproducts:\n  manure: { kind: manure, name: beef manure, perTon: { N: 11, P2O5: 7, K2O: 11 } }\n  potash: { kind: fertilizer, name: muriate of potash, analysis: { N: 0, P2O5: 0, K2O: 60 } }\n  ash: { kind: lime, name: wood ash, stated: { cce: 45 }, brings: { P2O5: 0, K2O: 5 } }\n  superphosphate: { kind: fertilizer, name: triple superphosphate, analysis: { N: 0, P2O5: 46, K2O: 0 } }\n")
    .write(paths.field, `name: North Field\nsoil: { texture: siltLoam, cec: 14, subsoilPh: 6.5 }\nzones: { west: { letter: A, name: West end }, east: { letter: B, name: East end } }\nplan:\n  - { season: ${planned}, crop: corn, yieldGoal: { value: 180, unit: bu/ac } }\n`)
    .write(paths.sampling, `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n${["west", "east"].map((zone) => `  - { label: ${zone}, zone: ${zone}, results: { pH: 6.6, P: 15, K: 90 } }\n`).join("")}`)
    .write("fields/north/seasons/2026.yaml", `season: 2026\napplications:\n${applications}`)
    .read({ library });
  expect(problems.filter((p) => p.severity === "error")).toEqual([]);
  return farm!;
};
const told = (applications: string, planned?: number) => {
  const farm = farmOf(applications, planned);
  const [field] = farm.fields;
  const [west] = seasonZones(farm);
  const map = (key: string) => rateMaps(farm).find((m) => m.key === key)!.rows[0]!.already;
  return { lede: homeView(farm).lede, field: fieldView(farm, field!).advice[0]!.already, lines: Object.fromEntries(west!.lines.map((l) => [l.job, l.already])), K2O: map("nutrient-k2o"), P2O5: map("nutrient-p2o5"), owed: zoneOwed(farm, field!, field!.zones[0]!)!.already };
};

describe("what was spread since the sampling is one answer on every page, beside the rates that it is not taken off", () => {
  it("manure beside each of the nutrients", () => {
    const manure = ["15 ton/ac of beef manure on 20 November 2025"];
    expect(told("  - { date: 2025-11-20, product: manure, rate: { value: 15, unit: ton/ac } }\n")).toEqual({
      lede: "Spread potash on North Field, where potassium is low; some was spread there since the sampling. Spread phosphate on North Field, where phosphorus is low; some was spread there since the sampling.",
      field: `Spread already, and not taken off: ${manure[0]!}.`,
      lines: { "fertilizer-potash": manure, "fertilizer-superphosphate": manure },
      K2O: manure,
      P2O5: manure,
      owed: manure,
    });
  });
  it("wood ash, though it limes, beside the potash that it brings", () =>
    expect(told("  - { date: 2025-11-20, product: ash, rate: { value: 800, unit: lb/ac } }\n").lines).toEqual({ "fertilizer-potash": ["800 lb/ac of wood ash on 20 November 2025"], "fertilizer-superphosphate": [] }));
  it("a fertilizer beside the nutrients that it brings, and no other", () => {
    const phosphate = ["50 lb/ac of triple superphosphate on 20 November 2025"];
    expect(told("  - { date: 2025-11-20, product: superphosphate, rate: { value: 50, unit: lb/ac } }\n")).toEqual({
      lede: "Spread potash on North Field, where potassium is low. Spread phosphate on North Field, where phosphorus is low; some was spread there since the sampling.",
      field: `Spread already, and not taken off: ${phosphate[0]!}.`,
      lines: { "fertilizer-potash": [], "fertilizer-superphosphate": phosphate },
      K2O: [],
      P2O5: phosphate,
      owed: phosphate,
    });
  });
  it("what went on before a later harvest was for that crop, and what went on after it is for the next", () => {
    const [before, harvest, after] = ["2026-04-20", "2026-10-05", "2026-10-20"];
    const spread = [before, after].map((day) => `  - { date: ${day}, product: manure, rate: { value: 15, unit: ton/ac } }\n`).join("");
    const { lines } = told(`${spread}crops:\n  - { crop: corn, harvested: ${harvest}, yield: { value: 170, unit: bu/ac } }\n`, 2027);
    expect(Object.values(lines)).toEqual([["15 ton/ac of beef manure on 20 October 2026"], ["15 ton/ac of beef manure on 20 October 2026"]]);
  });
  it.each([
    ["on the day of the sampling, which comes first", "2025-10-18", 1],
    ["on the day before", "2025-10-17", 0],
  ])("what was spread %s", (_, day, each) => {
    const { lines, owed } = told(`  - { date: ${day}, product: manure, rate: { value: 15, unit: ton/ac } }\n`);
    expect([...Object.values(lines), owed].map((some) => some.length)).toEqual([each, each, each]);
  });
});
