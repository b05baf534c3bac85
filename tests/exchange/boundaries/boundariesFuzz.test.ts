import fc from "fast-check";
import { deflateRawSync } from "node:zlib";
import { zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { readBoundaries } from "../../../src/exchange/boundaries/boundaries.ts";
import { BoundaryError } from "../../../src/exchange/boundaries/boundaryError.ts";
import { bothGeoJson, bothGpx, bothKml, bytesOf, dbf, east, shapefile, shp, west, wgs84 } from "../../support/boundaryFiles.ts";

/** `FUZZ_RUNS=10000` for a longer hunt; with another `FUZZ_SEED` it goes elsewhere. */
const runs = Number(process.env["FUZZ_RUNS"] ?? 200);
const parameters = { seed: Number(process.env["FUZZ_SEED"] ?? 20_251_125), numRuns: runs };
const patience = 30_000 + runs * 60;

/** Whatever a file holds, it is read, or refused in one line; nothing else may come out. */
const readOrRefused = (bytes: Uint8Array, name: string): void => {
  try {
    const { shapes } = readBoundaries(bytes, name);
    expect(shapes.length).toBeGreaterThan(0);
    for (const { area } of shapes) for (const [lon, lat] of area.coordinates.flat(area.type === "Polygon" ? 1 : 2) as number[][]) expect(Math.abs(lon!) <= 180 && Math.abs(lat!) <= 90).toBe(true);
  } catch (cause) {
    if (!(cause instanceof BoundaryError)) throw cause;
    expect(cause.message).toMatch(/^\S.*$/s);
  }
};

/** Bytes changed, cut out and put in at places of a good file: deeper in than noise ever comes. */
const spoiled = (good: Uint8Array): fc.Arbitrary<Uint8Array> =>
  fc.array(fc.record({ at: fc.nat(good.length), over: fc.nat(12), put: fc.oneof(fc.uint8Array({ maxLength: 8 }), fc.constantFrom("<", ">", "&#x0;", '"', "[", "{", "null", "1e999", "-").map(bytesOf)) }), { minLength: 1, maxLength: 6 }).map((slips) =>
    slips.reduce<Uint8Array>((bytes, { at, over, put }) => Buffer.concat([bytes.subarray(0, at), put, bytes.subarray(at + over)]), good),
  );

const zipped = (shpBytes: Uint8Array, dbfBytes: Uint8Array): Uint8Array => zipSync({ "a.shp": shpBytes, "a.dbf": dbfBytes, "a.prj": bytesOf(wgs84) });
const goodShp = shp([[west.toReversed()], [east.toReversed()]]);
const goodDbf = dbf("ZONE", ["west", "east"]);

describe("a reader of boundaries", { timeout: patience }, () => {
  it.each(["a.geojson", "a.kml", "a.gpx", "a.zip"])("takes any bytes as %s", (name) => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => readOrRefused(bytes, name)), parameters);
  });

  it.each<[string, Uint8Array]>([
    ["a.geojson", bytesOf(bothGeoJson)],
    ["a.kml", bytesOf(bothKml)],
    ["a.gpx", bytesOf(bothGpx)],
    ["a.zip", shapefile()],
  ])("takes a spoiled %s", (name, good) => {
    fc.assert(fc.property(spoiled(good), (bytes) => readOrRefused(bytes, name)), parameters);
  });

  it("takes a spoiled .shp and .dbf within a sound zip", () => {
    fc.assert(fc.property(spoiled(goodShp), fc.boolean(), (bytes, alone) => readOrRefused(alone ? zipSync({ "a.shp": bytes, "a.prj": bytesOf(wgs84) }) : zipped(bytes, goodDbf), "a.zip")), parameters);
    fc.assert(fc.property(spoiled(goodDbf), (bytes) => readOrRefused(zipped(goodShp, bytes), "a.zip")), parameters);
  });

  it("takes any JSON", () => {
    fc.assert(fc.property(fc.json(), (text) => readOrRefused(bytesOf(text), "a.geojson")), parameters);
  });

  it.each([
    ["elements within elements", "a.kml", `<kml>${"<a>".repeat(20_000)}${"</a>".repeat(20_000)}</kml>`],
    ["lists within lists", "a.geojson", `{"type":"Polygon","coordinates":${"[".repeat(200_000)}${"]".repeat(200_000)}}`],
    ["collections within collections", "a.geojson", `${'{"type":"GeometryCollection","geometries":['.repeat(5000)}${"]}".repeat(5000)}`],
    ["attributes without end", "a.gpx", `<gpx ${"a".repeat(200_000)}`],
  ])("takes %s", (_, name, text) => {
    expect(() => readBoundaries(bytesOf(text), name)).toThrow(BoundaryError);
  });

  it("takes a zip whose entry is larger than it says", () => {
    const bytes = Buffer.from(zipSync({ "a.shp": new Uint8Array(1000), "a.prj": bytesOf(wgs84) }));
    const swollen = deflateRawSync(Buffer.alloc(100_000_000));
    const head = Buffer.from(bytes.subarray(0, 35));
    head.writeUInt32LE(swollen.length, 18);
    expect(() => readBoundaries(Buffer.concat([head, swollen, bytes.subarray(-22)]), "a.zip")).toThrow("unpacks to more than 20 MB");
  });
});
