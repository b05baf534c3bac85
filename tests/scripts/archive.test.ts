import { spawnSync } from "node:child_process";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../scripts/options.ts";
import { canonicalJson } from "../../src/records/sealing/canonicalJson.ts";
import { advisedFarm, archivedFarm, frozenPath, issued, issuedText, read } from "../support/archived.ts";
import { ranApart, ranHere } from "../support/command.ts";
import type { FarmFolder } from "../support/farmFolder.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";
import { paths } from "../support/tinyFarm.ts";
import { Random } from "../support/random.ts";

/** Run the command on a farm's folder, as a person would. */
const archive = (folder: FarmFolder, args: readonly string[]) => ranHere("archive", [...args, "--content", folder.path], { from: folder.path });

const shuffled = <T>(items: readonly T[], seed: number): T[] => {
  const random = new Random(seed);
  return items
    .map((item) => ({ item, place: random.next() }))
    .sort((a, b) => a.place - b.place)
    .map(({ item }) => item);
};

const advised = (): FarmFolder => farmFolder(Object.entries(advisedFarm));
/** With the goal that was planned for the harvest of 2025. */
const withGoal = (farm: FarmFolder): FarmFolder => farm.write("fields/north/field.yaml", advisedFarm["fields/north/field.yaml"]!.replace("plan:\n", "plan:\n  - { season: 2025, crop: corn, yieldGoal: { value: 180, unit: bu/ac } }\n"));
const usual = ["north/2025-10-18", "--date", issued, "--for", "the landlord"];

