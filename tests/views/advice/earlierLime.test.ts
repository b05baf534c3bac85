import { expect, it } from "vitest";
import { fieldView } from "../../../src/views/field/field.ts";
import { earlierLime, monthsBetween } from "../../../src/views/advice/earlierLime.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

const spread = (date: string, zones = ""): string => `  - { date: ${date}, product: ground-limestone${zones}, rate: { value: 2, unit: ton/ac } }\n`;

const north = (applications: string) =>
  farmFolder()
    .write(paths.season, `season: 2025\napplications:\n${applications}`)
    .read().farm!.fields[0]!;

it("months are counted by days: half a year, ten and a half months", () => {
  expect(monthsBetween("2025-01-01", "2026-01-01")).toBeCloseTo(12, 1);
  expect(monthsBetween("2025-10-18", "2025-10-18")).toBe(0);
  expect(monthsBetween("2025-01-01", "2025-11-16")).toBeCloseTo(10.5, 1);
});

it("lime spread on the zone on or before the day counts, oldest first, with its place in the record", () => {
  const field = north(spread("2025-06-18") + spread("2025-04-18", ", zones: [west]") + spread("2025-10-18"));
  expect(earlierLime(field, "west", "2025-10-17")?.map((e) => [e.rate, Math.round(e.months), e.source])).toEqual([
    [2, 6, { record: { file: paths.season, line: 4, column: 5 } }],
    [2, 4, { record: { file: paths.season, line: 3, column: 5 } }],
  ]);
  expect(earlierLime(field, "east", "2025-10-18")?.map((e) => Math.round(e.months))).toEqual([4, 0]);
});

it("fertilizer is no lime", () => {
  const field = north("  - { date: 2025-06-18, product: potash, rate: { value: 200, unit: lb/ac } }\n");
  expect(earlierLime(field, "west", "2025-10-18")).toEqual([]);
});

it("without records of seasons nothing is known of earlier lime", () => {
  const field = north(spread("2025-06-18"));
  expect(earlierLime({ ...field, seasons: [] }, "west", "2025-10-18")).toBeUndefined();
});

it("the field's key facts name the zones that were limed last, where it was not the whole field", () => {
  const lastLimed = (zones: string) => {
    const farm = farmFolder().write(paths.season, `season: 2025\napplications:\n${spread("2025-06-18", zones)}`).read().farm!;
    return fieldView(farm, farm.fields[0]!).facts.find((f) => f.term === "Last limed")!.value;
  };
  expect(lastLimed("")).toBe("18 June 2025, 2 ton/ac");
  expect(lastLimed(", zones: [west]")).toBe("18 June 2025, 2 ton/ac on West end");
});
