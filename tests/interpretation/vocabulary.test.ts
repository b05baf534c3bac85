import { expect, it } from "vitest";
import type { CropId } from "../../src/interpretation/vocabulary.ts";
import { cropIds, crops, nitrogenFixers } from "../../src/interpretation/vocabulary.ts";

it("calls no crop by words with a comma, which would read as two crops in a list", () => {
  for (const id of cropIds) expect(crops[id].label).not.toContain(",");
  expect(new Set(cropIds.map((id) => crops[id].label)).size).toBe(cropIds.length);
});

it("has the fruit, the cover crops and the beans that farms of its regions grow, so that they can be recorded", () => {
  const grown: readonly CropId[] = ["apple", "peach", "blueberry", "strawberry", "raspberry", "grape", "pumpkin", "rye", "coverCrop", "clover", "fieldBeans"];
  for (const id of grown) expect(cropIds).toContain(id);
  expect([nitrogenFixers.has("clover"), nitrogenFixers.has("fieldBeans"), nitrogenFixers.has("rye")]).toEqual([true, true, false]);
});
