import { describe, expect, it } from "vitest";
import { planeAround } from "../../../src/exchange/geometry.ts";
import { farmFolder, linesAfter } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const { zones, field } = paths;
const whole = tinyFarm[zones]!;
const linesOf = (text: string): string[] => farmFolder().write(zones, text).lines();

/** The file with a geometry of one's own for the zone "east", which begins in line 8, column 72. */
const withEast = (geometry: object): string => whole.replace(/(\{ "type": "Feature", "properties": \{ "zone": "east" \}, "geometry": )\{[^}]*\}/, (_, head: string) => head + JSON.stringify(geometry));
const box = (west: number, east: number, south = 44, north = 44.002): number[][] => [[west, south], [east, south], [east, north], [west, north], [west, south]];
const polygon = (...rings: number[][][]): object => ({ type: "Polygon", coordinates: rings });
const inDegrees = "must be longitude and latitude in degrees (WGS 84), in this order";

describe("text that is not JSON", () => {
  it.each([
    ["a web page", "<!doctype html>", "1:1: file: is not valid JSON"],
    ["nothing", "", "1:1: file: is not valid JSON; it ends too early"],
    ["half a file", whole.slice(0, 300), "8:38: file: is not valid JSON; it ends too early"],
    ["a comma too many", whole.replace("} }\n  ]", "} },\n  ]"), "12:3: file: is not valid JSON"],
    ["single quotes", whole.replace('"FeatureCollection"', "'FeatureCollection'"), "2:11: file: is not valid JSON"],
    ["a remark", whole.replace("{\n", "{\n// zones\n"), "2:1: file: is not valid JSON"],
    ["a hundred thousand brackets", "[".repeat(100_000), "1:100001: file: is not valid JSON; it ends too early"],
  ])("%s", (_, text, line) => {
    expect(linesOf(text)).toEqual([`${zones}:${line}`]);
  });

  it.each([
    ["tabs", whole.replaceAll("  ", "\t")],
    ["a byte order mark", `\ufeff${whole}`],
    ["one long line", JSON.stringify(JSON.parse(whole))],
  ])("JSON with %s is JSON", (_, text) => {
    expect(linesOf(text)).toEqual([]);
  });
});

describe("a file of another shape", () => {
  it.each([
    ["one feature alone", '"FeatureCollection"', '"Feature"', '2:11: type: must be FeatureCollection, not the text "Feature"'],
    ["a point", '"Polygon"', '"Point"', '5:15: features[1].geometry.type: the text "Point" is not known; allowed: Polygon, MultiPolygon'],
    ["no zone named", '"zone": "east"', '"name": "east"', "8:40: features[2].properties.zone: is missing; must be text"],
    ["a zone named by a number", '"zone": "east"', '"zone": 2', "8:50: features[2].properties.zone: must be text, not 2; put it in quotes"],
    ["no properties", '{ "zone": "east" }', "null", "8:40: features[2].properties: must be { zone }, not an empty value"],
    ["a zone that is not in field.yaml", '"zone": "east"', '"zone": "eats"', '8:50: features[2].properties.zone: zone "eats" is not in field.yaml; did you mean east?'],
    ["two features for one zone", '"zone": "east"', '"zone": "west"', '8:50: features[2].properties.zone: zone "west" has two features; join them into one MultiPolygon'],
    ["a position of one number", "[-37.002, 44.002]", "[-37.002]", "6:54: features[1].geometry.coordinates[1][3]: needs at least 2 entries"],
    ["a number too large", "[-37.002, 44.002]", "[-37.002, 1e999]", "6:64: features[1].geometry.coordinates[1][3][2]: must be a number, not Infinity"],
    ["an open ring", "[-37.004, 44]]]", "[-37.004, 44.001]]]", "6:23: features[1].geometry.coordinates[1]: is open; the last position must repeat the first"],
    ["a ring open to the east", "[-37.004, 44]]]", "[-37.003, 44]]]", "6:23: features[1].geometry.coordinates[1]: is open; the last position must repeat the first"],
    ["a position of four numbers", "[-37.002, 44.002]", "[-37.002, 44.002, 1, 2]", "6:54: features[1].geometry.coordinates[1][3]: has too many entries; at most 3"],
    ["a ring of three positions", "[-37.002, 44], [-37.002, 44.002], [-37.004, 44.002]", "[-37.002, 44]", "6:23: features[1].geometry.coordinates[1]: needs at least 4 entries"],
    ["no ring", "[[[-37.004, 44], [-37.002, 44], [-37.002, 44.002], [-37.004, 44.002], [-37.004, 44]]]", "[]", "6:22: features[1].geometry.coordinates: needs at least 1 entry"],
  ])("%s", (_, from, to, line) => {
    expect(linesAfter(zones, from, to)).toEqual([`${zones}:${line}`]);
  });

  it("no part", () => expect(linesOf(withEast({ type: "MultiPolygon", coordinates: [] }))).toEqual([`${zones}:8:109: features[2].geometry.coordinates: needs at least 1 entry`]));

  it("a zone without a polygon is a warning", () => {
    const farm = farmFolder().write(zones, JSON.stringify({ type: "FeatureCollection", features: [] }));
    expect(farm.lines()).toEqual([
      `${field}:4:9: zones.west: warning: has no polygon in zones.geojson, so it has no area and is not on the map`,
      `${field}:5:9: zones.east: warning: has no polygon in zones.geojson, so it has no area and is not on the map`,
    ]);
    expect(farm.read().farm?.fields[0]?.zones[0]?.squareMeters).toBeUndefined();
  });

  it("a field may do without the file", () => {
    expect(farmFolder().remove(zones).lines()).toEqual([]);
  });

  it("members of other programs are left alone", () => {
    expect(linesAfter(zones, '"zone": "east" }', '"zone": "east", "fill": "#f00", "__proto__": 1 }, "id": 7, "bbox": [0, 0, 1, 1]')).toEqual([]);
  });
});

