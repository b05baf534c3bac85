import { expect, it } from "vitest";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

/** Both sides of every edge that a real record may stand on: what it refuses is told, what it takes is taken without a word. */
const density = (value: string) => [paths.farm, "analysis: { N: 0, P2O5: 0, K2O: 60 }", `analysis: { N: 0, P2O5: 0, K2O: 60 }\n    density: ${value}`] as const;
const weightless = "14:23: products.potash.density.value: is lighter or heavier than any liquid that is spread, which weighs 0.5 to 2.5 kg/l, or 4 to 21 lb/gal";
const manure = (held: string) => [paths.farm, "  potash:", `  slurry: { kind: manure, name: slurry, perTon: ${held} }\n  potash:`] as const;
const avoid = (place: string) => [paths.field, "soil:", `avoid: [{ what: road, distance: { value: 30, unit: ft }, where: [${place}] }]\nsoil:`] as const;
const zone = (life: string) => [paths.field, "name: West end }", `name: West end }\n  old: { letter: C, name: Old piece, ${life} }`] as const;

it.each<[what: string, change: readonly [string, string, string], line?: string]>([
  ["as light as a liquid can be", density("{ value: 0.5, unit: kg/l }")],
  ["lighter", density("{ value: 0.49, unit: kg/l }"), weightless],
  ["as heavy", density("{ value: 2.5, unit: kg/l }")],
  ["heavier", density("{ value: 2.51, unit: kg/l }"), weightless],
  ["a price by the liter of what has no density", [paths.farm, "name: muriate of potash", "name: muriate of potash\n    price: { value: 2, per: l }"], "13:29: products.potash.price.per: a price by volume needs density, such as { value: 10.67, unit: lb/gal }"],
  ["nothing but nutrients", [paths.farm, "{ N: 0, P2O5: 0, K2O: 60 }", "{ N: 40, P2O5: 0, K2O: 60 }"]],
  ["nitrogen that is all ammonium", manure("{ N: 2, P2O5: 0, K2O: 1, ammoniumN: 2 }")],
  ["the dearest lime", [paths.farm, "cce: 90", "cce: 180"]],
  ["the least that is stated of a lime", [paths.farm, "cce: 90", "cce: 0.001"], "9:20: products.ground-limestone.stated.cce: warning: looks like shares of one; in percent, 0.46 is 46"],
  ["so little that a rate has no end", [paths.farm, "cce: 90", "cce: 1e-9"], "9:20: products.ground-limestone.stated.cce: 1e-9 is too small; must be at least 0.001"],
  ["a share of next to nothing", [paths.farm, "K2O: 60", "K2O: 1e-9"], "13:37: products.potash.analysis.K2O: is next to nothing; write 0, or at least 0.0001"],
  ["the first day of all", [paths.farm, "currency: USD", "currency: USD\npricesOn: 1900-01-01"]],
  ["the last", [paths.farm, "currency: USD", "currency: USD\npricesOn: 2200-12-31"]],
  ["planted and harvested on one day", [paths.season, "harvested: 2025-10-10", "harvested: 2025-05-06"]],
  ["harvested in the winter after", [paths.season, "harvested: 2025-10-10", "harvested: 2026-02-10"]],
  ["harvested two years after", [paths.season, "harvested: 2025-10-10", "harvested: 2027-02-10"], "5:16: crops[1].harvested: is more than a year from season 2025"],
  ["spread in the autumn before", [paths.season, "date: 2025-04-28", "date: 2024-11-20"]],
  ["spread two years before", [paths.season, "date: 2025-04-28", "date: 2023-11-20"], "8:11: applications[1].date: is more than a year from season 2025"],
  ["planted years before, as a meadow is", [paths.season, "planted: 2025-05-06", "planted: 2019-05-06"]],
  ["planted the year after", [paths.season, "planted: 2025-05-06\n    harvested: 2025-10-10", "planted: 2026-01-02"], "4:14: crops[1].planted: is after season 2025"],
  ["corrected on the day of the sampling", [paths.sampling, "date: 2025-11-01", "date: 2025-10-18"]],
  // A degree of longitude is 80 km at 44 degrees north: 0.05 are 4 km, and 0.1 are 8 from the zone's western edge.
  ["a place to avoid 4 km away", avoid("[-37.054, 44]")],
  ["a place to avoid 8 km away", avoid("[-37.104, 44]"), "2:66: avoid[1].where[1]: lies 8 km from the field's zones; longitude stands first, then latitude"],
  ["a zone for a day", zone("since: 2020-01-01, until: 2020-01-02")],
  ["a zone for no day", zone("since: 2020-01-01, until: 2020-01-01"), "5:64: zones.old.until: is not after since"],
  ["a zone that took over a letter", zone("until: 2020-01-01").map((part) => part.replace("letter: C", "letter: A")) as unknown as [string, string, string], "5:18: zones.old.letter: letter A is already zone \"west\"'s"],
])("%s", (_, [file, from, to], line) => {
  expect(farmFolder().write(file, tinyFarm[file]!.replace(from, () => to)).lines()).toEqual(line === undefined ? [] : [`${file}:${line}`]);
});

it("speaks from the newest day of any kind", () => {
  const today = (file: string, from: string, to: string): string | undefined => farmFolder().write(file, tinyFarm[file]!.replace(from, to)).read().farm?.today;
  expect(today(paths.sampling, "reportedOn: 2025-10-27", "reportedOn: 2025-11-30")).toBe("2025-11-30");
  expect(today(paths.season, "harvested: 2025-10-10", "harvested: 2025-12-01")).toBe("2025-12-01");
  expect(today(paths.season, "  - crop: corn", "  - { crop: rye, planted: 2025-11-05 }\n  - crop: corn")).toBe("2025-11-05");
  expect(today(paths.season, "date: 2025-04-28", "date: 2025-12-03")).toBe("2025-12-03");
});

it("takes a field for tilled and its records for whole where they say nothing else", () => {
  const [one] = farmFolder().read().farm!.fields;
  expect([one!.tillage, one!.avoid, one!.recommendations]).toEqual(["tilled", [], []]);
});

it("lets no one have the place of the farm, nor a search engine, unless it is said", () => {
  const published = (publish: string) => farmFolder().change(paths.farm, "currency: USD", `currency: USD${publish}`).read().farm?.publish;
  expect(published("")).toEqual({ index: false, location: false, reports: false });
  expect(published("\npublish: { }")).toEqual({ index: false, location: false, reports: false });
  expect(published("\npublish: { index: true }")).toEqual({ index: true, location: false, reports: false });
});
