import { expect, it } from "vitest";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import { chooseRow } from "../../../src/interpretation/rules/factTests.ts";

it("a row behind one that is not decided is not taken", () => {
  const rows = [{ when: [{ fact: "rainOfNormal" as const, above: 120 }], n: 1 }, { n: 2 }];
  expect(chooseRow(rows, {})).toEqual({ missing: "rainOfNormal", open: rows });
  expect(chooseRow(rows, historyOf({ rainOfNormal: 120 })).found).toBe(rows[1]);
  expect(chooseRow(rows, historyOf({ rainOfNormal: 121 })).found).toBe(rows[0]);
});
