import { expect, it } from "vitest";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { newSeason } from "../../../src/records/starting/newRecordsSeason.ts";

const text = (crop: CropId, rateUnit = "kg/ha"): string => newSeason({ field: "north", year: 2026, crop, zones: ["west"], product: undefined, rateUnit }).text;

it("dates a winter crop from the autumn before, and says that its season is the year of harvest", () => {
  expect(text("winterWheat")).toContain("# The year of harvest: what was sown or spread for it in the autumn before belongs here too.\nseason: 2026\n");
  expect(text("winterWheat")).toContain("#planted: 2025-10-01\n    #harvested: 2026-08-15\n");
  expect(text("corn")).toContain("#planted: 2026-05-01\n    #harvested: 2026-10-01\n");
});

it("asks of a cereal what became of its straw, on which rates and sums depend, and of no other crop", () => {
  expect(text("winterWheat")).toContain("    # What became of the straw: removed or incorporated.\n    #straw: removed\n");
  for (const crop of ["oats", "wheat"] as const) expect(text(crop)).toContain("#straw: removed");
  for (const crop of ["corn", "potatoes", "broccoli", "grassSilageTwoCuts"] as const) expect(text(crop)).not.toContain("straw");
});

it("has an example of a yield that could be one", () => {
  expect(text("winterWheat")).toContain("#yield: { value: 8, unit: t/ha }");
  expect(text("corn")).toContain("#yield: { value: 100, unit: bu/ac }");
  expect(text("broccoli")).toContain("#yield: { value: 4, unit: ton/ac }");
  // Of a bed nobody weighs tons. 200 lb on 1,000 sq ft are 4.4 tons an acre; a bushel has no weight here, and stays.
  expect(text("broccoli", "lb/1000 sq ft")).toContain("#yield: { value: 200, unit: lb/1000 sq ft }");
  expect(text("corn", "lb/1000 sq ft")).toContain("#yield: { value: 100, unit: bu/ac }");
});
