import { expect, it } from "vitest";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import { latestAdvice } from "../../src/views/advice/sample.ts";
import { farmTasks } from "../../src/views/home/homeTasks.ts";
import { fieldMap } from "../../src/views/maps/fieldMap.ts";
import { samplingView } from "../../src/views/sampling/samplingView.ts";
import { fieldSummary } from "../../src/views/summary/fieldSummary.ts";
import { fieldView } from "../../src/views/field/field.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { library } from "../support/gardenFarm.ts";
import { paths } from "../support/tinyFarm.ts";

/** An orchard in New York: no guideline chosen says when to lime apples, one describes the soil's reaction, and the field sets a target. */
const orchard = (own: string) => {
  const folder = farmFolder().change(paths.farm, "guidelines: [small-guide]", "guidelines: [us-newyork-cornell-morgan, soil-chemistry]").change(paths.field, "crop: corn\n    yieldGoal: { value: 180, unit: bu/ac }", `crop: apple\n${own}`);
  const { farm } = readFarm({ content: folder.path, library });
  return { farm: farm!, field: farm!.fields[0]! };
};
const target = "targetPh: { value: 6.9, reason: apples }";

it("a soil pH below the field's own target is 'lime due' in the tables too, not only in the list of what to do", () => {
  const { farm, field } = orchard(target);
  expect(farmTasks(farm).map((t) => t.text)).toContain("Lime is due on both zones");
  expect(fieldView(farm, field).trends.find((t) => t.model.analyte === "pH")!.model.title).toBe("Soil pH is low on West end and East end");
});

it("the sheet for a landlord or lender says so first, with the range and whose it is", () => {
  const { farm, field } = orchard(target);
  const sheet = fieldSummary(farm, field);
  expect(sheet.lede).toMatch(/^Soil pH is below its range on both zones\./);
  expect(sheet.zones[0]!.rows[0]).toMatchObject({ range: "6.9 or more, set for the field", cell: { band: "lime due", position: "below" } });
});

it("the map names it", () => {
  const { farm, field } = orchard(target);
  const advised = new Map(field.zones.map((zone) => [zone.id, latestAdvice(farm, field, zone)!]));
  expect(JSON.stringify(fieldMap(farm, field, "pH", advised))).toContain("Classes: the field's own target.");
});

it("the sampling's page says whose class it is", () => {
  const { farm, field } = orchard(target);
  expect(samplingView(farm, field, field.samplings.at(-1)!).results[0]).toMatchObject({ analyte: "Soil pH", classes: "the field's own target" });
});

it("without a target of its own the reaction is described, and judged by nobody", () => {
  const { farm, field } = orchard("");
  expect(fieldSummary(farm, field).zones[0]!.rows[0]).toMatchObject({ range: "", cell: { position: undefined } });
});
