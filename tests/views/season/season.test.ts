import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import type { Farm } from "../../../src/records/model.ts";
import { zoneAdviceView } from "../../../src/views/advice/adviceView.ts";
import { fieldView } from "../../../src/views/field/field.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { seasonView } from "../../../src/views/season/season.ts";
import { gapPlaces, oldPlaces } from "../../../src/views/season/seasonGaps.ts";
import { spreadJobs } from "../../../src/views/season/seasonJobs.ts";
import { seasonDetails } from "../../../src/views/season/seasonDetails.ts";
import { spreadSinceAdvice } from "../../../src/views/season/seasonSpread.ts";
import { seasonZones } from "../../../src/views/season/seasonZones.ts";
import { limeWhy } from "../../../src/views/season/whyWords.ts";
import { inUnitsOf } from "../../../src/views/units.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { gardenFarm, library } from "../../support/gardenFarm.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const read = (content: string): Farm => readFarm({ content, library }).farm!;
const demo = read(library);
const metric = read(join(installation, "tests", "fixtures", "metric"));
const garden = (): Farm => gardenFarm().read({ library }).farm!;
const lines = (farm: Farm) => seasonZones(farm).flatMap((z) => z.lines);
const sum = (numbers: readonly (number | undefined)[]): number => numbers.reduce<number>((total, n) => total + (n ?? 0), 0);

/** What the fields' pages count: the purchases and the lime of every zone, each worked from its own field's page. */
const fieldPages = (farm: Farm) =>
  farm.fields.flatMap((field) =>
    field.zones.flatMap((zone) => {
      const advice = latestAdvice(farm, field, zone);
      return advice ? [zoneAdviceView(inUnitsOf(farm, field), advice)] : [];
    }),
  );

describe.each([["the demo farm", () => demo], ["the metric farm", () => metric], ["a farm with a garden", garden]] as const)("the season of %s", (_, farmOf) => {
  it("costs what its fields' pages cost together", () => {
    const farm = farmOf();
    const pages = fieldPages(farm);
    const onPages = sum(pages.flatMap((p) => [p.limeCost, ...p.bought.map((b) => b.cost)]));
    expect(onPages).toBeGreaterThan(0);
    expect(sum(lines(farm).map((l) => l.cost))).toBeCloseTo(onPages, 6);
  });

  it("buys of each product what its fields' pages buy together", () => {
    const farm = farmOf();
    for (const name of new Set(fieldPages(farm).flatMap((p) => p.bought.map((b) => b.name)))) {
      const onPages = sum(fieldPages(farm).flatMap((p) => p.bought.filter((b) => b.name === name).map((b) => b.pounds)));
      expect(sum(lines(farm).filter((l) => l.kind === "fertilizer" && l.product.name === name).map((l) => l.pounds))).toBeCloseTo(onPages, 6);
    }
  });

  it("shows every rate as the row of the field's page that it leads to", () => {
    const farm = farmOf();
    const view = seasonView(farm);
    const shown = [...view.lime, ...view.products].flatMap((t) => t.groups.flatMap(({ field, rows }) => rows.map((r) => ({ field, r, unit: t.heads.rate }))));
    expect(shown.length).toBe(lines(farm).length);
    for (const { field, r, unit } of shown) {
      const row = fieldView(farm, field).advice.find((a) => a.zone === r.zone)!.rows.find((each) => each.id === r.anchor)!;
      expect(`${row.value} ${row.unit} ${row.detail}`).toContain(`${r.rate} ${unit}`);
    }
  });

  it("has a job for every line, and loses none", () => {
    const farm = farmOf();
    expect(spreadJobs(farm).flatMap((j) => j.rows).length).toBe(lines(farm).length);
  });

  it("says local codes come first, and which evidence is not yet checked", () => {
    const farm = farmOf();
    const view = seasonView(farm);
    expect(view.cautions[0]!.title).toBe("local codes first");
    expect(view.unchecked).toContain("not yet checked against the publication");
    expect(view.lime[0]!.cautions.map((c) => c.title)).toEqual(["lime dust", "lime and ammonia"]);
  });
});

