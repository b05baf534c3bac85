import { describe, expect, it } from "vitest";
import type { FarmFolder } from "../../support/farmFolder.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";

const K = "K: { method: mehlich3, finish: icp, unit: ppm }";
const by = (way: string): FarmFolder => farmFolder().change("labs/north-lab.yaml", K, `K: ${way}`);
const warning = (way: string): string => `labs/north-lab.yaml:10:7: packages.basic.measures.K: warning: no chosen guideline reads potassium ${way}, so nothing is advised by it; Small reads it by Mehlich-3 in ppm`;

describe("a laboratory whose way of measuring no chosen guideline reads", () => {
  it.each([
    ["another method", "{ method: ammoniumAcetate, unit: ppm }", "by ammonium acetate in ppm"],
    ["another unit", "{ method: mehlich3, finish: icp, unit: mg/l }", "by Mehlich-3 (ICP) in mg/l"],
    ["moist soil", "{ method: mehlich3, preparation: moist, unit: ppm }", "by Mehlich-3 of field-moist soil in ppm"],
  ])("is told of once, with how it is read: %s", (_, way, words) => expect(by(way).lines()).toEqual([warning(words)]));

  it("is not told of where its way is read, nor of what no guideline reads at all", () => {
    // Small has no rule for phosphorus or pH.
    expect(farmFolder().lines()).toEqual([]);
    expect(farmFolder().change("labs/north-lab.yaml", "P: { method: mehlich3, finish: icp", "P: { method: morgan").lines()).toEqual([]);
  });

  // Ontario's laboratories report milligrams per liter, which its ministry calls about the same as ppm.
  it("is not told of where a guideline reads another unit as its own", () => {
    const lab = farmFolder().change("farm.yaml", "guidelines: [small-guide]", "guidelines: [ca-ontario-pub811]").change("labs/north-lab.yaml", "P: { method: mehlich3, finish: icp, unit: ppm }", "P: { method: olsen, unit: mg/l }");
    expect(lab.read({ library }).problems.map((p) => p.message).filter((m) => m.includes("phosphorus"))).toEqual([]);
  });

  it("is not told of where another of its packages is read, or the sampling itself says otherwise", () => {
    const lab = by("{ method: ammoniumAcetate, unit: ppm }");
    lab.change("labs/north-lab.yaml", K, `K: { method: ammoniumAcetate, unit: ppm }\n  other:\n    name: Other\n    measures:\n      ${K}`);
    expect(lab.lines()).toEqual([]);
    expect(by("{ method: ammoniumAcetate, unit: ppm }").change("fields/north/samplings/2025-10-18.yaml", "composites:", `measured: { ${K} }\ncomposites:`).lines()).toEqual([]);
  });

  it("is history where every field has been sampled by another one since", () => {
    const farm = by("{ method: ammoniumAcetate, unit: ppm }").write("labs/south-lab.yaml", `name: South\npackages:\n  basic:\n    name: Basic\n    measures:\n      ${K}\n`);
    expect(farm.lines()).toEqual([warning("by ammonium acetate in ppm")]);
    const south = (file: string): FarmFolder => farm.change(file, "lab: north-lab", "lab: south-lab");
    south("fields/north/samplings/2025-10-18.yaml");
    expect(farm.lines().filter((l) => l.includes("no chosen guideline"))).toEqual([]);
  });
});
