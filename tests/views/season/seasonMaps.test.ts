import { readFileSync } from "node:fs";
import { join } from "node:path";
import { unzipSync } from "fflate";
import type { Feature, FeatureCollection, Polygon } from "geojson";
import { describe, expect, it } from "vitest";
import { shapesOfShapefile } from "../../../src/exchange/boundaries/shapefileBoundaries.ts";
import { signedArea } from "../../../src/exchange/rings.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import type { Farm } from "../../../src/records/model.ts";
import { filesOf, rateFiles, rateMapFiles } from "../../../src/views/season/seasonMapFiles.ts";
import { gardenFarm, library } from "../../support/gardenFarm.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

type Read = (zip: Uint8Array) => Promise<FeatureCollection>;
// The library has no types of its own, so its name is not shown to the compiler.
const reader: string = "shpjs";
const { default: readShapefile } = (await import(reader)) as { default: Read };

const demo = readFarm({ content: library, library }).farm!;
const mapOf = (farm: Farm, key: string, units = "us") => rateFiles(farm, true).find((f) => f.map.key === key && f.map.units === units)!;
const cells = (csv: string) => csv.trimEnd().split("\r\n");

describe("a rate map as CSV", () => {
  it("names the units in its columns, and says 0 where nothing is called for and why where nothing is known", () => {
    const [head, ...rows] = cells(mapOf(demo, "lime-ground-limestone").csv);
    expect(head).toBe("field,zone,product,crop,season,rate_ton_ac,applications,rate_each_ton_ac,area_acre,total_ton,cost_usd,not_known_because,sampled,sampling_overdue,guidelines,evidence,spread_already");
    // Outwash by hand: tests/views/season.test.ts.
    expect(rows).toContain("causeway,outwash,ground limestone,soybean,2026,1.38,1,1.38,6.09,8.38,385.39,,2025-10-18,no,us-oregon-lime-2025,secondary,");
    expect(rows.find((r) => r.startsWith("netloft,upper"))).toMatch(/,0,0,0,4\.25,0,,,2021-10-12,yes,/);
    expect(rows.find((r) => r.startsWith("ropewalk"))).toContain(",,0,,11.88,,,Tri-State 2020 gives no target pH for grass pasture,");
  });

  it("gives a nutrient by its own unit, and the garden's by 1,000 sq ft in a file of its own", () => {
    expect(cells(mapOf(demo, "nutrient-k2o").csv)[1]).toMatch(/^causeway,knoll,K2O,soybean,2026,106\.8,,9\.66,/);
    const { farm } = gardenFarm().read({ library });
    const [head, west] = cells(mapOf(farm!, "fertilizer-potash", "garden").csv);
    expect(head).toContain("rate_lb_1000_sq_ft,applications,rate_each_lb_1000_sq_ft,area_sq_ft,total_lb,cost_usd");
    // 138.67 lb/ac / 43.56 = 3.18 lb for 1,000 sq ft; on 383,701 sq ft 1,221.5 lb, $274.83.
    expect(west).toContain("kitchen,west,muriate of potash,corn,2026,3.18,1,3.18,383701,1221.5,274.83");
    expect(cells(mapOf(farm!, "fertilizer-potash").csv).some((r) => r.startsWith("kitchen"))).toBe(false);
  });

  it("tells the same lime in tonnes and hectares, to two decimals, and of a nutrient no price", () => {
    const metric = { ...demo, units: "metric" } as const;
    // A US ton is 0.907 t and an acre 0.4047 ha: 8.38 ton are 7.60 t, 6.09 ac are 2.46 ha, and 7.60 t on 2.46 ha are 3.09 t/ha.
    expect(cells(mapOf(metric, "lime-ground-limestone", "metric").csv)).toContain("causeway,outwash,ground limestone,soybean,2026,3.09,1,3.09,2.46,7.6,385.39,,2025-10-18,no,us-oregon-lime-2025,secondary,");
    expect(cells(mapOf(metric, "nutrient-k2o", "metric").csv)[0]).toBe("field,zone,nutrient,crop,season,rate_kg_ha,rate_up_to_kg_ha,area_ha,total_kg,not_known_because,sampled,sampling_overdue,guidelines,evidence,spread_already");
  });

  it("tells a spreader's driver what was spread there since the sampling, beside a rate that has nothing taken off", async () => {
    const season = "season: 2026\napplications:\n  - { date: 2025-11-20, product: potash, zones: [west], rate: { value: 60, unit: lb/ac } }\n  - { date: 2025-11-21, product: ground-limestone, rate: { value: 2, unit: ton/ac } }\n";
    const { farm } = gardenFarm().write("fields/north/seasons/2026.yaml", season).read({ library });
    const lime = "2 ton/ac of ground limestone on 21 November 2025";
    const ends = (key: string) => cells(mapOf(farm!, key).csv).slice(1).filter((r) => r.startsWith("north,")).map((r) => r.split(",").at(-1));
    expect(ends("lime-ground-limestone")[0]).toBe(lime);
    expect(ends("fertilizer-potash")).toEqual(["60 lb/ac of muriate of potash on 20 November 2025", ""]);
    expect(ends("nutrient-k2o")).toEqual(["60 lb/ac of muriate of potash on 20 November 2025", ""]);
    const inShape = await readShapefile(mapOf(farm!, "lime-ground-limestone").zip!);
    expect(inShape.features.map((f) => f.properties!["SPREAD"] as string)).toContain(lime);
  });

  it("does not take a product for needless where a rate that it supplies is not known", () => {
    const { farm } = gardenFarm().change(paths.sampling, "      K: 104\n", "").write("fields/north/samplings/2025-10-18.yaml", tinyFarm[paths.sampling]!.replace("      K: 104\n", "")).read({ library });
    expect(cells(mapOf(farm!, "fertilizer-potash").csv)[1]).toMatch(/^north,west,muriate of potash,corn,2026,,0,,8\.81,,,potassium was not tested,/);
  });
  it("nor a product of two nutrients, where one is not called for and the other is not known", () => {
    const farm = gardenFarm();
    const mixed = readFileSync(join(farm.path, paths.farm), "utf8").replace("P2O5: 0, K2O: 60", "P2O5: 5, K2O: 60");
    // Far above the 40 ppm at which Tri-State 2020 ends phosphate.
    const sampling = tinyFarm[paths.sampling]!.replace('P: { value: 3, qualifier: "<" }\n      K: 104', "P: 90");
    const rows = cells(mapOf(farm.write(paths.farm, mixed).write(paths.sampling, sampling).read({ library }).farm!, "fertilizer-potash").csv);
    expect(rows[1]).toMatch(/^north,west,muriate of potash,corn,2026,,0,,8\.81,,,potassium was not tested,/);
  });
});

