import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import type { Farm } from "../../src/records/model.ts";
import { fieldView } from "../../src/views/field/field.ts";
import { farmNeeds } from "../../src/views/season/fieldNeeds.ts";
import { homeLede } from "../../src/views/home/homeLede.ts";
import { homeMap } from "../../src/views/home/homeMap.ts";
import { farmTasks } from "../../src/views/home/homeTasks.ts";
import { noRateMap } from "../../src/views/season/seasonMapFiles.ts";
import { seasonView } from "../../src/views/season/season.ts";
import { seasonDetails } from "../../src/views/season/seasonDetails.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { gardenFarm, library } from "../support/gardenFarm.ts";
import { paths } from "../support/tinyFarm.ts";

/** A grass farm by guidelines that call the soil acid and hold no table of lime. */
const irish = (results: string): Farm => {
  const folder = farmFolder().remove("fields/north").change(paths.farm, "guidelines: [small-guide]", "guidelines: [ie-teagasc]").write("labs/north-lab.yaml", "name: North Laboratory\npackages:\n  basic:\n    name: Basic test\n    measures:\n      pH: { method: water1to2, unit: pH }\n      P: { method: morgan, unit: mg/l }\n      K: { method: morgan, unit: mg/l }\n");
  folder.write("fields/north/field.yaml", "name: North Field\nsoil: { texture: loam }\nzones:\n  west: { letter: A, name: West end }\n  east: { letter: B, name: East end }\nplan:\n  - { season: 2026, crop: grassSilageSecondCut }\n");
  folder.write("fields/north/samplings/2025-11-12.yaml", `date: 2025-11-12\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 10, unit: cm }\ncomposites:\n${results}`);
  return readFarm({ content: folder.path, library }).farm!;
};
const acid = (): Farm => irish("  - { label: A1, zone: west, results: { pH: 5.9, P: 4, K: 74 } }\n  - { label: B1, zone: east, results: { pH: 6.4, P: 9, K: 160 } }\n");
const allAcid = (): Farm => irish("  - { label: A1, zone: west, results: { pH: 5.9, P: 9, K: 160 } }\n  - { label: B1, zone: east, results: { pH: 6.0, P: 9, K: 160 } }\n");

it("tells on the home page and the field's that lime is due, though no guideline says how much", () => {
  const farm = acid();
  const [field] = farm.fields;
  expect(farmNeeds(farm).get(field!)!.map((n) => n.words)).toContain("lime due on West end");
  expect(homeLede(farm).lede).toMatch(/^Lime West end on North Field, where soil pH is 5\.9\./);
  expect(farmTasks(farm)[0]).toMatchObject({ kind: "lime", text: "Lime is due on West end", detail: "Soil pH is 5.9 on West end: lime is due, but there is no rate to spread. No lime rate, because Teagasc holds no lime table." });
  expect(fieldView(farm, field!)).toMatchObject({ lede: "Apply potassium and phosphorus on West end.", why: expect.stringMatching(/^Soil pH is 5\.9 on West end: lime is due, but there is no rate to spread\. Potassium and phosphorus are index 2/) as string });
});

it("leads a field that needs nothing but lime with that", () => {
  const farm = allAcid();
  expect(fieldView(farm, farm.fields[0]!).lede).toBe("Soil pH is 5.9 to 6.0: lime is due, but there is no rate to spread. No lime rate, because Teagasc holds no lime table.");
  expect(farmTasks(farm).map((t) => t.text)).toEqual(["Lime is due on both zones"]);
});

it("does not say that nothing is to buy or called for where lime is due and how much is not known", () => {
  const farm = allAcid();
  const view = seasonView(farm);
  expect(view.lede).toBe("No load can be told: lime due on one field. The reasons stand below.");
  expect(view.toBuyNone).toBe("Nothing that can be told.");
  expect(view.limeNone).toBe("Lime is due on North Field, and no rate of it can be given: the reason stands below.");
  expect(noRateMap(farm)).toBe("No rate map, because no zone has a rate to spread.");
});

it("counts lime that is asked for without a rate of the farm's own material", () => {
  const folder = gardenFarm();
  const farm = folder.write(paths.farm, readFileSync(join(folder.path, paths.farm), "utf8").replace("limeScore: 92", "cce: 92")).read({ library }).farm!;
  const north = farm.fields.find((f) => f.id === "north")!;
  const [task] = farmTasks(farm).filter((t) => t.field === north);
  expect(farmNeeds(farm).get(north)!.map((n) => n.words)).toContain("lime due on West end");
  expect(task!.text).toBe("Lime is due on West end");
  expect(task!.detail).toMatch(/^Soil pH is 5\.8 on West end: lime is due, but there is no rate to spread\. Requirement: \d\.\d ton\/ac of \S.*, to reach pH 6\.\d\. No rate of ground limestone, because /);
});

