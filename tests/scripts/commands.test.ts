import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { runCommand } from "../../scripts/command.ts";
import { commands } from "../../scripts/commands.ts";
import { installation } from "../../scripts/options.ts";
import { ranApart, ranHere } from "../support/command.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";
import { paths } from "../support/tinyFarm.ts";

const { scripts } = JSON.parse(readFileSync(join(installation, "package.json"), "utf8")) as { scripts: Record<string, string> };

describe.each(Object.keys(commands))("npm run %s", (name) => {
  it("starts the command of its name", () => expect(scripts[name]).toBe(`node scripts/main.ts ${name}`));

  it("with --help explains itself and does nothing", async () => {
    const from = temporaryFolder();
    for (const args of [["--help", "--another"], ["-h", "--another"], ["help"]]) {
      const { status, stdout, stderr } = await ranHere(name, args, { from });
      expect([status, stderr]).toEqual([0, ""]);
      expect(stdout).toMatch(new RegExp(`^npm (run (-s )?)?${name}\\b`));
    }
    expect(readdirSync(from)).toEqual([]);
  });
});

it.each(Object.keys(commands).filter((name) => !["pictures", "schemas", "test", "bench"].includes(name)))("%s refuses an option that has two values, of which only one would count", async (name) => {
  const from = temporaryFolder();
  const { status, stdout, stderr } = await ranHere(name, [...(name === "new" ? ["field"] : []), "--content", "here", "--content=there"], { from });
  expect([status, stdout]).toEqual([1, ""]);
  expect(stderr).toMatch(/^--content is given twice; give it once\. Options( of field)?: .*--content, .*--help\n$/);
  expect(readdirSync(from)).toEqual([]);
});

it.each<[name: string, ...args: string[]]>([
  ["check"],
  ["build"],
  ["plan", "north"],
  ["archive", "north/2025-10-18"],
  ["import", "results.csv", "--lab", "north-lab"],
  ["bundle"],
  ["pdf"],
  ["rates"],
  ["new", "field", "--name", "South"],
  ["new", "sampling", "--field", "north", "--date", "2025-10-28"],
  ["zones", "walk.gpx", "--field", "north", "--write"],
  ["redraw", "north", "--end", "A,B", "--begin", "Long", "--since", "2025-11-20", "--write"],
])("%s %s tells of the one mistake in the records, and writes nothing", async (name, ...args) => {
  const from = temporaryFolder();
  for (const file of ["results.csv", "walk.gpx"]) writeFileSync(join(from, file), "");
  const farm = farmFolder().change(paths.field, "zones:", "tilage: tilled\nzones:");
  const before = filesBelow(farm.path);
  const { status, stdout, stderr } = await ranHere(name, [...args, "--content", farm.path], { from, env: { CHROMIUM_PATH: process.execPath, FIELD_OUT: "site" } });
  expect([status, stdout]).toEqual([1, ""]);
  expect(stderr).toMatch(/^fields\/north\/field\.yaml:\d+:1: tilage: is not a key known here; did you mean tillage\?\n/);
  expect([readdirSync(from).sort(), filesBelow(farm.path)]).toEqual([["results.csv", "walk.gpx"], before]);
});

// The others are started in earnest by their own tests.
it.each(["pictures", "schemas", "test", "bench"])("%s starts in a process of its own", (name) => {
  const { status, stdout, stderr } = ranApart(name, ["--help"]);
  expect([status, stderr]).toEqual([0, ""]);
  expect(stdout).toMatch(new RegExp(`^npm (run )?${name}\\b`));
});

it("takes help for the name of something where more stands beside it, and leaves a fault of the program with its cause", async () => {
  expect((await ranHere("plan", ["help", "--out", "x"])).stderr).toMatch(/^there is no field "help"; allowed: /);
  const broken = () => {
    throw new TypeError("ours");
  };
  await expect(runCommand({ about: "", run: broken }, [])).rejects.toThrow("ours");
});

it("names the commands when it is asked for help, and refuses one that there is not in a line", () => {
  const main = (...args: string[]) => spawnSync(process.execPath, [join(installation, "scripts", "main.ts"), ...args], { encoding: "utf8" });
  for (const asked of ["--help", "-h", "help"]) expect(main(asked)).toMatchObject({ status: 0, stderr: "", stdout: expect.stringMatching(/^npm run COMMAND -- \[options\]\n\nCommands: build, check, .*\.\nEach explains itself: npm run COMMAND -- --help\n$/) as string });
  expect(main("chekc")).toMatchObject({ status: 1, stdout: "", stderr: 'there is no command "chekc"; did you mean check?\n' });
  // A word that every object knows is no command either.
  expect(main("toString")).toMatchObject({ status: 1, stdout: "", stderr: expect.stringMatching(/^there is no command "toString"; allowed: build, /) as string });
  expect(main()).toMatchObject({ status: 1, stdout: "", stderr: expect.stringMatching(/^there is no command ""; allowed: build, check, .*\n$/) as string });
});
