import { describe, expect, it, vi } from "vitest";
import { chmodSync, mkdirSync, readdirSync, symlinkSync, utimesSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { diskTrouble, isWithin, parsedArguments, readOptions, workFolder } from "../../scripts/options.ts";
import { putInPlace } from "../../scripts/wholeFolder.ts";
import { createFile } from "../../src/records/wholeWrite.ts";
import { ranHere } from "../support/command.ts";
import { temporaryFolder } from "../support/farmFolder.ts";

it.each([
  ["EACCES", "permission is denied"],
  ["EPERM", "it is not permitted"],
  ["EISDIR", "a folder stands where a file should"],
  ["ENAMETOOLONG", "its name is too long"],
  ["EROFS", "the disk takes no writing"],
  ["ENOSPC", "the disk is full"],
  ["ENOTDIR", "a file stands where a folder should"],
  ["EEXIST", "a file stands where a folder should"],
  ["EIO", "the system answers EIO"],
  ["ENOENT", "no folder can be made there", "cp"],
  ["ENOENT", "no folder can be made there", "mkdir"],
  ["ENOENT", "no folder can be made there", "mkdtemp"],
])("tells of a disk that refuses (%s) in a sentence", (code, words, syscall = "open") => {
  const cause = Object.assign(new Error(`${code}: ${syscall}`), { code, syscall, path: "fields/north/field.yaml" });
  expect(diskTrouble(cause)).toBe(`fields/north/field.yaml could not be read or written: ${words}. Nothing was left half-written.`);
});

it.each<[string, (path: string, full: () => never) => unknown]>([
  ["a record", (path, full) => createFile(path, "text", full)],
  ["a folder", (path, full) => putInPlace(path, full)],
])("tells where %s did not fit on a full disk, of which the system names no file", (_, write) => {
  const path = join(temporaryFolder(), "new");
  const full = (): never => {
    throw Object.assign(new Error("ENOSPC: no space left on device, write"), { code: "ENOSPC", syscall: "write" });
  };
  let cause: unknown;
  try {
    write(path, full);
  } catch (caught) {
    cause = caught;
  }
  expect(diskTrouble(cause)).toBe(`${path} could not be read or written: the disk is full. Nothing was left half-written.`);
  expect(readdirSync(dirname(path))).toEqual([]);
});

it.each<[string, (path: string, refused: (at: string) => never) => unknown]>([
  ["a record", (path, refused) => createFile(path, "text", () => refused(join(dirname(path), readdirSync(dirname(path))[0]!)))],
  ["a folder", (path, refused) => putInPlace(path, (fresh) => refused(join(fresh, "plan.gpx")))],
])("tells of %s by the name that was asked for, not by the one that it has while it is written", (_, write) => {
  const path = join(temporaryFolder(), "new");
  let cause: unknown;
  try {
    write(path, (at) => {
      throw Object.assign(new Error(`EACCES: permission denied, open '${at}'`), { code: "EACCES", syscall: "open", path: at });
    });
  } catch (caught) {
    cause = caught;
  }
  expect(diskTrouble(cause)).toBe(`${path} could not be read or written: permission is denied. Nothing was left half-written.`);
});

it.each([
  ["where the system alone makes folders", "/proc", "no folder can be made there"],
  ["below a file", import.meta.filename, "a file stands where a folder should"],
])("comes to an end where a folder cannot be made, %s", async (_, above, why) => {
  // Linux alone has a /proc; elsewhere a folder called so is refused in other words.
  const says = process.platform === "linux" || above !== "/proc" ? why : "";
  for (const [name, ...args] of [["plan", "netloft"], ["rates"]] as const)
    for (const out of [join(above, "new"), join(above, "new", "within")]) {
      const { status, stdout, stderr } = await ranHere(name, [...args, "--out", out]);
      expect([status, stdout]).toEqual([1, ""]);
      expect(stderr).toMatch(/^\S+ could not be read or written: .*\. Nothing was left half-written\.\n$/);
      expect(stderr).toContain(says);
    }
});

it("tells of a disk that names no file", () => {
  const cause = Object.assign(new Error("EIO"), { code: "EIO", syscall: "fsync" });
  expect(diskTrouble(cause)).toBe("a file could not be read or written: the system answers EIO. Nothing was left half-written.");
});

it("leaves every other error to be told with its cause: it is the program's own", () => {
  expect(diskTrouble(new TypeError("x is not a function"))).toBeUndefined();
  expect(diskTrouble(Object.assign(new Error("ENOENT"), { code: "ENOENT", syscall: "open" }))).toBeUndefined();
  expect(diskTrouble(Object.assign(new Error("x"), { code: "ERR_MODULE_NOT_FOUND" }))).toBeUndefined();
});

it.each([
  ["2025-02-30", 'must be a calendar day written YYYY-MM-DD, not "2025-02-30"'],
  ["18.10.2025", 'must be a calendar day written YYYY-MM-DD, not "18.10.2025"'],
  // Records are of these years, and a .dbf counts its own in one byte.
  ["0205-10-18", 'must be a day of the years 1900 to 2200, not "0205-10-18"'],
  ["2201-01-01", 'must be a day of the years 1900 to 2200, not "2201-01-01"'],
])("refuses %s as the day to speak from", (today, says) => {
  expect(() => readOptions(["--today", today], ["content", "today"])).toThrow(`--today ${says}`);
});

it("asks for a folder by the name that it was left empty under, and only where the command has such an option", () => {
  vi.stubEnv("FIELD_OUT", "");
  expect(() => readOptions([], ["content", "out"])).toThrow("FIELD_OUT needs a folder");
  expect(() => readOptions(["--out", ""], ["content", "out"])).toThrow("--out needs a folder");
  expect(readOptions(["--content", "/farm"], ["content"]).content).toBe("/farm");
  vi.unstubAllEnvs();
});

it("says of an option without a value, with another behind it, what it lacks", () => {
  const says = "--today has no value; one that begins with a hyphen is written --today=VALUE. Options: --content, --today, --help";
  for (const behind of ["--content", "-1"]) expect(() => readOptions(["--today", behind], ["content", "today"])).toThrow(says);
});

it("takes an option without a value as often as it is given", () =>
  expect(parsedArguments(["--write", "--write"], { write: { type: "boolean" } }).values).toEqual({ write: true }));

it("knows a folder below another, whatever it is called", () => {
  const folder = temporaryFolder();
  for (const name of ["site", "..site", "c:site"]) expect(isWithin(join(folder, name), folder), name).toBe(true);
  const link = join(temporaryFolder(), "link");
  symlinkSync(folder, link);
  expect([isWithin(join(link, "site"), folder), isWithin(join(folder, "site"), link)]).toEqual([true, true]);
  expect([isWithin(folder, folder), isWithin(join(folder, "..", "site"), folder), isWithin(`${folder}-site`, folder), isWithin(dirname(folder), folder)]).toEqual([true, false, false, false]);
});

describe("an installation that may not be written to", () => {
  const refused = (folder: string, why: string): void =>
    expect(() => workFolder(folder)).toThrow(`this program lies in ${folder}, where it may not write (${why}), and a site is made with files of its own there; install it in a folder that you may write to`);

  it("is refused where a file stands in the way", () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, "node_modules"), "a file");
    refused(folder, "a file stands where a folder should");
  });

  // To root every folder is open, so root steps down for the moment.
  it.each([".astro", "node_modules/.cache/field-history"])("is refused where %s is another's, of an earlier build", (shut) => {
    const folder = temporaryFolder();
    workFolder(folder);
    for (const open of [".astro", "node_modules", "node_modules/.cache", "node_modules/.cache/field-history", "."]) chmodSync(join(folder, open), open === shut ? 0o555 : 0o777);
    const root = process.geteuid?.() === 0;
    if (root) process.seteuid?.(65_534);
    try {
      refused(folder, "permission is denied");
    } finally {
      if (root) process.seteuid?.(0);
      chmodSync(join(folder, shut), 0o777);
    }
  });

  it("holds nothing more for having been tried", () => {
    const folder = temporaryFolder();
    workFolder(folder);
    expect([".astro", "node_modules/.cache/field-history"].map((made) => readdirSync(join(folder, made)))).toEqual([[], []]);
  });
});

it("renders a site in a folder of its own, and clears away what a build left that was killed a day ago", () => {
  const folder = temporaryFolder();
  const all = join(folder, "node_modules", ".cache", "field-history");
  for (const left of ["1", "2"]) mkdirSync(join(all, left, "fields"), { recursive: true });
  const hoursAgo = (hours: number): Date => new Date(Date.now() - hours * 3_600_000);
  utimesSync(join(all, "1"), hoursAgo(25), hoursAgo(25));
  utimesSync(join(all, "2"), hoursAgo(23), hoursAgo(23));
  const works = [workFolder(folder), workFolder(folder)];
  for (const work of works) expect(dirname(work)).toBe(all);
  // One to each build of a process: what Node has loaded from a folder it never loads from there again.
  expect(new Set([...works, join(all, "1"), join(all, "2")]).size).toBe(4);
  // The second may be of a build that still runs.
  expect(readdirSync(all)).toEqual(["2"]);
});
