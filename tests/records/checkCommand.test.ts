import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { installation } from "../../scripts/options.ts";
import { type Ran, ranApart, ranHere } from "../support/command.ts";
import { farmFolder, type FarmFolder } from "../support/farmFolder.ts";
import { paths } from "../support/tinyFarm.ts";

const check = (args: readonly string[], from = installation): Promise<Ran> => ranHere("check", args, { from });

/** Whatever happens, a person sees words and no inside of the program. */
const checked = async (farm: FarmFolder, ...args: string[]): Promise<Ran> => {
  const before = filesBelow(farm.path);
  const run = await check(["--content", farm.path, ...args]);
  expect(filesBelow(farm.path)).toEqual(before);
  expect(run.stderr).not.toContain("    at ");
  return run;
};

describe("npm run check", { timeout: 60_000 }, () => {
  it("says what it read and ends with 0", async () => {
    const { status, stdout, stderr } = await checked(farmFolder());
    expect([status, stderr]).toEqual([0, ""]);
    expect(stdout).toMatch(/^Tiny Farm: 1 field, 2 samplings, \d+ files read, 0 warnings, no errors\.\n$/);
  });

  it("prints warnings and still ends with 0", async () => {
    const { status, stdout, stderr } = await checked(farmFolder().change(paths.sampling, "pH: 6.2", "pH: 62"));
    expect(status).toBe(0);
    expect(stdout).toMatch(/, 1 warning, no errors\.\n$/);
    expect(stderr).toBe(`${paths.sampling}:11:7: composites[1].results.pH: warning: 62 is outside what soil shows (3 to 10.5); check the sheet\n`);
  });

  it.each<[string, (farm: FarmFolder) => FarmFolder, string]>([
    ["a misspelled key", (f) => f.change(paths.sampling, "bufferPh", "bufferPH"), `${paths.sampling}:12:7: composites[1].results.bufferPH: is not a key known here; did you mean bufferPh?`],
    ["a broken file", (f) => f.write(paths.farm, "a: [\n"), "farm.yaml:2:1: file: a list opened with [ is not closed with ]"],
    ["a hundred thousand brackets", (f) => f.write(paths.field, "[".repeat(100_000)), `${paths.field}:1:201: file: is nested too deeply to be a record`],
    ["bytes that are no text", (f) => f.write(paths.lab, Uint8Array.from([0xff, 0xfe, 0])), `${paths.lab}:1:1: file: is not UTF-8 text; save it as UTF-8`],
    ["a link to nothing", (f) => f.remove(paths.zones).link(paths.zones, "nowhere"), `${paths.zones}:1:1: file: is a link to nothing`],
    ["a package called like nothing", (f) => f.change(paths.sampling, "package: basic", "package: constructor"), `${paths.sampling}:4:10: package: package "constructor" is not offered by north-lab; allowed: basic`],
    ["a list as a key", (f) => f.change(paths.sampling, "package: basic", "? [a]\n: 1\npackage: basic"), `${paths.sampling}:4:3: file: a key must be a word`],
  ])("ends with 1 and one line for %s", async (_, spoil, line) => {
    const { status, stdout, stderr } = await checked(spoil(farmFolder()));
    expect(stderr).toBe(`${line}\n\n1 error. Nothing was written.\n`);
    expect([status, stdout]).toEqual([1, ""]);
  });

  it.each([
    ["an option it does not know", ["--contnet", "x"], "Unknown option '--contnet'; did you mean --content? Options: --content, --today, --help\n"],
    ["a word without an option", ["x"], /^Unexpected argument 'x'/],
    ["a path without its option, and quotes it whole", ["./content"], "Unexpected argument './content'. Options: --content, --today, --help\n"],
    ["an option without its value", ["--today"], "--today has no value; one that begins with a hyphen is written --today=VALUE. Options: --content, --today, --help\n"],
    ["a day that is none", ["--today", "2025-02-30"], '--today must be a calendar day written YYYY-MM-DD, not "2025-02-30"\n'],
    ["a day in another order", ["--today", "18/10/2025"], '--today must be a calendar day written YYYY-MM-DD, not "18/10/2025"\n'],
  ])("refuses %s in one line", async (_, args, message) => {
    const { status, stdout, stderr } = await checked(farmFolder(), ...args);
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toMatch(typeof message === "string" ? new RegExp(`^${message.replace(/[.()?]/g, "\\$&")}$`) : message);
    expect(stderr.trim().split("\n")).toHaveLength(1);
  });

  it("explains itself", async () => {
    const { status, stdout, stderr } = await check(["--help"]);
    expect([status, stderr]).toEqual([0, ""]);
    expect(stdout).toContain("npm run check -- [options]");
    for (const option of ["--content DIR", "--today YYYY-MM-DD", "--help"]) expect(stdout).toContain(option);
  });

  it("says so when there is no such folder", async () => {
    const { status, stderr } = await check(["--content", "not-here"], farmFolder().path);
    expect(status).toBe(1);
    expect(stderr).toContain("not-here:1:1: file: is not a folder; give the folder that holds farm.yaml with --content");
    expect(stderr).not.toContain("    at ");
  });

  it("takes the folder from where a person stood, also from the environment", () => {
    const farm = farmFolder();
    const npm = spawnSync("npm", ["--prefix", installation, "run", "-s", "check", "--", "--content", "."], { cwd: farm.path, encoding: "utf8" });
    expect([npm.status, npm.stderr]).toEqual([0, ""]);
    expect(npm.stdout).toContain("Tiny Farm");
    expect(ranApart("check", [], { from: farm.path, env: { FIELD_CONTENT: "." } }).stdout).toBe(npm.stdout);
  });
});
