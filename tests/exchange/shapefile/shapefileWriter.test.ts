import type { MultiPolygon, Polygon, Position } from "geojson";
import { describe, expect, it } from "vitest";
import type { DbfColumn, DbfValue } from "../../../src/exchange/shapefile/dbfWriter.ts";
import { dbfFile } from "../../../src/exchange/shapefile/dbfWriter.ts";
import { signedArea } from "../../../src/exchange/rings.ts";
import { shapefile } from "../../../src/exchange/shapefile/shapefileWriter.ts";

/** A square ring of 0.01 degrees from its south-western corner, counterclockwise. */
const square = (west: number, south: number, size = 0.01): Position[] => [[west, south], [west + size, south], [west + size, south + size], [west, south + size], [west, south]];
const back = (ring: Position[]): Position[] => [...ring].reverse();

/** One square with a hole, and one zone of two squares; rings in the direction of GeoJSON in the first and the other way in the second. */
const holed: Polygon = { type: "Polygon", coordinates: [square(-37, 44), back(square(-36.996, 44.004, 0.002))] };
const two: MultiPolygon = { type: "MultiPolygon", coordinates: [[back(square(-36.98, 44))], [back(square(-36.96, 44))]] };
const columns = [{ name: "ZONE" }, { name: "RATE_LBAC", decimals: 1 }];
const written = () => shapefile(columns, [{ area: holed, values: ["Upper ä", 178.25] }, { area: two, values: [undefined, 0] }], "2025-10-28");
const at = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** The rings of a record's content, as they stand in the bytes. */
const ringsAt = (shp: DataView, content: number): Position[][] => {
  const [parts, points] = [shp.getInt32(content + 36, true), shp.getInt32(content + 40, true)];
  const starts = Array.from({ length: parts }, (_, i) => shp.getInt32(content + 44 + 4 * i, true));
  return starts.map((start, i) =>
    Array.from({ length: (starts[i + 1] ?? points) - start }, (_, j) => {
      const p = content + 44 + 4 * parts + 16 * (start + j);
      return [shp.getFloat64(p, true), shp.getFloat64(p + 8, true)];
    }),
  );
};

it("twice the area of a ring is above 0 where it runs counterclockwise", () => {
  // 3 by 2, halved.
  expect([signedArea([[1, 1], [4, 1], [1, 3], [1, 1]]), signedArea([[1, 1], [1, 3], [4, 1], [1, 1]])]).toEqual([6, -6]);
});