/** New England: a table of lime by pH and aluminum, and no range of pH that a class could come from. */
const vermont = (): Farm => {
  const folder = farmFolder().change(paths.farm, "guidelines: [small-guide]", "guidelines: [us-vermont-lime]").remove("fields/north/samplings");
  folder.write(paths.lab, "name: North Laboratory\npackages:\n  basic:\n    name: Basic test\n    measures:\n      pH: { method: water1to2, unit: pH }\n      Al: { method: modifiedMorgan, unit: ppm }\n");
  folder.write(paths.sampling, "date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n  - { label: A1, zone: west, results: { pH: 6.6, Al: 20 } }\n  - { label: B1, zone: east, results: { pH: 7.1, Al: 20 } }\n");
  return readFarm({ content: folder.path, library }).farm!;
};

it("calls it lime due on the farm's map where a table without a range calls for it", () => {
  const { model } = homeMap(vermont());
  expect(model!.zones.map((z) => [z.id, z.css])).toEqual([["west", "c-v2"], ["east", "c-none"]]);
  expect(model!.legend.map((l) => l.label)).toEqual(["lime due", "no class by its guidelines"]);
});

it("does not lime a soil up to a pH that it has already", () => {
  const farm = vermont();
  expect(fieldView(farm, farm.fields[0]!).advice[0]!.rows[0]!.detail).toBe("of lime of a quality not stated, though it is at pH 6.5 already");
});

it("calls no lime due on soil at the target that the field sets, where a table prints a rate above its own target", () => {
  // The table of Vermont prints 1 ton up to pH 6.7, and its target is 6.5.
  const vermont = (own: string): Farm => {
    const folder = farmFolder().remove("fields/north").change(paths.farm, "guidelines: [small-guide]", "guidelines: [us-vermont-lime]").write("labs/north-lab.yaml", "name: North Laboratory\npackages:\n  basic:\n    name: Basic test\n    measures:\n      pH: { method: water1to2, unit: pH }\n      Al: { method: modifiedMorgan, unit: ppm }\n");
    folder.write("fields/north/field.yaml", `name: North Field\n${own}zones:\n  west: { letter: A, name: West end }\nplan:\n  - { season: 2026, crop: corn }\n`);
    folder.write("fields/north/samplings/2025-11-12.yaml", "date: 2025-11-12\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 7, unit: in }\ncomposites:\n  - { label: A1, zone: west, results: { pH: 6.7, Al: 44 } }\n");
    return readFarm({ content: folder.path, library }).farm!;
  };
  const needOf = (farm: Farm) => farmNeeds(farm).get(farm.fields[0]!)!.map((n) => n.words);
  expect(needOf(vermont(""))).toContain("lime due");
  expect(needOf(vermont("targetPh: { value: 6.5, reason: what most crops want }\n"))).not.toContain("lime due");
});

it("calls what is not shown by the name that its guideline has for it", () => {
  const farm = irish("  - { label: A1, zone: west, results: { pH: 6.5, P: 9, K: 74 } }\n  - { label: B1, zone: east, results: { pH: 6.5, P: 9, K: 60 } }\n");
  const [field] = farm.fields;
  const plan = field!.plan.flatMap((p) => [{ ...p, zones: ["west"] }, { ...p, crop: "grassPasture" as const, zones: ["east"] }]);
  expect(farmTasks({ ...farm, fields: [{ ...field!, plan }] }).map((t) => t.detail).join(" ")).toContain("No potassium rate is shown for East end.");
});

/** North Carolina, Table 2.1 and its notes: less than 0.3 ton an acre is reported as none, though the pH is still under the target of 6.0. */
const carolina = (acidity: number): Farm => {
  const folder = farmFolder().change(paths.farm, "guidelines: [small-guide]", "guidelines: [us-northcarolina-circular1-2014]").remove("fields/north/samplings");
  folder.change(paths.field, "soil: { texture: siltLoam, cec: 14 }", "soil: { soilClass: mineral }").write(paths.lab, "name: North Laboratory\npackages:\n  basic:\n    name: Basic test\n    measures:\n      pH: { method: water1to1, unit: pH }\n      exchangeableAcidity: { method: mehlichBuffer, unit: meq/100 cm3 }\n");
  folder.write(paths.field, "name: North Field\nsoil: { soilClass: mineral }\nzones:\n  west: { letter: A, name: West end }\nplan:\n  - { season: 2026, crop: deerTurkeyFoodPlot }\n").remove("fields/north/zones.geojson").remove("fields/north/seasons");
  folder.write(paths.sampling, `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 6, unit: in }\ncomposites:\n  - { label: A1, zone: west, results: { pH: ${acidity === 0 ? 6.2 : 5.8}, exchangeableAcidity: ${acidity} } }\n`);
  return readFarm({ content: folder.path, library }).farm!;
};

it("says beside a class of 'lime due' why none is to spread, and not that none is called for", () => {
  const lime = (farm: Farm) => fieldView(farm, farm.fields[0]!).advice[0]!.rows.find((r) => r.subject === "Lime")!;
  // 0.8 × (6.0 − 5.8) ÷ (6.6 − 5.8) = 0.2 ton an acre.
  expect(lime(carolina(0.8))).toMatchObject({ value: "0", detail: "lime is due, and too little of it to spread" });
  expect(lime(carolina(0))).toMatchObject({ value: "0", detail: "no lime is called for" });
  expect([0.8, 0].map((acidity) => seasonDetails(carolina(acidity)).limeNone)).toEqual(["Lime is due on North Field, and too little of it to spread.", "No lime is called for on North Field."]);
});
