import { appendFileSync, cpSync, existsSync, linkSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { filesBelow } from "../../scripts/checkLinks.ts";
import { installation } from "../../scripts/options.ts";
import { ranApart, ranHere } from "../support/command.ts";
import { farmFolder, temporaryFolder } from "../support/farmFolder.ts";

const rates = (...args: string[]) => ranHere("rates", args);
const metric = join(installation, "tests", "fixtures", "metric");

it("writes every rate map with its boundaries, and the same bytes a second time", async () => {
  const out = temporaryFolder();
  const { status, stdout } = await rates("--content", metric, "--out", out);
  expect(status).toBe(0);
  expect(stdout).toContain("8 rate maps in");
  const files = filesBelow(out);
  expect(files).toEqual(expect.arrayContaining(["metric/lime-limestone.csv", "metric/lime-limestone.geojson", "metric/lime-limestone.zip"]));
  // 3.6 t/ha on one hectare, £115: worked in tests/fixtures/metric.test.ts.
  expect(readFileSync(join(out, "metric/lime-limestone.csv"), "utf8")).toContain("longstrand,east,ground limestone,winterWheat,2026,3.6,1,3.6,1,3.6,115.2,");
  const first = files.map((f) => readFileSync(join(out, f)));
  expect(ranApart("rates", ["--content", metric, "--out", out]).status).toBe(0);
  expect(files.map((f) => readFileSync(join(out, f)))).toEqual(first);
}, 60_000);

it("puts a whole new file in the place of an older one, and nothing among the records", async () => {
  const out = temporaryFolder();
  mkdirSync(join(out, "metric"));
  const [file, kept] = [join(out, "metric", "lime-limestone.csv"), join(out, "kept.csv")];
  writeFileSync(file, "of last year");
  // A second name for the older file: it would change too, were the file written over.
  linkSync(file, kept);
  expect((await rates("--content", metric, "--out", out)).status).toBe(0);
  expect([readFileSync(kept, "utf8"), readFileSync(file, "utf8").length > 100]).toEqual(["of last year", true]);
  const farm = farmFolder();
  const before = filesBelow(farm.path);
  const { status, stderr } = await rates("--content", farm.path, "--out", join(farm.path, "maps"));
  expect([status, stderr]).toEqual([1, `--out ${join(farm.path, "maps")} is inside the records; choose a place outside them\n`]);
  expect(filesBelow(farm.path)).toEqual(before);
}, 60_000);

it("never lays what a reader is shown among files that he is not shown", async () => {
  const [farm, home] = [temporaryFolder(), temporaryFolder()];
  cpSync(metric, farm, { recursive: true });
  appendFileSync(join(farm, "farm.yaml"), "audiences:\n  landlord: { name: the landlord, leaveOut: [positions] }\n");
  const run = (...args: string[]) => ranHere("rates", ["--content", farm, ...args], { from: home });
  await run();
  const owners = filesBelow(home);
  expect(owners).toContain("rate-maps/metric/lime-limestone.geojson");
  // The owner's own maps tell where the fields lie.
  const { status, stderr } = await run("--audience", "landlord", "--out", "rate-maps");
  expect([status, stderr]).toEqual([1, `--out ${join(home, "rate-maps")} holds ${owners.map((f) => f.replace("rate-maps/", "")).find((f) => !f.endsWith(".csv"))}, which is none of the files for landlord; choose an empty or new folder\n`]);
  expect(filesBelow(home)).toEqual(owners);
  for (const time of ["first", "second"]) expect((await run("--audience", "landlord")).status, time).toBe(0);
  const his = filesBelow(join(home, "rate-maps-for-landlord"));
  expect(his).toEqual(owners.map((f) => f.replace("rate-maps/", "")).filter((f) => f.endsWith(".csv")));
}, 60_000);

it("says what it does not understand, and writes nothing", async () => {
  const out = join(temporaryFolder(), "maps");
  const { status, stderr } = await rates("--content", metric, "--out", out, "--today", "tomorrow");
  expect([status, stderr.trim()]).toEqual([1, '--today must be a calendar day written YYYY-MM-DD, not "tomorrow"']);
  expect(existsSync(out)).toBe(false);
}, 60_000);
