import { describe, expect, it } from "vitest";
import { forAudience } from "../../src/records/audience/forAudience.ts";
import type { Farm, Field } from "../../src/records/model.ts";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import type { WithheldPart } from "../../src/records/schemas/audience.ts";
import { calendarView } from "../../src/views/calendar/calendar.ts";
import { fieldSummary } from "../../src/views/summary/fieldSummary.ts";
import { harvestsBetween } from "../../src/views/issued/harvestsBetween.ts";
import { unplacedMaps } from "../../src/views/season/seasonMapFiles.ts";
import { worthLeftOut } from "../../src/views/calendar/worthView.ts";
import { library } from "../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const without = (...leaveOut: WithheldPart[]): Farm => forAudience(demo, { name: "A reader", leaveOut });
const saltings = (farm: Farm): Field => farm.fields.find((f) => f.id === "saltings")!;
const sheet = (farm: Farm) => fieldSummary(farm, saltings(farm));

describe.each(["yields", "nitrogen"] as const)("without %s", (part) => {
  it("no product is said to lack a price, or the list to lack a product: the list itself is left out", () => {
    const farm = without(part);
    const { notes, owed, lede } = sheet(farm);
    expect(sheet(demo).owed.map((row) => row.money)).toEqual(["$46", "$412"]);
    expect(owed.map((row) => row.money)).toEqual(["left out for this reader", "left out for this reader"]);
    expect(lede).toMatch(/the soil is owed 1,220 lb of potash \(K₂O\)\.$/);
    expect(notes.join(" ")).toContain("What fertilizer costs is left out for this reader, and not in the sum.");
    expect(worthLeftOut(farm)).toBe("The worth of testing is left out for this reader.");
    expect(JSON.stringify([sheet(farm), calendarView(farm)])).not.toMatch(/No price is recorded|on the farm's list/);
  });
});

it("without positions or notes the worth of testing stays", () => expect(worthLeftOut(without("positions", "notes"))).toBeUndefined());

it("without positions maps in degrees are called left out, and not that farm.yaml does not publish where the farm lies", () =>
  expect([unplacedMaps(without("positions")), unplacedMaps(without("notes"))]).toEqual(["Maps in degrees are left out for this reader.", undefined]));

it("of advice shown in part it is said that what is followed is of what is shown", () => {
  const followed = (farm: Farm): string => sheet(farm).kept.find((f) => f.term === "Advice followed")!.value;
  expect(followed(demo)).toMatch(/^Of the advice kept as issued on 25 July 2019: /);
  expect(followed(without("yields"))).toMatch(/^Of what is shown of the advice kept as issued on 25 July 2019: /);
});

it("without yields no harvest is told of a crop that may have borne none", () => {
  // The alfalfa that was seeded in August 2019 was not cut that year: its yield is 0.
  const told = (farm: Farm) => harvestsBetween(saltings(farm), "west-lea", "2019-07-25", "2020-10-20");
  expect(told(demo)).toEqual({ taken: ["alfalfa 2020"], undated: [] });
  expect(told(without("yields"))).toEqual(told(demo));
});