describe("npm run archive", { timeout: 60_000 }, () => {
  it("writes the advice, says where, and check proves it", async () => {
    const farm = advised();
    const { status, stdout, stderr } = await archive(farm, usual);
    expect([status, stderr]).toEqual([0, ""]);
    expect(stdout).toMatch(new RegExp(`^${frozenPath}: advice of 2025-11-10 for the landlord, from the sampling of 2025-10-18\\. Seal sha256:[0-9a-f]{64}\\.\nWritten to ${frozenPath}\\. Keep it under version control and do not edit it\\.\n$`));
    expect(readFileSync(join(farm.path, frozenPath), "utf8")).toBe(issuedText);
    expect(farm.lines()).toEqual([]);
  });

  it("refuses to write it a second time, and leaves the first", async () => {
    const farm = archivedFarm();
    const { status, stderr } = await archive(farm, ["north/2024-10-14", "--date", issued]);
    expect([status, stderr]).toEqual([1, `${frozenPath} is there already and is never overwritten; advice of another day takes --date\n`]);
    expect(readFileSync(join(farm.path, frozenPath), "utf8")).toBe(issuedText);
  });

  it("is of the newest day in the records, for the farm, where nothing else is said", async () => {
    const farm = advised();
    const { status, stdout } = await archive(farm, ["north/2025-10-18"]);
    expect(status).toBe(0);
    // The report of the newest sampling came on 27 October, and a result of it was corrected on 1 November.
    expect(stdout).toContain("fields/north/recommendations/2025-11-01.yaml: advice of 2025-11-01 for Tiny Farm,");
    expect((await archive(farm, ["north/2025-10-18", "--today", "2025-12-24"])).stdout).toContain("recommendations/2025-12-24.yaml");
  });

  it("writes nothing where the records have a mistake", async () => {
    const farm = advised().write("fields/north/field.yaml", advisedFarm["fields/north/field.yaml"]!.replace("corn", "cron"));
    const { status, stderr } = await archive(farm, usual);
    expect(status).toBe(1);
    expect(stderr).toMatch(/^fields\/north\/field\.yaml:8:\d+: plan\[1\]\.crop: .*did you mean corn\?\n$/);
    expect(existsSync(join(farm.path, "fields/north/recommendations"))).toBe(false);
  });

  // What the advice rests on was known on its day, or is no yield of a harvest.
  it.each([
    ["on the sampling's own day, where no day of a report is recorded", ["north/2024-10-14", "--date", "2024-10-14"], withGoal],
    ["on the day that a result was corrected", ["north/2025-10-18", "--date", "2025-11-01"], (farm: FarmFolder) => farm],
    ["on the day of the report, where nothing was corrected", ["north/2025-10-18", "--date", "2025-10-27"], (farm: FarmFolder) => farm.write(paths.sampling, advisedFarm[paths.sampling]!.replace(/corrections:[^]*/, ""))],
    ["on the day of the harvest", ["north/2024-10-14", "--date", "2025-10-10"], (farm: FarmFolder) => farm],
    ["where that day's goal was planned", ["north/2024-10-14", "--date", "2025-03-01"], withGoal],
    ["where the harvest's yield is not recorded", ["north/2024-10-14", "--date", "2025-03-01"], (farm: FarmFolder) => farm.write(paths.season, advisedFarm[paths.season]!.replace("    yield: { value: 171, unit: bu/ac }\n", ""))],
    ["where the crop grew on a zone that was not sampled", ["north/2024-10-14", "--date", "2025-03-01"], (farm: FarmFolder) => farm.write(paths.season, advisedFarm[paths.season]!.replace("crop: corn\n", "crop: corn\n    zones: [east]\n")).write("fields/north/samplings/2024-10-14.yaml", advisedFarm["fields/north/samplings/2024-10-14.yaml"]!.replace(/ {2}- label: "0012"[\s\S]*/, ""))],
  ])("writes it %s", async (_, args, change) => {
    const farm = change(advised());
    expect(farm.lines().filter((line) => !line.includes(": warning: "))).toEqual([]);
    const { status, stderr } = await archive(farm, args);
    expect(stderr.split("\n").filter((line) => line !== "" && !/warning/.test(line))).toEqual([]);
    expect(status).toBe(0);
    expect(existsSync(join(farm.path, `fields/north/recommendations/${args[2]!}.yaml`))).toBe(true);
  });

  it("explains itself", async () => {
    const { status, stdout } = await archive(advised(), ["--help"]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^npm run archive -- <field>\/<sampling> /);
    for (const option of ["--for", "--date", "--today", "--content", "--help"]) expect(stdout).toContain(`\n  ${option} `);
  });

  it.each([
    ["a field that is not there", ["nort/2025-10-18"], 'there is no field "nort"; did you mean north?\n'],
    ["a sampling that is not there", ["north/2025-10-81"], 'field "north" has no sampling "2025-10-81"; did you mean 2025-10-18?\n'],
    ["no sampling", [], 'give one sampling as <field>/<sampling>, such as north/2025-10-18, not ""\n'],
    ["a field alone", ["north"], 'give one sampling as <field>/<sampling>, such as north/2025-10-18, not "north"\n'],
    ["two samplings", ["north/2025-10-18", "north/2024-10-14"], 'give one sampling as <field>/<sampling>, such as north/2025-10-18, not "north/2025-10-18 north/2024-10-14"\n'],
    ["a way out of the folder", ["north/../2025-10-18"], 'give one sampling as <field>/<sampling>, such as north/2025-10-18, not "north/../2025-10-18"\n'],
    ["a day that is none", ["north/2025-10-18", "--date", "2025-02-30"], '--date must be a calendar day written YYYY-MM-DD, not "2025-02-30"\n'],
    ["a day before the sampling", ["north/2025-10-18", "--date", "2025-10-17"], "the sampling is of 2025-10-18; advice from it cannot be issued on 2025-10-17\n"],
    ["a day before the laboratory reported", ["north/2025-10-18", "--date", "2025-10-26"], "the laboratory reported on 2025-10-27; advice from its results cannot be issued on 2025-10-26\n"],
    ["a day before a result was corrected", ["north/2025-10-18", "--date", "2025-10-31"], "potassium of bag 0022 was corrected on 2025-11-01, which nobody knew on 2025-10-31; issue the advice on that day or later\n"],
    ["a day before the harvest that the advice would rest on", ["north/2024-10-14", "--date", "2025-03-01"], "the advice would rest on what corn yielded in 2025, which nobody knew on 2025-03-01; write the crop and the yield goal of that day under plan: in field.yaml, with season: 2025\n"],
    ["nobody to write for", ["north/2025-10-18", "--for", " "], "--for needs a name\n"],
    ["an option it does not know", ["north/2025-10-18", "--force"], "Unknown option '--force'. Options: --for, --date, --today, --content, --help\n"],
  ])("is told about %s in one line", async (_, args, message) => {
    const farm = advised();
    const { status, stderr } = await archive(farm, args);
    expect([status, stderr]).toEqual([1, message]);
    expect(existsSync(join(farm.path, "fields/north/recommendations"))).toBe(false);
  });

  it("nor of a day before the harvest of all that its ground became", async () => {
    const farm = advised().remove(paths.zones).remove("fields/north/samplings/2025-10-18.yaml").change(paths.season, "zones: [west]", "zones: [long]");
    farm.write("fields/north/samplings/2024-10-14.yaml", advisedFarm["fields/north/samplings/2024-10-14.yaml"]!.replace(/ {2}- label: "0012"[\s\S]*/, ""));
    farm.write(paths.field, advisedFarm[paths.field]!.replace(/^( {2}west: \{.*) \}$/m, "$1, until: 2025-01-10 }\n  long: { letter: C, name: Long piece, since: 2025-01-10, formerly: [west] }"));
    const { status, stderr } = await archive(farm, ["north/2024-10-14", "--date", "2024-12-01"]);
    expect(stderr).toContain("the advice would rest on what corn yielded in 2025, which nobody knew on 2024-12-01;");
    expect(status).toBe(1);
  });

  it("is not written of a day before the bags came, where the day of the report is not recorded", async () => {
    const farm = advised().change("fields/north/samplings/2025-10-18.yaml", ", reportedOn: 2025-10-27", "");
    const { status, stderr } = await archive(farm, ["north/2025-10-18", "--date", "2025-10-19"]);
    expect([status, stderr]).toEqual([1, "the laboratory received the bags on 2025-10-20; advice from its results cannot be issued on 2025-10-19\n"]);
  });
});

