import { expect, it } from "vitest";
import { farmFolder } from "../../support/farmFolder.ts";

const sheet = (day: string, results: readonly string[]): string =>
  `date: ${day}\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n${results.map((r, i) => `  - { label: "${day}-${i}", zone: ${["west", "east"][i % 2]!}, results: { ${r} } }\n`).join("")}`;
const said = (...sheets: (readonly [string, readonly string[]])[]): string[] => {
  const folder = farmFolder().remove("fields/north/samplings");
  for (const [day, results] of sheets) folder.write(`fields/north/samplings/${day}.yaml`, sheet(day, results));
  return folder.lines().filter((line) => line.includes("copy"));
};

const west = "pH: 6.3, P: 27, K: 96";
const east = "pH: 6.5, P: 31, K: 140";

// Common practice: two soil samples of one place never agree in every one of six numbers.
it("warns of a sheet whose every result is that of an earlier one, whatever the order of its bags", () => {
  expect(said(["2022-10-18", [west, east]], ["2024-10-18", [west, east]])).toEqual([
    "fields/north/samplings/2024-10-18.yaml:1:1: composites: warning: all 6 results are those of fields/north/samplings/2022-10-18.yaml; were they left in a copy of it?",
  ]);
  expect(said(["2024-10-18", ["K: 96, P: 27, pH: 6.3", east]], ["2022-10-18", [west, east]])).toHaveLength(1);
});

it("says nothing where one number differs, where a zone has the other's results, or of so few results that chance may have made them alike", () => {
  expect(said(["2022-10-18", [west, east]], ["2024-10-18", [west, east.replace("140", "141")]])).toEqual([]);
  expect(said(["2022-10-18", [west, east]], ["2024-10-18", [east, west]])).toEqual([]);
  expect(said(["2022-10-18", [west, "pH: 6.5, P: 31"]], ["2024-10-18", [west, "pH: 6.5, P: 31"]])).toEqual([]);
});

it("tells a third copy of the first sheet", () => {
  expect(said(["2020-10-18", [west, east]], ["2022-10-18", [west, east]], ["2024-10-18", [west, east]]).map((line) => line.split(": ")[0])).toEqual(["fields/north/samplings/2022-10-18.yaml:1:1", "fields/north/samplings/2024-10-18.yaml:1:1"]);
});