describe("a rate map as GeoJSON", () => {
  const { features } = JSON.parse(mapOf(demo, "fertilizer-potash").geojson!) as FeatureCollection;
  it("holds a feature a zone, outer rings counterclockwise (RFC 7946, 3.1.6), units in the names", () => {
    expect(features.length).toBe(8);
    for (const { geometry } of features as Feature<Polygon>[]) expect(signedArea(geometry.coordinates[0]!)).toBeGreaterThan(0);
    expect(features[0]!.properties).toMatchObject({ field: "causeway", zone: "knoll", rate_lb_ac: 177.9, area_acre: 9.66, total_lb: 1719.1, cost_usd: 386.79, evidence: "memory" });
    expect(features.find((f) => f.properties!["field"] === "ropewalk")!.properties).toMatchObject({ rate_lb_ac: null, not_known_because: "Tri-State 2020 has no rule for grass pasture" });
  });

  it("leaves a zone without a boundary unlocated", () => {
    const { farm } = gardenFarm().remove("fields/kitchen/zones.geojson").read({ library });
    const unlocated = JSON.parse(mapOf(farm!, "fertilizer-potash", "garden").geojson!) as { features: { geometry: unknown }[] };
    expect(unlocated.features.map((f) => f.geometry)).toEqual([null, null]);
    expect(mapOf(farm!, "fertilizer-potash", "garden").zip).toBeUndefined();
  });
});

describe("a rate map as a zipped shapefile", () => {
  it("is read back by another reader with the same zones, numbers and places as the GeoJSON", async () => {
    for (const files of rateFiles(demo, true)) {
      const { features } = JSON.parse(files.geojson!) as FeatureCollection<Polygon>;
      const known = features.filter((f) => Object.entries(f.properties!).some(([name, value]) => /^rate_(ton|lb)/.test(name) && value !== null));
      const back = await readShapefile(files.zip!);
      expect(back.features.length).toBe(7);
      const rate = files.map.rateUnit === "ton/ac" ? ["RATE_TONAC", "rate_ton_ac"] as const : ["RATE_LBAC", "rate_lb_ac"] as const;
      back.features.forEach((feature, i) => {
        const [was, is] = [known[i]!.properties!, feature.properties!];
        expect([is["FIELD"], is["ZONE"], is[rate[0]], is["AREA_ACRE"]]).toEqual([was["field"], was["zone"], was[rate[1]], was["area_acre"]]);
        // The reader turns degrees into radians and back.
        const ring = (f: Feature) => [...(f.geometry as Polygon).coordinates[0]!].map((p) => p.map((degrees) => degrees.toFixed(9)).join(" ")).sort();
        expect(ring(feature)).toEqual(ring(known[i]!));
      });
    }
  });

  it("is taken by this program's own reader of boundaries", () => {
    const shapes = shapesOfShapefile(mapOf(demo, "fertilizer-potash").zip!);
    expect(shapes.map((s) => s.properties["ZONE"])).toEqual(["knoll", "apron", "outwash", "upper", "lower", "west-lea", "east-lea"]);
    expect(shapes[0]!.properties).toMatchObject({ RATE_LBAC: "177.9", TOTAL_LB: "1719.1", COST_USD: "386.79", SAMPLED: "2025-10-18" });
  });

  it("holds the five parts under one name, and the same bytes whenever and wherever it is made", () => {
    const { zip } = mapOf(demo, "fertilizer-potash");
    expect(Object.keys(unzipSync(zip!))).toEqual(["shp", "shx", "dbf", "prj", "cpg"].map((ending) => `fertilizer-potash.${ending}`));
    const zone = process.env["TZ"];
    try {
      process.env["TZ"] = "Pacific/Auckland";
      expect(mapOf(readFarm({ content: library, library }).farm!, "fertilizer-potash").zip).toEqual(zip);
    } finally {
      if (zone === undefined) delete process.env["TZ"];
      else process.env["TZ"] = zone;
    }
  });
});

it("keeps the farm's place off the site unless the owner publishes it", () => {
  const { farm } = gardenFarm().write(paths.farm, tinyFarm[paths.farm]!.replace("[small-guide]", "[us-tristate-974-2020]")).read({ library });
  expect(farm!.publish.location).toBe(false);
  expect(rateMapFiles(farm!).flatMap(filesOf).map((f) => f.file.split(".")[1])).toEqual(rateMapFiles(farm!).map(() => "csv"));
});