/**
 * By hand, from the rates that the field's page shows (Tri-State 2020 and Oregon 2025, worked there):
 *   Knoll, 39,097.9 sq m / 4,046.856 = 9.6613 acres; 177.93 lb/ac of 0-0-60 x 9.6613 = 1,719 lb; x 450 / 2,000 = $387;
 *   Outwash, 24,625.6 sq m = 6.0851 acres; 8.378 tons of limestone on it are 1.377 ton/ac, x $46 = $385;
 *   potash in all: 1,719.1 + 2,533.7 + 1,082.1 + 2,019.6 + 2,763.6 = 10,118.1 lb = 5.1 tons, x $450 / 2,000 = $2,276.6.
 */
describe("the demo farm's season", () => {
  const view = seasonView(demo);
  const row = (table: number, zone: string) => view.products[table]!.groups.flatMap((g) => g.rows).find((r) => r.zone.id === zone)!;

  it("begins with what to buy", () => {
    expect(view.lede).toBe("Buy 8.4 tons of ground limestone, 5.1 tons of muriate of potash and 1.6 tons of triple superphosphate.");
    expect(view.why).toContain("about $3,663");
    expect(view.total).toBe("$3,663");
  });

  it("says beside lime which zones' pH calls for it", () =>
    expect(limeWhy(seasonZones(demo).filter((z) => z.field.id === "causeway"))).toBe("Soil pH on Outwash is 5.7."));

  it("counts what could not be answered", () => {
    const whyOf = (id: string) => seasonView({ ...demo, fields: demo.fields.filter((f) => f.id === id) }).why;
    expect(whyOf("netloft")).toContain(" One question could not be answered and stands below with the reason. The advice for two zones rests on an overdue sampling.");
    expect(whyOf("ropewalk")).toContain(" Three questions could not be answered and stand below with the reason.");
  });

  it("agrees with three sums by hand", () => {
    expect(row(0, "knoll")).toMatchObject({ rate: "178", area: "9.7", mass: "1,719", cost: "$387", crop: "soybean 2026, 54 bu/ac", notes: ["Brings 107 lb/ac of K₂O."] });
    expect(view.lime[0]!.groups[0]!.rows[0]).toMatchObject({ rate: "1.4", area: "6.1", mass: "8.4", cost: "$385" });
    expect(view.products[0]!.total).toEqual({ area: "43.6", mass: "10,118", cost: "$2,277" });
  });

  it("tells what could not be advised, why and where, and marks old samplings", () => {
    const gaps = view.gaps.map((g) => `${g.text} ${g.places.map((p) => p.words).join("; ")}`);
    expect(gaps).toContain("No nitrogen rate for corn 2026, because nitrate was not tested. Netloft, Upper; Netloft, Lower");
    // What one reason and one remedy hold for is told once.
    expect(gaps.filter((g) => g.includes("has no rule for grass pasture"))).toEqual(["No phosphate or potash rate, because Tri-State 2020 has no rule for grass pasture. Ropewalk"]);
    expect(gaps).toContain("No lime rate, because Tri-State 2020 gives no target pH for grass pasture. Ropewalk");
    expect(view.old.map((o) => o.words)).toEqual(["Netloft, Upper", "Netloft, Lower"]);
    // On the page the field is named once, as long as one day holds for all its zones.
    expect(oldPlaces(view.old).map((o) => o.words)).toEqual(["Netloft"]);
    expect(oldPlaces([view.old[0]!, { ...view.old[1]!, since: "sampled 13 October 2021" }]).map((o) => o.words)).toEqual(["Netloft, Upper", "Netloft, Lower"]);
    expect(oldPlaces(view.old.slice(1)).map((o) => o.words)).toEqual(["Netloft, Lower"]);
    // Buried lines matter to whoever samples: beside the zones to sample first, and nowhere beside what to buy.
    expect(view.beforeSampling.map((c) => c.title)).toEqual(["buried lines"]);
    expect([...view.cautions, ...[...view.lime, ...view.products].flatMap((t) => t.cautions)].map((c) => c.title)).not.toContain("buried lines");
    expect(seasonDetails(demo, demo.fields.filter((f) => f.id === "causeway")).beforeSampling).toEqual([]);
    expect(view.old[0]!.since).toBe("sampled 12 October 2021, the next sampling was due October 2025");
    expect(view.limeNone).toBe("No lime is called for on Causeway (Knoll and Apron), Netloft and Saltings. Whether to lime Ropewalk cannot be told: the reason stands below.");
    expect(seasonDetails(demo, demo.fields.filter((f) => f.id === "ropewalk")).limeNone).toBe("Whether to lime cannot be told: the reason stands below.");
    // A list of every zone without lime is no sentence.
    const saltings = demo.fields.find((f) => f.id === "saltings")!;
    expect(seasonDetails({ ...demo, fields: Array.from({ length: 13 }, (_, i) => ({ ...saltings, id: `saltings-${i}` })) }).limeNone).toBe("No lime is called for on 26 zones.");
    // Netloft is named once, and leads to its first zone.
    const nitrate = view.gaps.find((g) => g.text.startsWith("No nitrogen rate for corn 2026"))!;
    expect(gapPlaces(nitrate)).toEqual([{ ...nitrate.places[0]!, words: "Netloft" }]);
    expect(gapPlaces({ ...nitrate, places: nitrate.places.slice(1) }).map((p) => p.words)).toEqual(["Netloft, Lower"]);
  });

  it("leaves out what was asked for a crop that is past", () => {
    expect(view.gaps.some((g) => g.text.includes("2025"))).toBe(false);
    expect(view.toBuy.map((b) => b.name)).not.toContain("Urea, 46-0-0");
    // Nor why its nitrate test could not be read: nobody can act on it any more.
    const fields = demo.fields.map((f) => ({ ...f, samplings: f.samplings.map((s) => ({ ...s, nitrate: undefined })) }));
    const farm = { ...demo, fields };
    expect(fieldView(farm, fields.find((f) => f.id === "causeway")!).advice[0]!.rows.map((r) => r.none ?? r.detail)).toContainEqual(expect.stringMatching(/^No nitrogen rate for corn 2025, now past/));
    expect(seasonView(farm).gaps.filter((g) => g.text.includes("2025"))).toEqual([]);
  });
});

