import { expect, it } from "vitest";
import { fieldRows } from "../../../src/views/results/rows.ts";
import { trendFigure } from "../../../src/views/trends/trendFigure.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { tinyFarm } from "../../support/tinyFarm.ts";

/** The tiny farm with one result of one zone in each of these years. */
const sampled = (results: Readonly<Record<number, string>>) => {
  const folder = farmFolder(Object.entries(tinyFarm).filter(([file]) => !file.includes("/samplings/")));
  for (const [year, result] of Object.entries(results))
    folder.write(`fields/north/samplings/${year}-10-18.yaml`, `date: ${year}-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n  - { label: "1", zone: west, cores: 15, results: { ${result} } }\n`);
  const farm = folder.read({ library: "content" }).farm!;
  const field = farm.fields[0]!;
  return (analyte: "P" | "pH") => trendFigure(farm, field, analyte, new Map(), fieldRows(field))!;
};

it("takes the next printed number for no change: what laboratories round, noise alone moves to the other side", () => {
  // 15 cores of 46 %, and 6 %: 13.3 % of 2 and of 3, times 1.96, is 0.94; half a step more is 1.44.
  expect(sampled({ 2020: "P: 2", 2021: "P: 3", 2022: "P: 5" })("P").rows.map((r) => r.change)).toEqual(["", "+1 ppm, within noise (1.4)", "+2 ppm, within noise (2.02)"]);
  // Where one of them is printed in tenths, so are all, and a laboratory's 2.0 is 2 in the record: 0.96 and 0.05.
  expect(sampled({ 2020: "P: 2", 2021: "P: 3.1" })("P").rows[1]!.change).toBe("+1.1 ppm, more than noise (1)");
  // A pH of 6.0 stands as 6 in the record, and is no whole number: 0.129 of 6.0 twice, times 1.96, is 0.357.
  expect(sampled({ 2020: "pH: 6.0", 2021: "pH: 6.0" })("pH").rows[1]!.change).toBe("no change, within noise (0.41)");
});

it("tells once what casts doubt on the newest sampling of every panel", () => {
  const inZones = (...zones: string[]) => {
    const folder = farmFolder(Object.entries(tinyFarm));
    folder.write("fields/north/samplings/2025-10-18.yaml", `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n${zones.map((zone) => `  - { label: "${zone}", zone: ${zone}, cores: 2, results: { K: 100 } }\n`).join("")}`);
    const farm = folder.read({ library: "content" }).farm!;
    return trendFigure(farm, farm.fields[0]!, "K", new Map(), [])!;
  };
  const both = inZones("west", "east");
  expect(both.care).toBe("Taken with too few cores: read potassium with care.");
  expect(both.model.panels.map((p) => p.verdict.care)).toEqual([both.care, both.care]);
  const one = inZones("west");
  expect(one.care).toBeUndefined();
  expect(one.model.panels.map((p) => p.verdict.care)).toEqual([both.care, undefined]);
});
