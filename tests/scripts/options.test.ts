import { expect, it } from "vitest";
import { diskTrouble } from "../../scripts/options.ts";

it.each([
  ["EACCES", "permission is denied"],
  ["EROFS", "the disk takes no writing"],
  ["ENOSPC", "the disk is full"],
  ["ENOTDIR", "a file stands where a folder should"],
  ["EEXIST", "a file stands where a folder should"],
])("tells of a disk that refuses (%s) in a sentence", (code, words) => {
  const cause = Object.assign(new Error(`${code}: open`), { code, path: "fields/north/field.yaml" });
  expect(diskTrouble(cause)).toBe(`fields/north/field.yaml could not be read or written: ${words}. Nothing was left half-written.`);
});

it("leaves every other error to be told with its cause: it is the program's own", () => {
  expect(diskTrouble(new TypeError("x is not a function"))).toBeUndefined();
  expect(diskTrouble(Object.assign(new Error("ENOENT"), { code: "ENOENT" }))).toBeUndefined();
});
