import { expect, it } from "vitest";
import { farmFolder, linesAfter } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const { season } = paths;

it.each([
  ["another year than its name", "season: 2025", "season: 2024", "1:9: season: must be the year in the file's name, 2025"],
  ["planted in a year with a digit lost", "planted: 2025-05-06", "planted: 0205-05-06", "4:14: crops[1].planted: must be a day of the years 1900 to 2200"],
  ["a crop that is not known", "crop: corn", "crop: crn", '3:11: crops[1].crop: the text "crn" is not known; did you mean corn?'],
  ["harvested before planted", "harvested: 2025-10-10", "harvested: 2025-05-01", "5:16: crops[1].harvested: is before planting, 2025-05-06"],
  ["a yield in another kind of unit", "unit: bu/ac", "unit: ton/ac", "6:32: crops[1].yield.unit: a yield of corn must be in bu/ac"],
  ["the moisture of no yield", "yield: { value: 171, unit: bu/ac }", "moisture: 15.5", "6:15: crops[1].moisture: is that of a yield, and no yield is given"],
  ["a product that is not known", "product: potash", "product: potsah", '9:14: applications[1].product: product "potsah" is not in farm.yaml; did you mean potash?'],
  ["a product like no other", "product: potash", "product: marl", '9:14: applications[1].product: product "marl" is not in farm.yaml; allowed: ground-limestone, potash'],
  ["a zone that is not there", "[west]", "[west, south]", '10:19: applications[1].zones[2]: zone "south" is not in field.yaml; allowed: west, east'],
  ["a zone twice", "[west]", "[west, west]", '10:19: applications[1].zones[2]: zone "west" stands twice; keep one'],
  ["a rate in no unit of rates", "unit: lb/ac", "unit: lb", '11:31: applications[1].rate.unit: the text "lb" is not known; allowed: lb/ac, kg/ha, ton/ac, t/ha, lb/1000 sq ft, gal/ac, l/ha, m3/ha, gal/1000 sq ft'],
  ["gallons of a product without a density", "unit: lb/ac", "unit: gal/ac", "11:31: applications[1].rate.unit: is by volume, and the weight of potash is not known; give it density in farm.yaml, such as { value: 10.67, unit: lb/gal }, or write the rate by weight, in lb/ac, kg/ha, ton/ac, t/ha, lb/1000 sq ft"],
  ["liters of a product without a density", "unit: lb/ac", "unit: l/ha", "11:31: applications[1].rate.unit: is by volume, and the weight of potash is not known; give it density in farm.yaml, such as { value: 1.28, unit: kg/l }, or write the rate by weight, in lb/ac, kg/ha, ton/ac, t/ha, lb/1000 sq ft"],
])("%s", (_, from, to, line) => {
  expect(linesAfter(season, from, to)).toEqual([`${season}:${line}`]);
});

it("products are not unknown when farm.yaml itself is broken", () => {
  expect(farmFolder().write(paths.farm, "name: {\n").lines()).toEqual(["farm.yaml:2:1: file: a block opened with { is not closed with }"]);
});

it("keeps the moisture a yield was weighed at, and a harvest of nothing as nothing", () => {
  const wet = farmFolder().change(season, "unit: bu/ac }", "unit: bu/ac }\n    moisture: 22").read().farm;
  expect(wet?.fields[0]?.seasons[0]?.crops[0]).toMatchObject({ yield: { value: 171, unit: "bu/ac" }, moisture: 22 });
  const none = farmFolder().change(season, "value: 171", "value: 0").read().farm;
  expect(none?.fields[0]?.seasons[0]?.crops[0]?.yield).toEqual({ value: 0, unit: "bu/ac" });
});

it("an application without zones is on the whole field", () => {
  const farm = farmFolder().change(season, "    zones: [west]\n", "").read().farm;
  expect(farm?.fields[0]?.seasons[0]?.applications[0]?.zones).toEqual(["west", "east"]);
});

it("gallons of limestone have no weight to find", () =>
  expect(farmFolder().change(season, "product: potash\n    zones: [west]\n    rate: { value: 100, unit: lb/ac", "product: ground-limestone\n    zones: [west]\n    rate: { value: 100, unit: gal/ac").lines()).toEqual([
    `${season}:11:31: applications[1].rate.unit: is by volume, and the weight of ground-limestone is not known; write the rate by weight, in lb/ac, kg/ha, ton/ac, t/ha, lb/1000 sq ft`,
  ]));

// A 28 percent solution weighs 10.67 lb a gallon, and a gallon brings 2.99 lb of nitrogen (a published list of fertilizers).
it.each([
  ["gal/ac", 25, 266.75, "lb/ac"],
  ["gal/1000 sq ft", 2, 21.34, "lb/1000 sq ft"],
  // 10.67 lb/gal are 1.27854 kg/l.
  ["l/ha", 100, 127.8548, "kg/ha"],
])("a liquid by the %s is kept as it was recorded, and as what it weighs", (unit, value, pounds, by) => {
  const solution = "    kind: fertilizer\n    density: { value: 10.67, unit: lb/gal }";
  const [application] = farmFolder().change(paths.farm, "  potash:\n    kind: fertilizer", `  potash:\n${solution}`).change(season, "value: 100, unit: lb/ac", `value: ${value}, unit: ${unit}`).read().farm!.fields[0]!.seasons[0]!.applications;
  expect(application!.volume).toEqual({ value, unit });
  expect(application!.rate.unit).toBe(by);
  expect(application!.rate.value).toBeCloseTo(pounds, 3);
});

// A slip in the year would make the whole site speak from that day: everything would be overdue.
it.each([
  ["applications[1].date", "date: 2025-04-28", "date: 2027-01-01", "8:11", "is more than a year from season 2025"],
  ["applications[1].date", "date: 2025-04-28", "date: 2023-12-31", "8:11", "is more than a year from season 2025"],
  ["crops[1].harvested", "harvested: 2025-10-10", "harvested: 2027-10-10", "5:16", "is more than a year from season 2025"],
  ["crops[1].planted", "planted: 2025-05-06", "planted: 2026-05-06", "4:14", "is after season 2025"],
])("%s: %s to %s is refused", (place, from, to, at, says) => {
  const lines = farmFolder().change(season, from, to).lines();
  expect(lines[0]).toBe(`${season}:${at}: ${place}: ${says}`);
});

it("what was spread in the autumn before and planted years ago stands", () =>
  expect(farmFolder().change(season, "date: 2025-04-28", "date: 2024-10-28").write("fields/north/seasons/2024.yaml", "season: 2024\ncrops: [{ crop: alfalfa, planted: 2019-05-01, harvested: 2025-01-10 }]\n").lines()).toEqual([]));

it("what names no zones, on a day on which the field has none, is a mistake and not lost", () => {
  const folder = farmFolder().change(season, "    zones: [west]\n", "").remove("fields/north/samplings/2024-10-14.yaml");
  folder.write(paths.field, tinyFarm[paths.field]!.replace("West end }", "West end, since: 2025-09-01 }").replace("East end }", "East end, since: 2025-09-01 }"));
  expect(folder.lines()).toEqual([`${season}:8:5: applications[1]: names no zones, and of 2025-04-28 field.yaml has none`]);
});
