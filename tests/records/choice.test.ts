import { expect, it } from "vitest";
import { choice } from "../../src/records/choice.ts";
import { cropIds, purposeIds } from "../../src/interpretation/vocabulary.ts";

it.each([
  ["Corn", "corn"],
  ["winter wheat", "winterWheat"],
  ["Winter-Wheat", "winterWheat"],
  ["cron", undefined],
  ["", undefined],
  [" ", undefined],
])("%j among the crops is %s", (written, meant) => expect(choice(written, cropIds)).toBe(meant));

it("takes what is written exactly before what is written nearly, and decides nothing between two", () => {
  expect(choice("low-meadow", ["lowmeadow", "low-meadow"])).toBe("low-meadow");
  expect(choice("Low Meadow", ["lowmeadow", "low-meadow"])).toBeUndefined();
  expect(choice("pH check", purposeIds)).toBe("phCheck");
});
