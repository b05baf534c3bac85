import { describe, expect, it } from "vitest";
import { farmFolder, linesAfter, type FarmFolder } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const { field, sampling, season, zones, guideline } = paths;
const earlier = "fields/north/samplings/2024-10-14.yaml";

describe("the tiny farm", () => {
  it("reads without a word", () => {
    const { farm, problems } = farmFolder().read();
    expect(problems).toEqual([]);
    expect(farm).toMatchObject({ name: "Tiny Farm", files: Object.keys(tinyFarm).length });
    expect(farm?.guidelines.map((g) => g.id)).toEqual(["small-guide"]);
  });

  it("speaks from its newest date, or from the day given", () => {
    // A result was corrected after the laboratory's report of 27 October, and pages show it so.
    expect(farmFolder().read().farm?.today).toBe("2025-11-01");
    expect(farmFolder().write(sampling, tinyFarm[sampling]!.replace(/corrections:[^]*/, "")).read().farm?.today).toBe("2025-10-27");
    expect(farmFolder().read({ today: "2026-02-01" }).farm?.today).toBe("2026-02-01");
  });
});

describe("problems of a run", () => {
  const spoiled = (): FarmFolder =>
    farmFolder()
      .change("farm.yaml", "units: us", "units: usa")
      .change(field, "letter: B", "letter: b")
      .write(earlier, tinyFarm[earlier]!.replace("pH: 6.1", "pH: 61").replace("K: 96", "K: 960"))
      .change(sampling, "lab: north-lab", "lab: x")
      .change(season, "season: 2025", "season: 2024")
      .change(guideline, "publication: bulletin-1", "publication: bulletin-2");

  it("are all told at once, by file, line and column", () => {
    expect(spoiled().lines()).toEqual([
      `farm.yaml:2:8: units: the text "usa" is not known; did you mean us?`,
      `${field}:5:19: zones.east.letter: must be one or two capital letters, such as A or AB`,
      `${earlier}:11:7: composites[1].results.pH: warning: 61 is outside what soil shows (3 to 10.5); check the sheet`,
      `${earlier}:12:7: composites[1].results.K: warning: 960 ppm is unusually high; is it lb/ac, which is about twice the ppm?`,
      `${sampling}:3:6: lab: laboratory "x" has no file in labs; allowed: north-lab`,
      `${season}:1:9: season: must be the year in the file's name, 2025`,
      `${guideline}:3:14: publication: reference "bulletin-2" is not in references.yaml; did you mean bulletin-1?`,
    ]);
  });

  it("leave no farm when one of them is an error", () => {
    expect(spoiled().read().farm).toBeUndefined();
    expect(farmFolder().change(field, "letter: B", "letter: b").read().farm).toBeUndefined();
  });

  it("leave a farm when all are warnings", () => {
    const farm = farmFolder().change(sampling, "pH: 6.2", "pH: 62").remove(zones).write(zones, '{ "type": "FeatureCollection", "features": [] }');
    const { farm: read, problems } = farm.read();
    expect(problems.map((p) => p.severity)).toEqual(["warning", "warning", "warning"]);
    expect(read?.fields).toHaveLength(1);
  });
});

describe("what a farm must have", () => {
  it("a folder", () => {
    expect(farmFolder().lines({ content: "/nowhere-at-all" })).toEqual(["/nowhere-at-all:1:1: file: is not a folder; give the folder that holds farm.yaml with --content"]);
  });

  it("farm.yaml", () => {
    expect(farmFolder().remove("farm.yaml").lines()).toEqual(["farm.yaml:1:1: file: is missing; every farm needs one"]);
  });

  it("a field", () => {
    expect(farmFolder().remove("fields").lines()).toEqual(["fields:1:1: file: holds no field; a farm needs at least one"]);
  });

  it("field.yaml in each field's folder", () => {
    expect(farmFolder().folder("fields/south").lines()).toEqual(["fields/south/field.yaml:1:1: file: is missing; every field's folder needs one"]);
  });

  it("a guideline that is known", () => {
    expect(linesAfter("farm.yaml", "[small-guide]", "[small-guide, other]")).toEqual([
      'farm.yaml:4:27: guidelines[2]: guideline "other" is not known; allowed: small-guide',
    ]);
  });
});
