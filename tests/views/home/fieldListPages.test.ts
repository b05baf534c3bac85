import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { byNeed, fieldList } from "../../../src/views/home/fieldList.ts";
import { fieldListView } from "../../../src/views/home/fieldListPages.ts";
import { fieldListPageCount, rowsPerPage } from "../../../src/views/home/fieldListPaging.ts";
import { fieldsCsv } from "../../../src/views/home/fieldsCsv.ts";
import { allPaths } from "../../../src/views/site/routes.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";
import { manyFields } from "../../support/manyFields.ts";
import { fieldOrders } from "../../../src/views/paths.ts";

const demo = readFarm({ content: library, library }).farm!;
const headings = (order: (typeof fieldOrders)[number]) => fieldListView(demo, order).pages.flatMap((p) => p.groups.map((g) => [g.title, ...g.rows.map((r) => r.field.name)]));

describe("the lists of the demo farm", () => {
  it("by need, by oldest test, by crop and by tenure", () => {
    expect(headings("need")).toEqual([["Sampling overdue", "Netloft"], ["Lime due", "Causeway"], ["Potassium low", "Saltings"], ["A question open", "Ropewalk"]]);
    expect(headings("oldest-test")).toEqual([["2021", "Netloft"], ["2023", "Ropewalk"], ["2025", "Causeway", "Saltings"]]);
    expect(headings("crop")).toEqual([["Alfalfa", "Saltings"], ["Corn", "Netloft"], ["Grass pasture", "Ropewalk"], ["Soybean", "Causeway"]]);
    expect(headings("tenure")).toEqual([["Owned", "Causeway", "Netloft"], ["Rented", "Ropewalk", "Saltings"]]);
    expect(headings("name")).toEqual([["", "Causeway", "Netloft", "Ropewalk", "Saltings"]]);
  });

  it("say of each field its area in its own units, its oldest test and when it is next due", () => {
    const words = (farm: typeof demo) => fieldList(farm).map((r) => [r.area, r.oldestWords, r.next]);
    expect(words(demo)).toEqual([
      ["32.9", "October 2025", "October 2029"],
      ["8.3", "October 2021", "October 2025, overdue"],
      ["11.9", "September 2023", "September 2027"],
      ["10.7", "October 2025", "October 2029"],
    ]);
    const [causeway, netloft] = demo.fields;
    const unmapped = { ...netloft!, zones: netloft!.zones.map((z) => ({ ...z, squareMeters: undefined })) };
    expect(words({ ...demo, fields: [{ ...causeway!, units: "metric" }, unmapped] }).map(([area]) => area)).toEqual(["13.3 ha", "not mapped"]);
  });

  it("hold the same lines as the download", () => {
    const csv: Record<string, string>[] = parse(fieldsCsv(demo), { columns: true });
    expect(csv.map((r) => [r["name"], r["area_acre"], r["tenure"], r["zones"], r["next_crop"], r["oldest_test"], r["sampling_due"], r["sampling_overdue"]])).toEqual([
      ["Causeway", "32.94", "owned", "3", "soybean 2026", "2025-10-18", "2029-10-18", "no"],
      ["Netloft", "8.35", "owned", "2", "corn 2026", "2021-10-12", "2025-10-12", "yes"],
      ["Ropewalk", "11.88", "rented", "1", "grass pasture 2026", "2023-09-09", "2027-09-09", "no"],
      ["Saltings", "10.67", "rented", "2", "alfalfa 2026", "2025-10-18", "2029-10-18", "no"],
    ]);
    expect(csv.map((r) => r["needs"])).toEqual(fieldList(demo).map((r) => r.needWords));
  });

  it("give a script numbers that sort as the words do", () => {
    const rows = fieldList(demo);
    const sorted = (column: number): string[] => [...rows].sort((a, b) => a.keys[column]! - b.keys[column]!).map((r) => r.field.name);
    expect(sorted(0)).toEqual(["Causeway", "Netloft", "Ropewalk", "Saltings"]);
    expect(sorted(1)).toEqual(["Netloft", "Saltings", "Ropewalk", "Causeway"]);
    expect(sorted(4).slice(0, 2)).toEqual(["Netloft", "Ropewalk"]);
    expect(sorted(6)).toEqual(byNeed(rows).map((r) => r.field.name));
  });
});

describe("a farm of 260 fields", () => {
  it.each(fieldOrders)("by %s stands on pages of no more than they can carry, every field once", (order) => {
    const farm = manyFields(farmFolder().read().farm!, 260);
    const { pages, jumps } = fieldListView(farm, order);
    expect(pages.length).toBe(fieldListPageCount(farm));
    expect(pages.map((p) => p.groups.reduce((n, g) => n + g.rows.length, 0))).toEqual([rowsPerPage, 10]);
    const shown = pages.flatMap((p) => p.groups.flatMap((g) => g.rows.map((r) => r.field.id)));
    expect(new Set(shown)).toEqual(new Set(farm.fields.map((f) => f.id)));
    expect(shown).toHaveLength(260);
    for (const page of pages) expect(allPaths(farm).has(page.path)).toBe(true);
    for (const jump of jumps) expect(pages.find((p) => p.path === jump.path)!.groups.some((g) => g.id === jump.id && g.title === jump.text)).toBe(true);
  });
});
