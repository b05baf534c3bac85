import { expect, it } from "vitest";
import { farmFolder } from "../../support/farmFolder.ts";

/** Corn of four more seasons. */
const seasons = (last: number) =>
  [180, 165, 158, last].reduce(
    (farm, value, i) => farm.write(`fields/north/seasons/${2021 + i}.yaml`, `season: ${2021 + i}\ncrops:\n  - crop: corn\n    yield: { value: ${value}, unit: bu/ac }\n`),
    farmFolder(),
  );

const slips = (farm: ReturnType<typeof farmFolder>) => farm.lines().filter((line) => line.includes("slip"));

// Common practice: a yield ten times the rest is a lost decimal point. The middle of 158, 165, 171, 180 and the slip is 171.
it("warns of a yield far above the others of its crop, and of no other", () => {
  expect(slips(seasons(1790))).toEqual([
    "fields/north/seasons/2024.yaml:3:5: crops[1].yield: warning: 1,790 bu/ac is more than 5 times what corn mostly yields in these records, 171 bu/ac; is it a slip?",
  ]);
  expect(slips(seasons(179))).toEqual([]);
  expect(slips(seasons(5 * 171))).toEqual([]);
});
