import { expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { calendarView } from "../../../src/views/calendar/calendar.ts";
import { calendarPages } from "../../../src/views/calendar/calendarPages.ts";
import { calendarPageCount, pagesOf } from "../../../src/views/calendar/calendarPaging.ts";
import { calendarWeights, mostOfPage, seasonZoneWeight } from "../../../src/views/pageWeight.ts";
import { allPaths } from "../../../src/views/site/routes.ts";
import { searchView } from "../../../src/views/search/searchView.ts";
import { seasonDetails } from "../../../src/views/season/seasonDetails.ts";
import { gapWhere } from "../../../src/views/season/seasonGaps.ts";
import { seasonParts } from "../../../src/views/season/seasonParts.ts";
import { seasonZones } from "../../../src/views/season/seasonZones.ts";
import { spreaderSheets } from "../../../src/views/season/seasonSheets.ts";
import { farmWorth } from "../../../src/views/calendar/worthView.ts";
import { library } from "../../support/gardenFarm.ts";
import { manyFields } from "../../support/manyFields.ts";

const demo = readFarm({ content: library, library }).farm!;
/** Causeway, of three zones, a hundred times. */
const large = manyFields(demo, 100);

it("a farm that one page can hold is not parted", () => {
  expect(seasonParts(demo)).toEqual([]);
  expect(calendarPageCount(demo)).toBe(1);
  expect([...allPaths(demo).keys()].filter((p) => /^(season|spreader-sheets|calendar)/.test(p))).toEqual(["season.html", "spreader-sheets.html", "calendar.html"]);
});

it("the pages of the season together hold every row once, and no other", () => {
  const parts = seasonParts(large);
  expect(parts.map((p) => `${p.title}: ${p.holds}`)).toEqual(["Field 1 to Field 82: 82 fields", "Field 83 to Field 100: 18 fields"]);
  const rowsOf = (details: ReturnType<typeof seasonDetails>) => [...details.lime, ...details.products].flatMap((t) => t.groups.flatMap((g) => g.rows.map((r) => `${t.title} ${g.field.name} ${r.zone.name} ${r.rate} ${r.mass}`)));
  const whole = seasonDetails(large);
  expect(rowsOf(whole)).toHaveLength(seasonZones(large).flatMap((z) => z.lines).length);
  expect(parts.flatMap((p) => rowsOf(seasonDetails(large, p.fields))).sort()).toEqual(rowsOf(whole).sort());
  const sheetRows = (sheets: ReturnType<typeof spreaderSheets>) => sheets.flatMap((s) => s.rows.map((r) => `${s.title} ${r.field} ${r.zone.name} ${r.rate} ${r.part}`));
  expect(parts.flatMap((p) => sheetRows(spreaderSheets(large, p.fields))).sort()).toEqual(sheetRows(spreaderSheets(large)).sort());
  const placesOf = (details: ReturnType<typeof seasonDetails>) => details.gaps.flatMap((g) => g.places.map((p) => `${g.text} ${p.words}`));
  expect(parts.flatMap((p) => placesOf(seasonDetails(large, p.fields))).sort()).toEqual(placesOf(whole).sort());
});

it("a gap is told with the number of its zones where its places stand on other pages", () => {
  const [field] = demo.fields;
  const place = { field: field!, words: "Causeway, Knoll", path: "fields/causeway.html", anchor: "x" };
  expect(gapWhere({ text: "", missing: [], places: [place, place] })).toBe("two zones of one field");
});

it("the pages of the calendar hold its lines in their order; a season that is parted goes on under its name", () => {
  const often = <T extends object>(items: readonly T[]): T[] => items.flatMap((item) => Array.from({ length: 150 }, () => ({ ...item })));
  const small = calendarView(demo);
  const view = { ...small, seasons: small.seasons.map((s) => ({ ...s, entries: often(s.entries) })), undated: often(small.undated), costs: often(small.costs) };
  const worth = often(farmWorth(demo).rows);
  const pages = calendarPages(view, worth);
  const entries = [...view.seasons, { entries: view.undated }].flatMap((s) => s.entries);
  expect(pages.length).toBeGreaterThan(3);
  expect(pages).toHaveLength(pagesOf(entries.length, view.costs.length, worth.length));
  expect(pages.flatMap((p) => p.seasons.flatMap((s) => s.entries))).toEqual(entries);
  expect(pages.flatMap((p) => p.costs)).toEqual(view.costs);
  expect(pages.flatMap((p) => p.worth)).toEqual(worth);
  for (const p of pages) expect(p.seasons.flatMap((s) => s.entries).length * calendarWeights.entry + p.costs.length * calendarWeights.cost + p.worth.length * calendarWeights.worth).toBeLessThanOrEqual(mostOfPage);
  expect(pages[0]!.seasons[0]!.label).toBe("Autumn 2025");
  expect(pages[1]!.seasons[0]!.label).toBe("June 2026, continued");
  expect(calendarPages(small, []).flatMap((p) => p.seasons.map((s) => s.label)).filter((label) => label.includes("continued"))).toEqual([]);
  expect(pages.at(-1)!.holds).toBe("Is it worth it");
});

it("a sentence names no more fields than can be read", () => expect(calendarView(manyFields(demo, 13)).lede).toMatch(/^Next, in [a-z]+ 20\d\d: [a-z A-Z]+ of 13 fields\./));

it.each([200, 400])("with %i fields no page of the season is given more than it can carry", (fields) => {
  const farm = manyFields(demo, fields);
  const parts = seasonParts(farm);
  expect(parts.flatMap((p) => p.fields)).toHaveLength(fields);
  for (const part of parts) expect(part.fields.flatMap((f) => f.zones).length * seasonZoneWeight).toBeLessThanOrEqual(mostOfPage);
});

it.each([
  [600, 600],
  // The lists of fields hold all of them, 250 a page.
  [601, 0],
])("of %i fields the search page lists %i without a script", (fields, listed) => expect(searchView(manyFields(demo, fields)).letters.flatMap((l) => l.fields)).toHaveLength(listed));