/**
 * By hand, from tests/fixtures/metric.test.ts: 0-0-60 for 388, 134 and, on 2 ha, 95 x 1.2046 = 114.4 kg/ha of potash is
 * 646.7 + 223.3 + 381.4 = 1,251.4 kg, x 330 / 1,000 = £413; lime 3.6 t x £32 = £115.
 */
it("counts a metric farm in tonnes, kilograms and hectares", () => {
  const view = seasonView(metric);
  expect(view.lede).toBe("Buy 3.6 t of ground limestone, 1.3 t of muriate of potash and 1.1 t of triple superphosphate.");
  expect(view.products[0]!.heads).toEqual({ rate: "kg/ha", area: "ha", mass: "kg" });
  expect(view.products[0]!.total).toEqual({ area: "4.0", mass: "1,251", cost: "£413" });
  expect(view.toBuy[0]).toMatchObject({ load: "3.6 t", price: "£32 per t", cost: "£115" });
  expect(view.gaps.map((g) => g.text)).toEqual(["No product for magnesium oxide, because there is nothing on the farm's list that supplies magnesium oxide.", "No nitrogen rate, because none of the chosen guidelines tells nitrogen."]);
});

/**
 * By hand: each zone is 35,647 sq m = 8.8086 acres = 383,701 sq ft. West end, K 104 on CEC 14 for corn of 180 bu, takes 83.2 lb/ac of
 * potash (tests/views/garden.test.ts), 138.67 of 0-0-60; East end, K 138, 56 and 93.33: (138.67 + 93.33) x 8.8086 = 2,043.6 lb = $459.81.
 */
