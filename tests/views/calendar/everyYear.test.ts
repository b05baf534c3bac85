import { expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { intervalOf } from "../../../src/views/calendar/nextSamplings.ts";
import { testingRow } from "../../../src/views/calendar/testingCosts.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";
import { paths } from "../../support/tinyFarm.ts";

/** AGR-16: alfalfa every year, most fields every 3 to 4. */
const kentucky = (crop: string) => {
  const folder = farmFolder().change(paths.farm, "guidelines: [small-guide]", "guidelines: [us-kentucky-agr16-sampling]").change(paths.field, "crop: corn\n    yieldGoal: { value: 180, unit: bu/ac }", `crop: ${crop}`);
  const { farm } = readFarm({ content: folder.path, library });
  return { farm: farm!, field: farm!.fields[0]! };
};

it("an interval of one year is told as every year, and divides by one year", () => {
  const { farm, field } = kentucky("alfalfa");
  expect(intervalOf(field).words).toBe("Kentucky AGR-16 sampling: at least every year.");
  expect(testingRow(farm, field).sum).toMatch(/ ÷ 1 year$/);
});

it("one of several is told in years", () => {
  const { farm, field } = kentucky("corn");
  expect(intervalOf(field).words).toBe("Kentucky AGR-16 sampling: every 3 to 4 years.");
  expect(testingRow(farm, field).sum).toMatch(/ ÷ 4 years$/);
});
