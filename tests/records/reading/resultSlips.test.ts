import { expect, it } from "vitest";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

/** The west end of the tiny farm, sampled every other year with these results. */
const said = (...years: readonly string[]): string[] => saidAfter("", ...years);
/** The same with a load spread in 2018. */
const saidAfter = (load: string, ...years: readonly string[]): string[] => {
  const folder = farmFolder().remove("fields/north/samplings");
  if (load !== "") folder.write("fields/north/seasons/2018.yaml", `season: 2018\napplications:\n  - ${load}\n`);
  years.forEach((results, i) => {
    const day = `${2015 + 2 * i}-10-18`;
    folder.write(`fields/north/samplings/${day}.yaml`, `date: ${day}\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n  - { label: "${day}", zone: west, results: { ${results} } }\n`);
  });
  return folder.lines().filter((line) => line.includes("slip"));
};

// Common practice: a figure ten times the others of its zone is a lost decimal point, a pH two units off two figures changed about.
it("warns of a result far from the others of its zone, at its place", () => {
  expect(said("pH: 6.3, P: 27", "pH: 3.6, P: 29", "pH: 6.4, P: 2.6", "pH: 6.2, P: 31")).toEqual([
    "fields/north/samplings/2017-10-18.yaml:7:51: composites[1].results.pH: warning: 3.6 is far from the other 3 results of this zone, mostly 6.3; is it a slip?",
    "fields/north/samplings/2019-10-18.yaml:7:60: composites[1].results.P: warning: 2.6 ppm is far from the other 3 results of this zone, mostly 29 ppm; is it a slip?",
  ]);
});

it.each([
  ["pH moved by two units, as heavy liming may", ["pH: 4.6", "pH: 4.6", "pH: 6.6"], 0],
  ["by more", ["pH: 4.6", "pH: 4.6", "pH: 6.7"], 1],
  ["five times the middle", ["K: 100", "K: 100", "K: 500"], 0],
  ["more than five times", ["K: 100", "K: 100", "K: 501"], 1],
  ["a fifth", ["K: 500", "K: 500", "K: 100"], 0],
  ["less than a fifth", ["K: 500", "K: 500", "K: 99"], 1],
  ["sour ground that was limed, from what it was", ["pH: 4.4", "pH: 6.6", "pH: 6.7"], 0],
  ["sour ground before and after", ["pH: 4.4", "pH: 4.5", "pH: 6.7", "pH: 6.8"], 0],
  ["a garden built up with compost", ["P: 12", "P: 90", "P: 110"], 0],
  ["a first result far above the rest", ["P: 270", "P: 27", "P: 29"], 1],
  ["one other result, which may be the slip itself", ["K: 100", "K: 501"], 0],
  ["a bound", ["P: 30", "P: 30", 'P: { value: 3, qualifier: "<" }'], 0],
])("%s", (_, years, warnings) => expect(said(...years)).toHaveLength(warnings));

// E-2567 (1995) draws the line between mineral and organic soil at a fifth of organic matter.
it("asks whether a soil is muck or peat whose organic matter is so high, once a zone, unless the field says so", () => {
  const tested = (soil: string, organicMatter: number): string[] => {
    const folder = farmFolder().change(paths.field, "soil: { texture: siltLoam, cec: 14 }", `soil: { ${soil} }`).change(paths.lab, "      K:", "      organicMatter: { method: lossOnIgnition, unit: '%' }\n      K:");
    const earlier = "fields/north/samplings/2024-10-14.yaml";
    const withIt = (file: string, k: string) => folder.write(file, tinyFarm[file]!.replace(k, `${k}\n      organicMatter: ${organicMatter}`));
    withIt(earlier, "K: 96");
    return withIt(paths.sampling, "K: 104").lines();
  };
  expect(tested("texture: siltLoam", 28)).toEqual([`fields/north/samplings/2024-10-14.yaml:13:7: composites[1].results.organicMatter: warning: 28 % is the organic matter of muck or peat, and the soil is not said to be one; is it a slip? If not, write texture: muck in field.yaml`]);
  expect([tested("texture: siltLoam", 20), tested("texture: siltLoam", 20.1), tested("cec: 14", 28), tested("texture: muck", 28), tested("soilClass: organic", 28)].map((lines) => lines.length)).toEqual([0, 1, 1, 0, 0]);
});

it("takes a pH far above all before it for what lime did, where lime is recorded between", () => {
  const load = (product: string, zone: string) => `{ date: 2018-04-20, product: ${product}, zones: [${zone}], rate: { value: 9, unit: ton/ac } }`;
  const years = ["pH: 4.4", "pH: 4.5", "pH: 6.7"] as const;
  expect(saidAfter(load("ground-limestone", "west"), ...years)).toEqual([]);
  expect(saidAfter(load("ground-limestone", "east"), ...years)).toHaveLength(1);
  // Limed before the result that is still low, or after the one that is high.
  expect(saidAfter(load("ground-limestone", "west"), "pH: 4.4", "pH: 4.5", "pH: 4.5", "pH: 6.7")).toHaveLength(1);
  expect(saidAfter(load("ground-limestone", "west").replace("2018-04-20", "2019-10-19"), ...years)).toHaveLength(1);
  expect(saidAfter("{ date: 2018-04-20, product: potash, rate: { value: 100, unit: lb/ac } }", ...years)).toHaveLength(1);
  // Lime lowers no pH, and does not multiply potassium.
  expect(saidAfter(load("ground-limestone", "west"), "pH: 6.6", "pH: 6.6", "pH: 4.4")).toHaveLength(1);
  expect(saidAfter(load("ground-limestone", "west"), "K: 100", "K: 100", "K: 600")).toHaveLength(1);
});

it("compares no result with one of another method or depth", () => {
  const folder = farmFolder().remove("fields/north/samplings");
  const write = (day: string, more: string, k: number, depth = 8) => folder.write(`fields/north/samplings/${day}.yaml`, `date: ${day}\npurpose: routine\nlab: north-lab\npackage: basic\n${more}depth: { from: 0, to: ${depth}, unit: in }\ncomposites:\n  - { label: "${day}", zone: west, results: { K: ${k} } }\n`);
  write("2015-10-18", "", 90);
  write("2017-10-18", "", 100);
  write("2019-10-18", "measured: { K: { method: ammoniumAcetate, finish: icp, unit: ppm } }\n", 550);
  write("2021-10-18", "", 560, 2);
  expect(folder.lines().filter((line) => line.includes("slip"))).toEqual([]);
});
