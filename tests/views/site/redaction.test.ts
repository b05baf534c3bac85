import { expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import type { Farm, Withheld } from "../../../src/records/model.ts";
import { redaction } from "../../../src/views/site/redaction.ts";
import { library } from "../../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const forReader = (withheld: Partial<Withheld>): Farm => ({ ...demo, withheld: { reader: "the bank", parts: new Set(), someFields: false, ...withheld } });

it("the owner's own site tells every part that an excerpt may leave out, and what none can hide", () => {
  const { rows, limits, title } = redaction(demo);
  expect(title).toBe("Excerpts for other readers");
  expect(rows.map((r) => r.part)).toEqual(["Costs", "Yields", "Notes", "Positions", "Nitrogen", "Years"]);
  expect(limits.join(" ")).toContain("It cannot promise that nothing is guessed.");
});

it("a reader is told of what was left out for them, of nothing else, and of the same limits", () => {
  const { rows, limits, intro } = redaction(forReader({ parts: new Set(["positions", "costs"] as const), years: { from: 2016 }, someFields: true }));
  expect(rows.map((r) => r.part)).toEqual(["Costs", "Positions", "Years"]);
  expect(intro).toContain("Only some fields are shown.");
  expect(limits[0]).toBe("What fertilizer to buy is left out too: without the parts above, another product would be chosen than the farm's own.");
  expect(limits.join(" ")).toContain("It cannot promise that nothing is guessed.");
  expect(redaction(forReader({ parts: new Set(["notes"] as const) })).limits[0]).toMatch(/^It cannot promise/);
});

it("a reader from whom nothing is kept is told so", () => {
  const { rows, intro } = redaction(forReader({ someFields: true }));
  expect(rows).toEqual([]);
  expect(intro).toContain("Of the fields shown here nothing is left out, and only they are shown.");
});