describe("a farm with a garden", () => {
  it("buys for the garden apart, in pounds, and mixes no sums", () => {
    const view = seasonView(garden());
    expect(view.lede).toBe("Buy 37.0 tons of ground limestone and 1.0 tons of muriate of potash; for Kitchen, 74,043 lb of ground limestone and 2,043.6 lb of muriate of potash.");
    expect(view.products.map((t) => [t.title, t.heads.rate, t.total.mass, t.total.cost])).toEqual([
      ["Muriate of potash", "lb/ac", "2,044", "$460"],
      ["Muriate of potash: Kitchen", "lb/1000 sq ft", "2,043.6", "$459.81"],
    ]);
    expect(view.toBuy.filter((b) => b.where === "Kitchen").map((b) => b.load)).toEqual(["74,043 lb", "2,043.6 lb"]);
    expect(view.cautions.map((c) => c.title)).toContain("lead in garden soil");
  });
});

describe("what is not known", () => {
  it("is said where a product has no price, and not counted as nothing", () => {
    const folder = gardenFarm();
    const { farm } = folder.write(paths.farm, tinyFarm[paths.farm]!.replace("[small-guide]", "[us-tristate-974-2020, us-oregon-lime-2025]").replace("stated: { cce: 90 }", "stated: { limeScore: 92 }\n    price: { value: 46, per: ton }")).read({ library });
    const view = seasonView(farm!);
    expect(view.leftOut).toEqual(["The cost leaves out muriate of potash, because farm.yaml gives no price."]);
    expect(view.toBuy.find((b) => b.name === "Muriate of potash")).toMatchObject({ price: "no price recorded", cost: "not known" });
    expect(view.products[0]!.total.cost).toBe("not known");
    expect(view.products[0]!.groups[0]!.rows[0]!.cost).toBe("no price");
    expect(view.products[0]!.groups[0]!.rows[0]!.notes).toContain("The least weight, not the least cost, for want of prices.");
  });

  it("is said where a zone has no boundary", () => {
    const farm = gardenFarm().remove("fields/kitchen/zones.geojson").read({ library }).farm!;
    const view = seasonView(farm);
    expect(view.lede).toContain("for Kitchen, ground limestone, how much is not known and muriate of potash, how much is not known");
    expect(view.leftOut.join(" ")).toContain("because the area is not known");
    expect(view.gaps.map((g) => g.text)).toContain("No total and no cost, because the zone has no boundary and its area is not known.");
    // Of two zones the one without a boundary is named, and the other one is summed.
    const whole = gardenFarm().read({ library }).farm!;
    const half = { ...whole, fields: whole.fields.map((f) => ({ ...f, zones: f.zones.map((z) => (z.id === "east" ? { ...z, area: undefined, squareMeters: undefined } : z)) })) };
    const lime = (of: typeof whole) => seasonView(of).products.find((p) => p.groups.some((g) => g.rows.length === 2))!.total;
    expect(lime(whole).area).toMatch(/^[\d.]+$/);
    expect(lime(half)).toEqual({ area: expect.stringMatching(/^[\d.]+, without one zone$/) as string, mass: expect.stringMatching(/^[\d.,]+, without one zone$/) as string, cost: expect.stringMatching(/^\$[\d.,]+, without one zone$/) as string });
    expect(seasonView(half).total).toMatch(/^\$/);
    // A sum of nothing that is known is not $0.
    const none = gardenFarm().remove("fields/kitchen/zones.geojson").remove("fields/north/zones.geojson").read({ library }).farm!;
    expect(seasonView(none)).toMatchObject({ total: "not known" });
    expect(seasonView(none).why).not.toMatch(/comes to about/);
    expect(seasonView(none).products[0]!.total).toMatchObject({ area: "not known", mass: "not known", cost: "not known" });
  });

  it("is said where a zone was never sampled, and nothing is bought for it", () => {
    const farm = gardenFarm().remove("fields/kitchen/samplings").read({ library }).farm!;
    expect(seasonView(farm).gaps.find((g) => g.text.startsWith("No advice"))?.places.map((p) => p.words)).toEqual(["Kitchen, West end", "Kitchen, East end"]);
    expect(lines(farm).length).toBe(3);
  });

  it("is said on a farm where nothing is called for", () => {
    const farm = farmFolder().remove(paths.sampling).remove("fields/north/samplings/2024-10-14.yaml").read().farm!;
    expect(seasonView(farm).lede).toBe("Nothing to buy: no zone's newest advice calls for lime or fertilizer that the farm lists.");
    expect(seasonView(farm).toBuy).toEqual([]);
  });
});

