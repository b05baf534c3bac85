import { expect, it } from "vitest";
import { fieldView } from "../../src/views/field.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { paths } from "../support/tinyFarm.ts";

it("says beside what is low why nothing is advised about it", () => {
  const farm = farmFolder().change(paths.sampling, "K: 104", "K: 90").read().farm!;
  expect(fieldView(farm, farm.fields[0]!).lede).toMatch(/^Potassium is low on West end\. No .* rate, because /);
});