/** Places in the bytes: Esri, "Shapefile Technical Description", July 1998, tables 1 to 3 and "Polygon" (from memory). */
describe("a shapefile's bytes", () => {
  // Each record holds 44 bytes, 4 a ring and 16 a point: 2 rings of 5 points are 44 + 8 + 160 = 212 bytes, 106 words.
  it("say the length of the file and of each record, in words of 16 bits", () => {
    const { shp, shx } = written();
    expect([at(shp).getInt32(0), at(shp).getInt32(28, true), at(shp).getInt32(32, true)]).toEqual([9994, 1000, 5]);
    expect(shp.length).toBe(100 + 2 * (8 + 212));
    expect(at(shp).getInt32(24)).toBe(shp.length / 2);
    expect([at(shp).getInt32(100), at(shp).getInt32(104)]).toEqual([1, 106]);
    expect([at(shp).getInt32(320), at(shp).getInt32(324)]).toEqual([2, 106]);
    expect(shx.length).toBe(116);
    // The index begins as the shapes do, but for its own length.
    expect([at(shx).getInt32(0), at(shx).getInt32(24)]).toEqual([9994, 58]);
    expect(shx.subarray(28, 100)).toEqual(shp.subarray(28, 100));
    expect([100, 104, 108, 112].map((place) => at(shx).getInt32(place))).toEqual([50, 106, 160, 106]);
  });

  it("hold outer rings clockwise and holes counterclockwise, however the record had them", () => {
    const shp = at(written().shp);
    const [first, second] = [ringsAt(shp, 108), ringsAt(shp, 328)];
    expect(first.map((ring) => Math.sign(signedArea(ring)))).toEqual([-1, 1]);
    expect(second.map((ring) => Math.sign(signedArea(ring)))).toEqual([-1, -1]);
    for (const ring of [...first, ...second]) expect(ring.at(-1)).toEqual(ring[0]);
  });

  // By hand, for a ring may not be judged by the very sum that turned it: a triangle of 3 by 2 degrees, from its south-western corner.
  it.each([
    ["north first, clockwise", [[0, 0], [0, 2], [3, 0], [0, 0]]],
    ["east first, counterclockwise", [[0, 0], [3, 0], [0, 2], [0, 0]]],
  ])("go north first where the record goes %s", (_, ring) => {
    const { shp } = shapefile([{ name: "ZONE" }], [{ area: { type: "Polygon", coordinates: [ring] }, values: ["a"] }], "2025-10-28");
    expect(ringsAt(at(shp), 108)).toEqual([[[0, 0], [0, 2], [3, 0], [0, 0]]]);
  });

  it("say the bounds of all and of each", () => {
    const shp = at(written().shp);
    const bounds = (place: number): number[] => [0, 8, 16, 24].map((o) => shp.getFloat64(place + o, true));
    expect(bounds(36)).toEqual([-37, 44, -36.96 + 0.01, 44.01]);
    expect(bounds(112)).toEqual([-37, 44, -36.99, 44.01]);
  });

  it("are the same every time", () => expect(written()).toEqual(written()));

  it("name the coordinate system and the letters", () => {
    const { prj, cpg } = written();
    expect(new TextDecoder().decode(prj)).toMatch(/^GEOGCS\["GCS_WGS_1984",DATUM\["D_WGS_1984"/);
    expect(new TextDecoder().decode(cpg)).toBe("UTF-8");
  });

  it("may hold no polygon at all", () => {
    const { shp, dbf } = shapefile(columns, [], "2025-10-28");
    expect([shp.length, at(shp).getInt32(24), at(dbf).getUint32(4, true)]).toEqual([100, 50, 0]);
    expect([36, 44, 52, 60].map((place) => at(shp).getFloat64(place, true))).toEqual([0, 0, 0, 0]);
  });
});

/** Places in the bytes: the dBASE III header, 32 bytes, then 32 a column (from memory). */
describe("a shapefile's table", () => {
  it("says its day, how many records it holds and how long each is", () => {
    const dbf = at(written().dbf);
    // "Upper ä" takes 8 bytes in UTF-8, "178.3" 5, and the mark of deletion 1.
    expect([0, 1, 2, 3].map((place) => dbf.getUint8(place))).toEqual([3, 125, 10, 28]);
    expect([dbf.getUint32(4, true), dbf.getUint16(8, true), dbf.getUint16(10, true)]).toEqual([2, 97, 14]);
    expect(dbf.byteLength).toBe(97 + 2 * 14 + 1);
    expect([dbf.getUint8(96), dbf.getUint8(dbf.byteLength - 1)]).toEqual([0x0d, 0x1a]);
  });

  it("names its columns in ten letters or fewer, text and number", () => {
    const { dbf } = written();
    const name = (i: number) => new TextDecoder().decode(dbf.subarray(32 + 32 * i, 32 + 32 * i + 11)).replace(/\0+$/, "");
    expect([name(0), name(1)]).toEqual(["ZONE", "RATE_LBAC"]);
    expect([0, 1].map((i) => String.fromCharCode(dbf[32 + 32 * i + 11]!))).toEqual(["C", "N"]);
    expect([0, 1].map((i) => [dbf[32 + 32 * i + 16], dbf[32 + 32 * i + 17]])).toEqual([[8, 0], [5, 1]]);
  });

  it("writes text to the left, numbers to the right, and nothing where nothing is known", () => {
    const text = new TextDecoder().decode(written().dbf.subarray(97));
    expect(text).toBe(" Upper ä178.3           0.0\x1a");
  });

  it("leaves a shorter text its blanks on the right, and gives a column of nothing but unknowns the least that it may have: a byte, or room for its fraction", () => {
    const bytes = dbfFile([{ name: "ZONE" }, { name: "COST", decimals: 2 }, { name: "CROP" }, { name: "PARTS", decimals: 0 }], [["west"], ["a"]], "2025-01-01");
    expect([32, 64, 96, 128].map((column) => bytes[column + 16])).toEqual([4, 4, 1, 1]);
    expect(new TextDecoder().decode(bytes.subarray(161))).toBe(` west${" ".repeat(6)} a   ${" ".repeat(6)}\x1a`);
  });

  it.each([
    [[{ name: "RATE_LB_PER_ACRE" }], "RATE_LB_PER_ACRE is no name"],
    [[{ name: "rate" }], "rate is no name"],
    [[{ name: "A" }, { name: "A" }], "two .dbf columns"],
  ])("refuses the columns %j", (wrong, why) => expect(() => dbfFile(wrong, [], "2025-01-01")).toThrow(why));

  const only = (column: DbfColumn, value: DbfValue): Uint8Array => dbfFile([column], [[value]], "2025-01-01");

  it.each([[0, 178, "178"], [2, 178.25, "178.25"], [2, -0.5, "-0.50"], [2, 1e15, "1000000000000000.00"]])("writes with %i decimals %d as %s", (decimals, value, text) => {
    expect(new TextDecoder().decode(only({ name: "N", decimals }, value).subarray(66, -1))).toBe(text);
  });

  it.each([[2, 1e16], [0, 1e21], [2, NaN], [2, Infinity]])("refuses with %i decimals %d, which would be cut short or is none", (decimals, value) => {
    expect(() => only({ name: "N", decimals }, value)).toThrow("no number that a .dbf can hold");
  });

  it.each(["ä", "x"])("cuts a text of many %s between letters", (letter) => {
    const dbf = only({ name: "T" }, letter.repeat(300));
    expect(dbf[32 + 16]).toBe(254);
    expect(new TextDecoder().decode(dbf.subarray(66, 66 + 254))).toBe(letter.repeat(letter === "x" ? 254 : 127));
  });
});
