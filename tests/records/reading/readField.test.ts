import { describe, expect, it } from "vitest";
import { cropIds } from "../../../src/interpretation/vocabulary.ts";
import { allowedWords } from "../../../src/records/nearMiss.ts";
import { farmFolder, linesAfter } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const { field, sampling, season, zones } = paths;

describe("field.yaml", () => {
  it.each([
    ["a crop that is not known", "crop: corn", "crop: xyz", `8:11: plan[1].crop: the text "xyz" is not known; ${allowedWords("xyz", cropIds)}`],
    ["a yield goal in another kind of unit", "unit: bu/ac", "unit: t/ha", "9:36: plan[1].yieldGoal.unit: a yield of corn must be in bu/ac"],
    ["bushels of a crop that is counted by weight", "crop: corn", "crop: oats", "9:36: plan[1].yieldGoal.unit: a yield of oats must be in ton/ac, t/ha, lb/ac, kg/ha or lb/1000 sq ft"],
    ["bushels of winter wheat, which North America's guidelines call wheat", "crop: corn", "crop: winterWheat", "9:36: plan[1].yieldGoal.unit: a yield of winter wheat must be in ton/ac, t/ha, lb/ac, kg/ha or lb/1000 sq ft; guidelines of North America call it wheat: write crop: wheat"],
    ["a zone that is not there", "crop: corn", "crop: corn\n    zones: [wets]", '9:13: plan[1].zones[1]: zone "wets" is not in field.yaml; did you mean west?'],
    ["two crops planned at once", "plan:", "plan:\n  - { season: 2026, crop: wheat, zones: [east] }", '8:5: plan[2]: zone "east" already has a crop planned for 2026; of two crops in one year plan the first, and write the second into seasons/2026.yaml, where it comes next once the harvest of the first is recorded'],
    ["a letter twice", "letter: B", "letter: A", "5:19: zones.east.letter: letter A is already zone \"west\"'s"],
    ["a letter that is none", "letter: B", "letter: b", "5:19: zones.east.letter: must be one or two capital letters, such as A or AB"],
    ["a letter of three", "letter: B", "letter: ABC", "5:19: zones.east.letter: must be one or two capital letters, such as A or AB"],
    ["a year written short", "season: 2026", "season: 26", "7:13: plan[1].season: 26 is too small; must be at least 1900"],
    ["a guideline that is not known", "plan:", "guidelines: [small-giude]\nplan:", '6:14: guidelines[1]: guideline "small-giude" is not known; did you mean small-guide?'],
  ])("%s", (_, from, to, line) => {
    expect(linesAfter(field, from, to)).toEqual([`${field}:${line}`]);
  });

  it("a zone may have a crop planned for each of two seasons", () => expect(linesAfter(field, "plan:", "plan:\n  - { season: 2027, crop: wheat, zones: [east] }")).toEqual([]));

  // Four degrees of latitude are 444 km; the same of longitude, at 44 degrees, are 321 km.
  it.each([["north", "[-37, 48.002]", 444], ["south", "[-37, 40]", 444], ["west", "[-41.004, 44]", 321], ["east", "[-33, 44]", 321]])("a place to be avoided that lies far %s", (_, place, km) => {
    const [line, ...more] = linesAfter(field, "name: North Field", `name: North Field\navoid:\n  - { what: a road, kind: gravelRoad, where: [[-37, 44.002], ${place}] }`);
    expect(more).toEqual([]);
    expect(Math.abs(Number(/avoid\[1\]\.where\[2\]: lies (\d+) km from the field's zones/.exec(line!)![1]) - km)).toBeLessThan(km / 100);
  });

  it("a place to be avoided is taken as it is where no zone has a boundary", () =>
    expect(farmFolder().remove(zones).change(field, "name: North Field", "name: North Field\navoid:\n  - { what: a road, kind: gravelRoad, where: [[-37, 44.002], [-37, 48.002]] }").lines()).toEqual([]));

  it("no zones", () => {
    expect(farmFolder().write(field, "name: North Field\nzones: {}\n").lines()).toContain(`${field}:2:8: zones: needs at least one zone`);
  });
});

it("the rest of a field is checked even when field.yaml cannot be read", () => {
  const farm = farmFolder()
    .change(field, "letter: B", "letter: b")
    .change(sampling, "K: 104", "Zn: 104")
    .change(season, "product: potash", "product: potas")
    .change(zones, "[-37.004, 44]", "[-370.04, 44]");
  expect(farm.lines()).toEqual([
    `${field}:5:19: zones.east.letter: must be one or two capital letters, such as A or AB`,
    expect.stringMatching(/^fields\/north\/samplings\/2025-10-18\.yaml:14:7: composites\[1\]\.results\.Zn: Zn is not in package/),
    `${season}:9:14: applications[1].product: product "potas" is not in farm.yaml; did you mean potash?`,
    `${zones}:6:23: features[1].geometry.coordinates[1]: is open; the last position must repeat the first`,
    `${zones}:6:24: features[1].geometry.coordinates[1][1]: must be longitude and latitude in degrees (WGS 84), in this order`,
  ]);
});

it("a zone's soil overrides the field's fact by fact, and says where each stands", () => {
  const farm = farmFolder().change(field, "name: East end }", "name: East end, soil: { cec: 9 } }").read().farm;
  expect(farm?.fields[0]?.zones.map((z) => [z.soil.texture, z.soil.cec, z.soil.origins.cec?.line])).toEqual([
    ["siltLoam", 14, 2],
    ["siltLoam", 9, 5],
  ]);
});

it("its target pH and the depth lime is worked into say where they stand", () => {
  const read = farmFolder().change(field, "plan:", "targetPh: { value: 6.5, reason: alfalfa }\nlimeDepth: { value: 6, unit: in }\nplan:").read().farm!.fields[0]!;
  expect([read.targetPh, read.limeDepth]).toEqual([
    { value: 6.5, reason: "alfalfa", origin: { file: field, line: 6, column: 11 } },
    { value: 6, unit: "in", origin: { file: field, line: 7, column: 12 } },
  ]);
});

describe("a starter in the plan", () => {
  const planned = (product: string): string => `yieldGoal: { value: 180, unit: bu/ac }\n    starter: { product: ${product}, rate: { value: 80, unit: lb/ac }, placement: band, rowSpacing: { value: 30, unit: in } }`;
  it("is a fertilizer of farm.yaml", () => {
    const farm = farmFolder().change(field, "yieldGoal: { value: 180, unit: bu/ac }", planned("potash")).read().farm;
    expect(farm?.fields[0]?.plan[0]?.starter).toMatchObject({ fertilizer: { id: "potash" }, placement: "band", source: { record: { line: 10 } } });
  });
  // On it rests that nothing with urea is advised beside the seed.
  it("brings with it that its product holds urea", () => {
    const farm = farmFolder().change("farm.yaml", "K2O: 60 }", "K2O: 60 }\n    holdsUrea: true").change(field, "yieldGoal: { value: 180, unit: bu/ac }", planned("potash")).read().farm;
    expect(farm?.fields[0]?.plan[0]?.starter?.fertilizer.holdsUrea).toBe(true);
  });
  it.each(["ground-limestone", "pottash"])("and not %s", (product) => {
    expect(linesAfter(field, "yieldGoal: { value: 180, unit: bu/ac }", planned(product))).toEqual([
      `${field}:10:25: plan[1].starter.product: "${product}" is not a fertilizer of farm.yaml; ${product === "pottash" ? "did you mean potash?" : "allowed: potash"}`,
    ]);
  });
});

describe("a guaranteed analysis", () => {
  const analysis = "analysis: { N: 0, P2O5: 0, K2O: 60 }";
  it("may be of elements, and name what else it holds", () => {
    expect(linesAfter("farm.yaml", analysis, "analysis: { N: 18, P: 6, K: 12, S: 2, Zn: 0.5 }")).toEqual([]);
  });
  it("is never of an element and its oxide at once, nor leaves one out", () => {
    const message = 'farm.yaml:12:15: products.potash.analysis: needs P2O5 and K2O, or P and K where the label states elements; write 0 for a nutrient it does not hold';
    for (const wrong of ["analysis: { N: 18, P: 6, P2O5: 14, K2O: 12 }", "analysis: { N: 46 }"]) expect(linesAfter("farm.yaml", analysis, wrong).map((l) => l.replace(/:\d+:\d+:/, ":12:15:"))).toEqual([message]);
  });
  it("leaves out no nitrogen, nor potassium or both its ways of being stated", () => {
    expect(linesAfter("farm.yaml", analysis, "analysis: { P2O5: 0, K2O: 60 }")).toEqual([expect.stringMatching(/: products\.potash\.analysis\.N: is missing; must be a number$/)]);
    for (const wrong of ["analysis: { N: 0, P2O5: 46 }", "analysis: { N: 0, P2O5: 0, K2O: 36, K: 30 }"]) expect(linesAfter("farm.yaml", analysis, wrong)[0]).toMatch(/products\.potash\.analysis: needs P2O5 and K2O, or P and K/);
  });
  it("may fill the bag", () => expect(linesAfter("farm.yaml", analysis, "analysis: { N: 0, P2O5: 60, K2O: 40 }")).toEqual([]));
  // South Dakota State: potassium chloride holds about 45 percent of chloride; by atomic weights 60 percent of K2O are 49.8 of K, and pure KCl holds 47.6 of chloride.
  it("counts the potassium of a chloride as the element, since no oxygen is in the bag", () => {
    expect(linesAfter("farm.yaml", analysis, "analysis: { N: 0, P2O5: 0, K2O: 60, Cl: 47 }")).toEqual([]);
    expect(linesAfter("farm.yaml", analysis, "analysis: { N: 0, P2O5: 0, K2O: 62, Cl: 49 }")[0]).toMatch(/adds up to more than 100 percent$/);
  });
  it.each(["N: 50, P2O5: 30, K2O: 30", "N: 45, P2O5: 0, K2O: 60"])("adds up to no more than the bag, as its label counts: %s", (label) =>
    expect(linesAfter("farm.yaml", analysis, `analysis: { ${label} }`)[0]).toMatch(/adds up to more than 100 percent$/));
});

it("text that looks like HTML stays text", () => {
  const text = "<script>alert('x')</script> & <b>";
  const farm = farmFolder()
    .change(field, "name: North Field", `name: "${text}"`)
    .change(sampling, "reason: The sheet says 138.", `reason: "${text}"`)
    .change("farm.yaml", "name: Tiny Farm", `name: "${text}"`)
    .read().farm;
  expect([farm?.name, farm?.fields[0]?.name]).toEqual([text, text]);
  expect(farm?.fields[0]?.samplings[1]?.composites[1]?.measurements[1]?.correction?.reason).toBe(text);
});

it("samplings come oldest first", () => {
  const later = tinyFarm[sampling]!.replaceAll("2025-10", "2026-04");
  const farm = farmFolder().write("fields/north/samplings/2026-04-18-again.yaml", later.replace("2025-11-01", "2026-05-01")).read().farm;
  expect(farm?.fields[0]?.samplings.map((s) => s.id)).toEqual(["2024-10-14", "2025-10-18", "2026-04-18-again"]);
});
