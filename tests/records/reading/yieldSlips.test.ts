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

// From memory: the records are about 39 t/ha of corn (623.8 bu/ac, 2023) and 18 t/ha of wheat (2020); Germany's farmers count in dt/ha, tenths of a tonne.
it("warns of the first yield on record where no land bears so much of a dry seed, or so little of any", () => {
  const first = (crop: string, amount: string) => slips(farmFolder().write("fields/north/seasons/2023.yaml", `season: 2023\ncrops:\n  - crop: ${crop}\n    yield: ${amount}\n`)).map((line) => line.slice(line.indexOf("warning")));
  expect(first("springBarley", "{ value: 68, unit: t/ha }")).toEqual(["warning: 68 t/ha is more than spring barley yields anywhere; is it a slip, or another unit? 68 dt/ha are 6.8 t/ha"]);
  expect(first("corn", "{ value: 1790, unit: bu/ac }")).toEqual(["warning: 1,790 bu/ac is more than corn yields anywhere; is it a slip, or another unit?"]);
  expect(first("winterWheat", "{ value: 6.8, unit: kg/ha }")).toEqual(["warning: 6.8 kg/ha is less than is worth a harvest; is it a slip, or another unit?"]);
  for (const [crop, amount] of [["springBarley", "{ value: 19, unit: t/ha }"], ["corn", "{ value: 624, unit: bu/ac }"], ["sugarBeet", "{ value: 110, unit: t/ha }"], ["winterWheat", "{ value: 0, unit: t/ha }"], ["soybean", "{ value: 1, unit: bu/ac }"]] as const)
    expect(first(crop, amount)).toEqual([]);
});
