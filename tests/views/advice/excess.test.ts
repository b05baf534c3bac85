import { expect, it } from "vitest";
import { fieldView } from "../../../src/views/field/field.ts";
import { homeView } from "../../../src/views/home/home.ts";
import { farmNeeds } from "../../../src/views/season/fieldNeeds.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";
import { paths } from "../../support/tinyFarm.ts";

/** A field of two zones, tested for phosphorus by Mehlich-3, ppm, and manured this year and the last or not. */
const farmOf = (west: number, east: number, manured: boolean) => {
  const bag = (label: string, zone: string, P: number) => `  - { label: ${label}, zone: ${zone}, results: { pH: 6.6, P: ${P}, K: 200 } }\n`;
  const season = (year: number) => `season: ${year}\ncrops:\n  - { crop: corn, yield: { value: 160, unit: bu/ac } }\napplications:\n  - { date: ${year}-04-10, product: manure, rate: { value: 15, unit: ton/ac } }\n`;
  const folder = farmFolder()
    .remove("fields/north/samplings")
    .remove("fields/north/seasons")
    .write(paths.farm, "name: Tiny Farm\nunits: us\ncurrency: USD\nguidelines: [us-tristate-974-2020, us-delaware-phosphorus]\nproducts:\n  manure: { kind: manure, name: beef manure, perTon: { N: 11, P2O5: 7, K2O: 11 } }\n")
    .write(paths.field, "name: North Field\nsoil: { texture: siltLoam, cec: 14, subsoilPh: 6.5 }\nzones:\n  west: { letter: A, name: West end }\n  east: { letter: B, name: East end }\nplan:\n  - { season: 2026, crop: corn, yieldGoal: { value: 180, unit: bu/ac } }\n")
    .write(paths.sampling, `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n${bag("A1", "west", west)}${bag("B1", "east", east)}`);
  if (manured) for (const year of [2024, 2025]) folder.write(`fields/north/seasons/${year}.yaml`, season(year));
  const { farm, problems } = folder.read({ library });
  expect(problems).toEqual([]);
  return farm!;
};
const told = (west: number, east: number, manured: boolean) => {
  const farm = farmOf(west, east, manured);
  const { lede, tasks } = homeView(farm);
  return { lede, tasks: tasks.map((t) => t.text), needs: farmNeeds(farm).get(farm.fields[0]!)!.map((n) => n.words), field: fieldView(farm, farm.fields[0]!).lede };
};

// Delaware (2002): above 150 ppm by Mehlich-3 phosphorus is a risk to water. Tri-State (2020): from 40 ppm on corn is given none.
it("phosphorus above an environmental limit is said first, and not only among the cautions", () =>
  expect(told(151, 150, false)).toEqual({
    lede: "Hold phosphate and manure back on North Field, where phosphorus is in excess.",
    tasks: ["Add no phosphorus on West end"],
    needs: ["phosphorus above the environmental limit on West end"],
    field: "Add no phosphorus on West end.",
  }));

it("so is manure that was spread on soil with enough phosphorus; a zone is told the graver of the two", () =>
  expect(told(151, 150, true)).toMatchObject({
    tasks: ["Add no phosphorus on West end", "Hold manure back on East end"],
    needs: ["phosphorus above the environmental limit on West end", "manure on soil with enough phosphorus on East end"],
    field: "Add no phosphorus on West end; hold manure back on East end.",
  }));

it("each says why, in the words of its caution", () =>
  expect(homeView(farmOf(151, 150, true)).tasks.map((t) => t.detail)).toEqual([expect.stringMatching(/^The soil holds more phosphorus than the environmental limit/), expect.stringMatching(/^The soil holds more phosphorus than crops ask for/)]));

it("nothing of it where there is neither", () => {
  expect(JSON.stringify(told(150, 60, false))).not.toMatch(/manure|excess|limit|no phosphorus/);
  expect(JSON.stringify(told(39, 30, true))).not.toMatch(/manure|excess|limit|no phosphorus/);
});
