import { describe, expect, it } from "vitest";
import { zoneAdviceView } from "../../../src/views/advice/adviceView.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";

/** The sodium row of sugar beet at potassium index 2 of a laboratory that reports `Na` in this unit. */
const sodiumRow = (unit: string | undefined, Na = 24) => {
  const { farm, problems } = farmFolder()
    .remove("fields/north")
    .remove("guidelines")
    .write("farm.yaml", "name: Beet Farm\nunits: metric\ncurrency: GBP\nguidelines: [uk-rb209-2023]\n")
    .write("labs/north-lab.yaml", `name: North Laboratory\npackages:\n  basic:\n    name: Basic test\n    measures:\n      K: { method: ammoniumNitrate, unit: mg/l }\n${unit ? `      Na: { method: ammoniumNitrate, unit: ${unit} }\n` : ""}`)
    .write("fields/fen/field.yaml", "name: Fen\nzones:\n  whole: { letter: A, name: Whole }\nplan:\n  - { season: 2026, crop: sugarBeet, yieldGoal: { value: 60, unit: t/ha } }\n")
    .write("fields/fen/samplings/2025-10-12.yaml", `date: 2025-10-12\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 15, unit: cm }\ncomposites:\n  - { label: A1, zone: whole, results: { K: 150${unit ? `, Na: ${Na}` : ""} } }\n`)
    .read({ library });
  expect(problems).toEqual([]);
  const field = farm!.fields[0]!;
  return zoneAdviceView(farm!, latestAdvice(farm!, field, field.zones[0]!)!).rows.find((r) => r.subject.startsWith("Sodium"))!;
};

// RB209 (2023), section 4, table 4.36: at potassium index 2, 100 kg/ha of sodium oxide only below 25 mg of sodium a liter.
describe("sodium for sugar beet by RB209 2023", () => {
  it("is decided by sodium in mg/l, as the table prints it", () => expect([sodiumRow("mg/l"), sodiumRow("mg/l", 25)].map((r) => r.value)).toEqual(["100", "0"]));
  it("asks for the test in that unit, and takes no other for it", () => expect([sodiumRow(undefined), sodiumRow("ppm")].map((r) => [r.value, r.missing])).toEqual([["", ["a sodium test, in mg/l"]], ["", ["a sodium test, in mg/l"]]]));
});