it("tells of what was spread since the sampling and the last harvest, and takes nothing off for it", () => {
  const plain = garden();
  const season = "season: 2026\napplications:\n  - { date: 2025-11-20, product: potash, zones: [west], rate: { value: 60, unit: lb/ac } }\n  - { date: 2025-11-21, product: ground-limestone, rate: { value: 2, unit: ton/ac } }\n";
  const spread = gardenFarm().write("fields/north/seasons/2026.yaml", season).read({ library }).farm!;
  const [lime] = seasonView(spread).lime;
  expect(lime!.groups[0]!.rows[0]!.already).toBe("Spread already, and not taken off: 2 ton/ac of ground limestone on 21 November 2025.");
  const [west, east] = seasonView(spread).products[0]!.groups[0]!.rows;
  expect([west!.already, east!.already]).toEqual(["Spread already, and not taken off: 60 lb/ac of muriate of potash on 20 November 2025.", undefined]);
  // What was spread on every zone of a field is told once, beside its name.
  const both = gardenFarm().write("fields/north/seasons/2026.yaml", season.replace(", zones: [west]", "")).read({ library }).farm!;
  const [group] = seasonView(both).products[0]!.groups;
  expect(group!.already).toBe("Spread already, and not taken off: 60 lb/ac of muriate of potash on 20 November 2025.");
  expect(group!.rows.map((r) => r.already)).toEqual([undefined, undefined]);
  expect(seasonView(spread).products[0]!.groups[0]!.already).toBeUndefined();
  // So is that all of them are overdue.
  const folder = gardenFarm();
  const planned = readFileSync(join(folder.path, paths.field), "utf8").replace("season: 2026", "season: 2031");
  const late = folder.write(paths.field, planned).read({ library, today: "2031-01-01" }).farm!;
  const [overdue] = seasonView(late).products[0]!.groups;
  expect([overdue!.old, overdue!.already]).toEqual(["Sampled 18 October 2025, overdue: sample again before acting on it.", undefined]);
  expect(overdue!.rows.map((r) => r.old)).toEqual([undefined, undefined]);
  expect(west!.rate).toBe(seasonView(plain).products[0]!.groups[0]!.rows[0]!.rate);
});

it("tells of manure spread since, on the season's page, on the driver's sheet and on the rate maps, as the first page does", () => {
  const slurry = "  slurry: { kind: manure, name: cattle slurry, perTonne: { N: 2.4, P2O5: 1.1, K2O: 4.2 } }\n";
  const folder = gardenFarm();
  const farm = folder
    .write(paths.farm, readFileSync(join(folder.path, paths.farm), "utf8").replace("products:\n", `products:\n${slurry}`))
    .write("fields/north/seasons/2026.yaml", "season: 2026\napplications:\n  - { date: 2026-02-10, product: slurry, zones: [west], rate: { value: 25, unit: t/ha } }\n  - { date: 2026-01-10, product: potash, zones: [west], rate: { value: 60, unit: lb/ac } }\n")
    .read({ library }).farm!;
  const spread = "60 lb/ac of muriate of potash on 10 January 2026 and 25 t/ha of cattle slurry on 10 February 2026";
  const west = seasonZones(farm).find((z) => z.field.id === "north" && z.zone.id === "west");
  expect(west!.lines.find((l) => l.kind === "fertilizer")!.already.join(" and ")).toBe(spread);
  expect(seasonView(farm).products[0]!.groups[0]!.rows[0]!.already).toBe(`Spread already, and not taken off: ${spread}.`);
  expect(spreadSinceAdvice(west!, "fertilizer").join(" and ")).toBe(spread);
  expect(west!.lines.find((l) => l.kind === "lime")?.already ?? []).toEqual([]);
});
