import { existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { entriesOf, putInPlace, refuseOthers } from "../../scripts/wholeFolder.ts";
import { temporaryFolder } from "../support/farmFolder.ts";

/** A number that no process has: above the highest that Linux gives. */
const dead = 2 ** 22 + 1;

const folder = (path: string, text: string): void => {
  mkdirSync(path);
  writeFileSync(join(path, "index.html"), text);
};
const fill = (fresh: string): void => folder(fresh, "newest");
const page = (path: string): string => readFileSync(join(path, "index.html"), "utf8");

it("a folder put in place takes away what killed runs left beside it, and nothing of a run that is alive or of another folder", () => {
  const at = temporaryFolder();
  folder(join(at, "site"), "older");
  for (const name of [`.site.new-${dead}`, `.site.old-${dead}`, `.site.old-${process.ppid}`, `.my.site.old-${dead}`, `.site.old-${dead}.txt`]) folder(join(at, name), "left");
  putInPlace(join(at, "site"), fill);
  expect(page(join(at, "site"))).toBe("newest");
  expect(readdirSync(at).sort()).toEqual([`.my.site.old-${dead}`, `.site.old-${dead}.txt`, `.site.old-${process.ppid}`, "site"].sort());
});

it("a folder that a killed run had moved aside stands again where the next run fails", () => {
  const at = temporaryFolder();
  folder(join(at, `.site.old-${dead}`), "older");
  folder(join(at, `.site.new-${dead}`), "half");
  expect(() =>
    putInPlace(join(at, "site"), () => {
      throw new Error("no more room");
    }),
  ).toThrow("no more room");
  expect(page(join(at, "site"))).toBe("older");
  expect(existsSync(join(at, `.site.new-${dead}`))).toBe(false);
});

it("a folder put in place leaves nothing beside itself, and a link where it was", () => {
  const at = temporaryFolder();
  folder(join(at, "site"), "older");
  symlinkSync(join(at, "site"), join(at, "link"));
  putInPlace(join(at, "link"), fill);
  expect([page(join(at, "site")), lstatSync(join(at, "link")).isSymbolicLink(), readdirSync(at).sort()]).toEqual(["newest", true, ["link", "site"]]);
  putInPlace(join(at, "farm", "deep", "site"), fill);
  expect(readdirSync(join(at, "farm", "deep"))).toEqual(["site"]);
});

it.each<[string, (fresh: string) => void, RegExp]>([
  ["cannot be filled", (fresh) => (folder(fresh, "half"), fill(fresh)), /EEXIST/],
  ["is not there in the end", () => undefined, /ENOENT/],
])("an old folder stands where its new one %s, alone and named in the message", (_, filling, why) => {
  const at = temporaryFolder();
  folder(join(at, "site"), "older");
  const put = () => putInPlace(join(at, "site"), filling);
  expect(put).toThrow(why);
  expect(put).toThrow(expect.objectContaining({ path: join(at, "site") }) as Error);
  expect([page(join(at, "site")), readdirSync(at)]).toEqual(["older", ["site"]]);
});

describe("what stands in a folder to write to", () => {
  const left = [".DS_Store", "Thumbs.db", "thumbs.DB", "desktop.ini"];
  const held = (...names: string[]): string => {
    const at = temporaryFolder();
    for (const name of [...left, ...names]) {
      mkdirSync(join(at, name, ".."), { recursive: true });
      writeFileSync(join(at, name), "x");
    }
    return at;
  };

  it("does not count what a computer leaves there, and is nothing where there is none", () => {
    expect([entriesOf(held()), entriesOf(held("my.ini", "x.DS_Store")).sort(), entriesOf(join(held(), "new"))]).toEqual([[], ["my.ini", "x.DS_Store"], []]);
    expect(() => entriesOf(join(held(), "desktop.ini"))).toThrow("is not a folder");
  });

  it("is for a reader no file but his, nor one that a killed run left half of another, at whatever depth", () => {
    const refused = (...names: string[]) => () => refuseOthers(held(...names), ["a.csv", "more/b.csv"], "lender");
    for (const names of [[], ["a.csv"], ["a.csv", "more/b.csv", "more/.b.csv.unfinished-7", "more/.DS_Store"]]) expect(refused(...names)).not.toThrow();
    expect(refused("a.csv", "more/c.csv")).toThrow(/holds more\/c\.csv, which is none of the files for lender/);
    expect(refused("a.csv", ".c.csv.unfinished-7")).toThrow("holds .c.csv.unfinished-7");
    expect(() => refuseOthers(held("c.csv"), ["a.csv"], undefined)).not.toThrow();
    expect(() => refuseOthers(join(held(), "new"), ["a.csv"], "lender")).not.toThrow();
  });
});