describe("on another machine", { timeout: 60_000 }, () => {
  const elsewhere = [
    { TZ: "Pacific/Kiritimati", LANG: "tr_TR.UTF-8", LC_ALL: "tr_TR.UTF-8" },
    { TZ: "America/St_Johns", LANG: "C", LC_ALL: "C" },
  ];

  it.each(elsewhere)("with TZ $TZ and LC_ALL $LC_ALL, and files written in another order, the same bytes are written", (env) => {
    const farm = farmFolder(shuffled(Object.entries(advisedFarm), 20251018));
    expect(ranApart("archive", [...usual, "--content", farm.path], { from: farm.path, env }).status).toBe(0);
    expect(readFileSync(join(farm.path, frozenPath), "utf8")).toBe(issuedText);
  });

  it.each(elsewhere)("with TZ $TZ and LC_ALL $LC_ALL, its kept inputs give the same answers to the byte", (env) => {
    const farm = farmFolder(shuffled([...Object.entries(advisedFarm), [frozenPath, issuedText] as const], 7));
    const src = (file: string): string => JSON.stringify(join(installation, "src", file));
    const program = join(temporaryFolder(), "replay.ts");
    writeFileSync(
      program,
      `import { readFarm } from ${src("records/reading/readFarm.ts")};
import { canonicalJson } from ${src("records/sealing/canonicalJson.ts")};
import { answersFromKept } from ${src("views/issued/replay.ts")};
const { farm } = readFarm({ content: process.argv[2]! });
process.stdout.write(canonicalJson(answersFromKept(farm!.fields[0]!.recommendations[0]!, farm!)));
`,
    );
    const { stdout, stderr } = spawnSync(process.execPath, [program, farm.path], { encoding: "utf8", env: { ...process.env, ...env } });
    expect(stderr).toBe("");
    expect(stdout).toBe(canonicalJson(read(archivedFarm()).frozen.record.zones.map((z) => z.answers)));
  });
});
