import { expect, it } from "vitest";
import { fieldView } from "../../../src/views/field/field.ts";
import { farmFolder } from "../../support/farmFolder.ts";

it("a field whose rates could not be worked out is not told that nothing needs doing", () => {
  // The tiny farm's guideline rates potassium and has no potash rates; nobody has planned a crop.
  const farm = farmFolder().read().farm!;
  const { lede } = fieldView(farm, farm.fields[0]!);
  expect(lede).toMatch(/^No [a-z]+ rate, because /);
});
