import { expect, it } from "vitest";
import { zoneAdviceView } from "../../../src/views/advice/adviceView.ts";
import { jobs } from "../../../src/views/advice/jobs.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";

/** The advice for a field of sugar beet on loamy sand at pH 5.2, under this tillage and with this much organic matter. */
const fenView = (tillage: "tilled" | "noTill", organicMatter = 2, targetPh = "") => {
  const { farm, problems } = farmFolder()
    .remove("fields/north")
    .remove("guidelines")
    .write("farm.yaml", "name: Beet Farm\nunits: metric\ncurrency: GBP\nguidelines: [uk-rb209-2023, uk-rb209-2010]\nproducts:\n  lime: { kind: lime, name: ground limestone, stated: { neutralizingValue: 50 } }\n")
    .write("labs/north-lab.yaml", "name: North Laboratory\npackages:\n  basic:\n    name: Basic test\n    measures:\n      pH: { method: water1to2half, unit: pH }\n")
    .write("fields/fen/field.yaml", `name: Fen\nsoil: { name: sandy, texture: loamySand, organicMatter: ${organicMatter} }\nzones:\n  whole: { letter: A, name: Whole }\ntillage: ${tillage}\n${targetPh}plan:\n  - { season: 2026, crop: sugarBeet }\n`)
    .write("fields/fen/samplings/2025-10-12.yaml", "date: 2025-10-12\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 15, unit: cm }\ncomposites:\n  - { label: A1, zone: whole, results: { pH: 5.2 } }\n")
    .read({ library });
  expect(problems).toEqual([]);
  const field = farm!.fields[0]!;
  return zoneAdviceView(farm!, latestAdvice(farm!, field, field.zones[0]!)!);
};
const limeRow = (...of: Parameters<typeof fenView>) => fenView(...of).rows[0]!;

// RB209 (2023), section 1: (6.7 - 5.2) x 6 = 9 t/ha, and no more than 7.5 t/ha at one time on ground that is not worked.
it("lime in parts ends with what to do with the rest, as a sentence", () => {
  expect(limeRow("tilled").detail).toBe("of ground limestone, to reach pH 6.7");
  expect(limeRow("noTill").detail).toBe("of ground limestone, to reach pH 6.7; in 2 applications of 4.5 t/ha. Spread the rest in the year after.");
});

it("what a field's page and the farm's first page tell a person to spread is no more at once than the rule allows", () => {
  expect(jobs(fenView("tilled").actions, 1)[0]!.text).toBe("Spread 9.0 t per hectare of ground limestone on the whole field");
  expect(jobs(fenView("noTill").actions, 1)[0]!.text).toBe("Spread 9.0 t per hectare, in 2 applications, of ground limestone on the whole field");
});

// Table 1.1 has an optimum of 6.0 for organic soil, the note under table 1.2 a target of 6.7; the factor of table 1.2 is 8.
it("soil of 12 % organic matter asks for the field's own target, and is not limed by the edition before in its stead", () => {
  const row = limeRow("tilled", 12);
  expect(row).toMatchObject({ value: "", missing: ["targetPh in field.yaml"] });
  expect(row.none).toMatch(/^No lime rate, because RB209 2023 gives soil of 10 to 20 % organic matter two targets that cannot both hold/);
  expect(limeRow("tilled", 12, "targetPh: { value: 6.2, reason: the optimum and 0.2 }\n")).toMatchObject({ value: "8.0", detail: "of ground limestone, to reach pH 6.2" });
});
