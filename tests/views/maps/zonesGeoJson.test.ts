import type { FeatureCollection, Polygon } from "geojson";
import { expect, it } from "vitest";
import type { Farm } from "../../../src/records/model.ts";
import { allPaths } from "../../../src/views/site/routes.ts";
import { zonesGeoJson } from "../../../src/views/maps/zonesGeoJson.ts";
import { farmFolder } from "../../support/farmFolder.ts";

const farmWith = (lines: string): Farm => farmFolder().change("farm.yaml", "currency: USD\n", `currency: USD\n${lines}`).read().farm!;

// RFC 7946, 3.1.6: outer rings MUST run counterclockwise and holes clockwise; a record may hold them either way. GDAL's and shapely's reading agree.
it("turns rings as GeoJSON has them, whichever way the record does", () => {
  const outer = [[-37.004, 44], [-37.002, 44], [-37.002, 44.002], [-37.004, 44.002], [-37.004, 44]];
  const hole = [[-37.0035, 44.0005], [-37.0035, 44.0015], [-37.0025, 44.0015], [-37.0025, 44.0005], [-37.0035, 44.0005]];
  const wrong = JSON.stringify([outer.toReversed(), hole.toReversed()]);
  const farm = farmFolder().change("fields/north/zones.geojson", "[[[-37.004, 44], [-37.002, 44], [-37.002, 44.002], [-37.004, 44.002], [-37.004, 44]]]", wrong).read().farm!;
  const { features } = JSON.parse(zonesGeoJson(farm.fields[0]!)) as FeatureCollection<Polygon>;
  expect(features[0]!.geometry.coordinates).toEqual([outer, hole]);
});

it("gives the zones as the record draws them, and only where the owner publishes the place", () => {
  const path = "data/north-zones.geojson";
  expect([...allPaths(farmWith("")).keys()]).not.toContain(path);
  const farm = farmWith("publish: { location: true }\n");
  expect([...allPaths(farm).keys()]).toContain(path);
  const [field] = farm.fields;
  const { features } = JSON.parse(zonesGeoJson(field!)) as FeatureCollection;
  expect(features.map((f) => f.properties?.["zone"] as string)).toEqual(field!.zones.filter((z) => z.area).map((z) => z.id));
  for (const [i, { geometry, properties }] of features.entries()) {
    const zone = field!.zones.filter((z) => z.area)[i]!;
    expect(geometry).toEqual(zone.area);
    expect(properties).toEqual({ field: "north", zone: zone.id, letter: zone.letter, name: zone.name, area_sq_m: Math.round(zone.squareMeters!) });
  }
});
