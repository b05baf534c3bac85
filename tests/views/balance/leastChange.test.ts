import { expect, it } from "vitest";
import { zoneHistory } from "../../../src/views/trends/history.ts";
import { leastChangeOf } from "../../../src/views/balance/leastChange.ts";
import { tinyFarm } from "../../support/tinyFarm.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";

/** The least change of potassium on West end that has a direction, from first to last of these results, two years apart. */
const least = (results: readonly number[], labs = results.map(() => "north-lab")): number | undefined => {
  const folder = farmFolder().remove("fields/north/samplings").write("labs/south-lab.yaml", tinyFarm["labs/north-lab.yaml"]!);
  results.forEach((K, i) =>
    folder.write(`fields/north/samplings/${2014 + 2 * i}-10-14.yaml`, `date: ${2014 + 2 * i}-10-14\npurpose: routine\nlab: ${labs[i]!}\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n  - { label: "0011", zone: west, cores: 20, results: { K: ${K} } }\n`),
  );
  const farm = folder.read({ library }).farm!;
  const field = farm.fields[0]!;
  const [history] = zoneHistory(farm, field, field.zones[0]!, "K");
  return leastChangeOf(farm, field)(field.zones[0]!, history!.measurements[0]!, history!.measurements.at(-1)!);
};

it("is the noise of two results, but none at all where the trend between them rises or falls", () => {
  // One result: √((39² / 20) + 6²) = 10.58 percent; of 110 and 100 together 15.73 ppm, x 1.96 = 30.8; half a ppm more, since results are whole.
  expect(least([110, 100])).toBeCloseTo(31.3, 1);
  expect(least([110, 103, 107, 102, 105, 100])).toBeCloseTo(31.3, 1);
  // In one row downward: 2 of 720 orders are as strong, so the trend's page says that it falls.
  expect(least([110, 108, 106, 104, 102, 100])).toBe(0);
});

it("holds what another laboratory adds only where the two results are of two laboratories", () => {
  // By the published 17 percent between laboratories: √((39² / 20) + 17²) = 19.1 percent; of 110 and 100 together 28.4 ppm, x 1.96 = 55.7; half a ppm more.
  expect(least([110, 100], ["south-lab", "north-lab"])).toBeCloseTo(56.2, 1);
  expect(least([110, 105, 100], ["north-lab", "south-lab", "north-lab"])).toBeCloseTo(31.3, 1);
});
