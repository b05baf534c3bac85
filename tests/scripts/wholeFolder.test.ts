import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { putInPlace } from "../../scripts/wholeFolder.ts";

/** A number that no process has: above the highest that Linux gives. */
const dead = 2 ** 22 + 1;

const home = (): string => mkdtempSync(join(tmpdir(), "field-history-folder-"));
const folder = (path: string, text: string): void => {
  mkdirSync(path);
  writeFileSync(join(path, "index.html"), text);
};
const fill = (fresh: string): void => folder(fresh, "newest");
const page = (path: string): string => readFileSync(join(path, "index.html"), "utf8");

it("a folder put in place takes away what killed runs left beside it, and nothing of a run that is alive or of another folder", () => {
  const at = home();
  folder(join(at, "site"), "older");
  for (const name of [`.site.new-${dead}`, `.site.old-${dead}`, `.site.old-${process.ppid}`, `.my.site.old-${dead}`, `.site.old-${dead}.txt`]) folder(join(at, name), "left");
  putInPlace(join(at, "site"), fill);
  expect(page(join(at, "site"))).toBe("newest");
  expect(readdirSync(at).sort()).toEqual([`.my.site.old-${dead}`, `.site.old-${dead}.txt`, `.site.old-${process.ppid}`, "site"].sort());
});

it("a folder that a killed run had moved aside stands again where the next run fails", () => {
  const at = home();
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