describe("coordinates that are not longitude and latitude", () => {
  it.each([
    ["projected", whole.replaceAll(/-37(\.\d+)?, 44(\.\d+)?/g, "500123.4, 4870123.4")],
    ["beyond the date line", whole.replaceAll("-37", "-181")],
    ["swapped", whole.replaceAll(/-37(\.\d+)?, 44(\.\d+)?/g, "44, -123.5")],
  ])("%s: told once a ring", (_, text) => {
    expect(linesOf(text)).toEqual([
      `${zones}:6:24: features[1].geometry.coordinates[1][1]: ${inDegrees}`,
      `${zones}:10:24: features[2].geometry.coordinates[1][1]: ${inDegrees}`,
    ]);
  });

  const crs = (value: string): string[] => linesAfter(zones, '"FeatureCollection",', `"FeatureCollection", "crs": ${value},`);
  const named = (name: string): string => `{ "type": "name", "properties": { "name": "${name}" } }`;

  it.each([named("urn:ogc:def:crs:EPSG::26917"), `${"[".repeat(10_000)}${"]".repeat(10_000)}`])("another system: %.40s", (value) => {
    expect(crs(value)).toEqual([`${zones}:2:39: crs: must be WGS 84 longitude and latitude; convert the file first`]);
  });

  it.each([named("urn:ogc:def:crs:OGC:1.3:CRS84"), named("EPSG:4326"), "null"])("WGS 84 by name is accepted: %s", (value) => {
    expect(crs(value)).toEqual([]);
  });
});

