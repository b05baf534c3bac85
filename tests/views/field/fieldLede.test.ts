import { expect, it } from "vitest";
import type { Farm } from "../../../src/records/model.ts";
import { fieldView } from "../../../src/views/field/field.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

it("says that no crop is planned, and not for what", () => {
  const crop = (farm: Farm): string => fieldView(farm, farm.fields[0]!).advice[0]!.crop;
  expect(crop(farmFolder().read().farm!)).toBe("For corn, 2026, yield goal 180 bu/ac");
  expect(crop(farmFolder().change(paths.field, "plan:\n  - season: 2026\n    crop: corn\n    yieldGoal: { value: 180, unit: bu/ac }\n", "").remove(paths.season).read().farm!)).toBe("No crop is planned");
});

it("says beside what is low why nothing is advised about it", () => {
  const farm = farmFolder().change(paths.sampling, "K: 104", "K: 90").read().farm!;
  expect(fieldView(farm, farm.fields[0]!).lede).toMatch(/^Potassium is low on West end\. No .* rate, because /);
});
