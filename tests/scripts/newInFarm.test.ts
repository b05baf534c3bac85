import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../scripts/options.ts";
import { ranHere } from "../support/command.ts";
import type { FarmFolder } from "../support/farmFolder.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";
import { make } from "../support/newRecord.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

const library = join(installation, "content");
const textOf = (farm: FarmFolder, file: string): string => readFileSync(join(farm.path, file), "utf8");
const twoFields = (): FarmFolder => farmFolder().write("fields/norden/field.yaml", "name: Norden\nzones: { all: { letter: A, name: All } }\n");
const told = async (farm: FarmFolder, ...args: string[]): Promise<string[]> => (await make(farm.path, args)).stderr.trimEnd().split("\n");

/** What a new record takes from the farm and the field that it is made for. */
describe("npm run new, in a farm", () => {
  it("has its examples in the units of the field, also where the farm has others, and of a fertilizer", async () => {
    const farm = farmFolder().write(paths.field, `units: metric\n${tinyFarm[paths.field]!}`);
    await make(farm.path, ["season", "--field", "north", "--year", "2026", "--crop", "corn"]);
    expect(textOf(farm, "fields/north/seasons/2026.yaml")).toContain("product: potash, rate: { value: 100, unit: kg/ha }");
    await make(farm.path, ["sampling", "--field", "north", "--date", "2026-10-01"]);
    expect(textOf(farm, "fields/north/samplings/2026-10-01.yaml")).toContain('tool: "tube probe, 2 cm"');
  });

  it("has a new field's examples in the units of the farm", async () => {
    const farm = farmFolder().change(paths.farm, "units: us", "units: metric");
    expect(await make(farm.path, ["field", "--name", "South"])).toEqual({ status: 0, stderr: "", stdout: "Written: fields/south/field.yaml\n" });
    expect(textOf(farm, "fields/south/field.yaml")).toContain("#limeDepth: { value: 20, unit: cm }");
  });

  it("labels bags by a code that no other field has, and as no bag is labeled, in capitals or not", async () => {
    const farm = twoFields().change("fields/north/samplings/2024-10-14.yaml", '"0011"', "nort-a-2610-1");
    await make(farm.path, ["sampling", "--field", "north", "--date", "2026-10-01"]);
    expect(textOf(farm, "fields/north/samplings/2026-10-01.yaml").match(/label: .*/g)).toEqual(['label: "NORT-A-2610-2"', 'label: "NORT-B-2610-1"']);
  });

  it("has as many cores for an example as the plan would take, and nitrate for a result where the guidelines read no nitrogen", async () => {
    const farm = farmFolder().change(paths.farm, "[small-guide]", "[small-guide, ie-teagasc]");
    await make(farm.path, ["sampling", "--field", "north", "--date", "2026-10-01"]);
    const planned = await ranHere("plan", ["north", "--date", "2026-10-01", "--content", farm.path, "--out", join(temporaryFolder(), "plan")]);
    const cores = /Label \S+: East end, (\d+) cores/.exec(planned.stdout)![1]!;
    expect(cores).not.toBe("15");
    expect(textOf(farm, "fields/north/samplings/2026-10-01.yaml")).toContain(`    #cores: ${cores}\n`);
    const plain = farmFolder();
    await make(plain.path, ["sampling", "--field", "north", "--date", "2026-10-01", "--purpose", "nitrate"]);
    expect(textOf(plain, "fields/north/samplings/2026-10-01-nitrate.yaml")).toContain("# results: { nitrateN: 42 }");
  });

  it("tells of an answer that is missing only what does not hang on the field, where that is not known", async () => {
    const farm = twoFields().write("labs/south-lab.yaml", tinyFarm[paths.lab]!);
    expect(await told(farm, "sampling", "--depth", "0-8", "--lab", "nroth-lab")).toEqual([
      '--lab: "nroth-lab" is not known here; did you mean north-lab?',
      '--depth: must be written like 0-8 in or 0-15 cm, not "0-8"',
      "missing: --field (which field: norden, north); --date (the day of sampling, YYYY-MM-DD)",
    ]);
    expect(await told(farm, "sampling", "--field", "norden")).toEqual(["missing: --date (the day of sampling, YYYY-MM-DD); --lab (laboratory: north-lab, south-lab)"]);
  });

  it("knows where the value of an option ends that stands behind an equals sign", async () => {
    expect(await told(farmFolder(), "field", "--name=South", "--crop", "corn")).toEqual(["--crop: is no option of field; allowed: --name, --zones, --content"]);
    expect(await told(farmFolder(), "field", "--crop=corn", "South")).toEqual(["Unexpected argument 'South'. Options of field: --name, --zones, --content, --help"]);
  });

  it("is made in the folder that is named from where the person stands, be it the first field, with something doubtful beside it", async () => {
    const farm = farmFolder().remove("fields/north").change(paths.farm, "K2O: 60", "K2O: 0.6");
    expect(await ranHere("new", ["field", "--name", "South", "--content", "."], { from: farm.path })).toMatchObject({ status: 0, stderr: expect.stringMatching(/^farm\.yaml:\S+ \S+ warning: looks like shares of one/) as string });
    expect(farm.read({ library }).farm!.fields.map((f) => f.id)).toEqual(["south"]);
  });

  it("asks a person at a terminal one thing after another, and says what will not do", async () => {
    const farm = twoFields();
    expect(await make(farm.path, ["season"], ["south", "norden", "26", "2026", "Winter wheat"])).toEqual({
      status: 0,
      stdout: "Written: fields/norden/seasons/2026.yaml\n",
      stderr: 'Which field: norden, north:   "south" is not known here; allowed: norden, north\nWhich field: norden, north: Which year:   must be a year such as 2025, not "26"\nWhich year: Which crop: ',
    });
  });
});