describe("shapes", () => {
  const place = `${zones}:8:72: features[2].geometry:`;
  const secondPiece = 'a hole of zone "east" is no hole, because it lies outside the boundary or within another hole; each piece of ground is a part of its own in a MultiPolygon';
  const crossed = [[-37.002, 44], [-37, 44], [-37.002, 44.002], [-37, 44.002], [-37.002, 44]];

  it.each([
    ["crosses itself", polygon(crossed), 'the boundary of zone "east" crosses itself near -37.001000, 44.001000'],
    ["is a line", polygon([[-37, 44], [-37, 44.001], [-37, 44.002], [-37, 44]]), 'the boundary of zone "east" encloses no area'],
    ["is a point", polygon([[-37, 44], [-37, 44], [-37, 44], [-37, 44]]), 'the boundary of zone "east" encloses no area'],
    ["has a part that is a line", { type: "MultiPolygon", coordinates: [[box(-37.002, -37.001)], [[[-37, 44], [-37, 44.001], [-37, 44.002], [-37, 44]]]] }, 'the boundary of zone "east" encloses no area'],
    ["overlaps by 2 %", polygon(box(-37.00204, -37)), 'zone "east" overlaps zone "west" by 2.0 % of the smaller one; at most 1 % is allowed'],
    ["is small and lies within the other", polygon(box(-37.003, -37.0025, 44.0005, 44.001)), 'zone "east" overlaps zone "west" by 100.0 % of the smaller one; at most 1 % is allowed'],
    ["lies on the other", polygon(box(-37.004, -37.002)), 'zone "east" overlaps zone "west" by 100.0 % of the smaller one; at most 1 % is allowed'],
    // RFC 7946, 3.1.6: of several rings of a Polygon the first bounds it, and the others bound holes within it.
    ["has a second piece for a hole", polygon(box(-37.002, -37.001), box(-37.0005, -37)), secondPiece],
    ["has a hole that is larger than it", polygon(box(-37.0015, -37.001, 44.0005, 44.001), box(-37.002, -37)), secondPiece],
    ["has a hole in a hole", polygon(box(-37.002, -37), box(-37.0015, -37.0005, 44.0005, 44.0015), box(-37.0012, -37.0008, 44.0008, 44.0012)), secondPiece],
    ["has a part with a second piece for a hole", { type: "MultiPolygon", coordinates: [[box(-37.002, -37.0015)], [box(-37.001, -37.0008), box(-37.0005, -37)]] }, secondPiece],
    ["has parts that overlap", { type: "MultiPolygon", coordinates: [[box(-37.002, -37.001)], [box(-37.0015, -37)]] }, 'parts of zone "east" overlap each other'],
  ])("a zone that %s", (_, geometry, message) => {
    expect(linesOf(withEast(geometry))).toEqual([`${place} ${message}`]);
  });

  it.each([
    ["overlaps by just under 1 %", polygon(box(-37.002018, -37))],
    ["repeats a position", polygon([[-37.002, 44], [-37, 44], [-37, 44], [-37, 44.002], [-37.002, 44.002], [-37.002, 44]])],
    ["has parts that touch at a corner", { type: "MultiPolygon", coordinates: [[box(-37.002, -37.001, 44, 44.001)], [box(-37.001, -37, 44.001, 44.002)]] }],
    ["has two holes", polygon(box(-37.002, -37), box(-37.0015, -37.0012, 44.0005, 44.0015), box(-37.0008, -37.0005, 44.0005, 44.0015))],
    ["has an island in a hole", { type: "MultiPolygon", coordinates: [[box(-37.002, -37), box(-37.0015, -37.0005, 44.0005, 44.0015)], [box(-37.0012, -37.0008, 44.0008, 44.0012)]] }],
    ["has heights", polygon(box(-37.002, -37).map((p) => [...p, 12]))],
  ])("a zone that %s is accepted", (_, geometry) => {
    expect(linesOf(withEast(geometry))).toEqual([]);
  });
});

it("zones that end at the date line are accepted", () => {
  expect(linesOf(whole.replaceAll("-37.004", "179.996").replaceAll("-37.002", "179.998").replaceAll("-37,", "180,"))).toEqual([]);
});

describe("a zone far from the rest of its field is doubted", () => {
  it("where a degree was mistyped, in all of it or in one corner", () => {
    expect(linesOf(whole.replace(/(-37.002|-37), 44/g, "$1, 45"))).toEqual([
      `${zones}:4:72: features[1].geometry: warning: zone "west" reaches 111 km away from the middle of the field; is a degree mistyped?`,
    ]);
    expect(linesOf(withEast(polygon([[-37.002, 44], [-36, 44], [-37, 44.002], [-37.002, 44.002], [-37.002, 44]])))).toEqual([
      `${zones}:8:72: features[2].geometry: warning: zone "east" reaches 80 km away from the middle of the field; is a degree mistyped?`,
    ]);
  });

  // A paddock of a cattle station may be as wide (from memory).
  it("not where it is 40 km away", () => expect(linesOf(withEast(polygon(box(-36.502, -36.5))))).toEqual([]));
});

describe("areas", () => {
  const areaOf = (geometry: object): number => {
    const { farm } = farmFolder().write(zones, withEast(geometry)).read();
    return farm!.fields[0]!.zones[1]!.squareMeters!;
  };
  const corner = planeAround([-37, 44]).toPlane([-37.002, 44.002]);
  const plain = Math.abs(corner.x * corner.y);

  it("of a polygon", () => {
    expect(areaOf(polygon(box(-37.002, -37)))).toBeCloseTo(plain, -1);
  });

  it("without its hole", () => {
    expect(areaOf(polygon(box(-37.002, -37), box(-37.0015, -37.0005, 44.0005, 44.0015)))).toBeCloseTo(plain * 0.75, -1);
  });

  it("of two parts together", () => {
    expect(areaOf({ type: "MultiPolygon", coordinates: [[box(-37.002, -37.0015)], [box(-37.0005, -37)]] })).toBeCloseTo(plain / 2, -1);
  });

  it("whichever way the ring runs", () => {
    expect(areaOf(polygon(box(-37.002, -37).reverse()))).toBeCloseTo(plain, -1);
  });
});
