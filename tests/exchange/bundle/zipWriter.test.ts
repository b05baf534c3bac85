import { expect, it } from "vitest";
import { zipFault } from "../../../src/exchange/bundle/zipWriter.ts";

// PKWARE's APPNOTE, from memory: the end record counts entries in two bytes and places in four.
it("a ZIP is as large as its own counts can say, and no larger", () => {
  expect(zipFault(2 ** 16 - 1, 2 ** 32 - 1)).toBeUndefined();
  expect(zipFault(2 ** 16, 1)).toBe("a ZIP holds at most 65,535 files, and these are 65536");
  expect(zipFault(1, 2 ** 32)).toBe("a ZIP holds less than 4 GB, and this one has 4.0 GB");
});
