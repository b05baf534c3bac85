import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { removalCheck } from "../../../src/interpretation/checks/removalCheck.ts";
import { cropRemoval } from "../../../src/interpretation/rules/removal.ts";
import { coefficientWords } from "../../../src/interpretation/rules/removalCoefficient.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { expectRefusal } from "../../support/outcomes.ts";
import { installedPacks, ruleIn, triState } from "../../support/packs.ts";

describe("crop removal, as published", () => {
  checkedAsPublished(removalCheck);
});

// Printed as dry matter of the harvest; a yield weighed wetter is brought to it by its water.
it("counts a yield at the water that is left beside the dry matter printed, in every row of every guideline", () => {
  const packs = readdirSync(new URL("../../../content/guidelines/", import.meta.url)).map((name) => installedPacks.get(name.replace(/\.yaml$/, "")));
  const rows = packs.flatMap((g) => g.sections.flatMap((s) => (s.kind === "removal" ? s.rows : [])));
  const printed = rows.flatMap((row) => (/^(\d+) % dry matter$/.exec(row.moisture ?? "")?.[1] === undefined ? [] : [[row.moisture, row.moisturePercent]]));
  expect(printed.length).toBeGreaterThan(40);
  for (const [words, percent] of printed) expect(`${100 - Number(percent)} % dry matter`).toBe(words);
});

it("words a coefficient in its own measure: pounds for each of the crop's units, or kilograms for each t, and a range as one", () => {
  const of = (over: object) => coefficientWords({ value: 0.35, per: "crop's unit", source: "common-practice", ...over }, "corn");
  expect([of({}), of({ to: 0.4 }), of({ value: 8.4, per: "t" })]).toEqual(["0.35 lb per bu", "0.35 to 0.4 lb per bu", "8.4 kg per t"]);
});

describe("refusals", () => {
  const removal = ruleIn(triState, "removal", "removal");
  it("a crop that the table lacks", () =>
    expectRefusal(cropRemoval(removal, "grassHay", "K2O", { value: 3, unit: "ton/ac" }, "Tri-State 2020"), /Tri-State 2020 gives no K₂O removal for grass hay/, "K₂O removal of grass hay"));

  it("a nutrient that the table lacks", () =>
    expectRefusal(cropRemoval(removal, "corn", "N", { value: 180, unit: "bu/ac" }, "Tri-State 2020"), /Tri-State 2020 gives no N removal for corn/, "N removal of corn"));

  it("bushels of a crop that is weighed", () =>
    expectRefusal(cropRemoval(removal, "alfalfa", "K2O", { value: 180, unit: "bu/ac" }, "Tri-State 2020"), /the yield of alfalfa is in bu\/ac and its removal is stated per ton/, "a yield in ton/ac"));
});
