import type { Position } from "geojson";
import { liesWithin, signedArea } from "../rings.ts";
import { BoundaryError } from "./boundaryError.ts";
import type { RawShape } from "./boundaryShape.ts";
import { mostPositions } from "./boundaryShape.ts";
import { shapefileRows } from "./shapefileTable.ts";
import { unzipShapefile } from "./shapefileZip.ts";

/** Polygons, with heights, with measures: their first part is the same. */
const polygonTypes = [5, 15, 25];
const pointTypes = [1, 8, 11, 18, 21, 28];
const lineTypes = [3, 13, 23];

/** The polygons of a zipped shapefile in WGS 84 (the public layout of 1998: a header of 100 bytes, then records). Throws `BoundaryError`. */
export const shapesOfShapefile = (bytes: Uint8Array): RawShape[] => {
  const { shp, prj, dbf, cpg } = unzipShapefile(bytes);
  checkSystem(prj);
  const geometries = readShapes(shp);
  const rows = dbf && shapefileRows(dbf, cpg);
  if (rows && rows.length !== geometries.length)
    throw new BoundaryError(`has ${geometries.length} shapes and ${rows.length} rows of names; export it again`);
  // A shape that was deleted stays in the .shp until the file is packed.
  return geometries.flatMap((geometry, i) => {
    const properties = rows ? rows[i] : {};
    return properties ? [{ properties, geometry }] : [];
  });
};

/** Only degrees on WGS 84 are read: a change of datum moves a boundary by meters, and this program does none. */
const checkSystem = (prj: Uint8Array): void => {
  const text = new TextDecoder().decode(prj);
  const name = /^\s*\w+\s*\[\s*"([^"]{1,80})"/.exec(text)?.[1];
  if (/^\s*(GEOGCS|GEOGCRS|GEODCRS)\s*\[/i.test(text) && /"(D_|GCS_)?WGS[_ ]?(19)?84/i.test(text)) return;
  throw new BoundaryError(
    `is in ${name === undefined ? "a system that its .prj does not name" : `"${name}"`}; export it again as WGS 84 longitude and latitude (EPSG:4326)`,
  );
};

const broken = (): BoundaryError => new BoundaryError("has a .shp that is not whole");

const readShapes = (bytes: Uint8Array): unknown[] => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 100 || view.getInt32(0) !== 9994) throw broken();
  const shapes: unknown[] = [];
  // Each record: its number and its length in pairs of bytes, both big-endian, then its content.
  for (let at = 100; at < bytes.length;) {
    if (at + 12 > bytes.length) throw broken();
    const length = view.getInt32(at + 4) * 2;
    if (length < 4 || at + 8 + length > bytes.length) throw broken();
    shapes.push(readShape(new DataView(bytes.buffer, bytes.byteOffset + at + 8, length)));
    at += 8 + length;
  }
  return shapes;
};

const readShape = (record: DataView): unknown => {
  const type = record.getInt32(0, true);
  if (type === 0) return null;
  if (pointTypes.includes(type)) return { type: "Point" };
  if (lineTypes.includes(type)) return { type: "LineString" };
  if (!polygonTypes.includes(type)) throw new BoundaryError(`holds shapes of a kind that is not read (${type}); export polygons`);
  if (record.byteLength < 44) throw broken();
  const parts = record.getInt32(36, true);
  const points = record.getInt32(40, true);
  if (points > mostPositions) throw new BoundaryError("has more than 20,000 corners; simplify the drawing first");
  if (parts < 1 || points < 1 || parts > points || 44 + parts * 4 + points * 16 > record.byteLength) throw broken();
  const starts = Array.from({ length: parts }, (_, i) => record.getInt32(44 + i * 4, true));
  const rings = starts.map((from, i): Position[] => {
    const to = starts[i + 1] ?? points;
    if (from < 0 || to <= from || to > points) throw broken();
    return Array.from({ length: to - from }, (_, j) => {
      const at = 44 + parts * 4 + (from + j) * 16;
      return [record.getFloat64(at, true), record.getFloat64(at + 8, true)];
    });
  });
  return { type: "MultiPolygon", coordinates: polygonsFrom(rings) };
};

/**
 * Outer rings run clockwise here, holes the other way, in any order; a hole belongs to the outer ring around it. GeoJSON has it the other way
 * round, so each is turned: that the file did as its format asks is nothing to tell.
 */
const polygonsFrom = (rings: readonly Position[][]): Position[][][] => {
  const outer = rings.filter((ring) => signedArea(ring) <= 0);
  // Some programs write every ring counterclockwise.
  if (outer.length === 0) return rings.map((ring) => [ring]);
  const polygons = outer.map((ring) => [ring.toReversed()]);
  for (const hole of rings.filter((ring) => signedArea(ring) > 0)) {
    const around = polygons
      .filter(([ring]) => liesWithin(hole, ring!))
      .sort(([a], [b]) => Math.abs(signedArea(a!)) - Math.abs(signedArea(b!)))[0];
    if (!around) throw new BoundaryError("has a hole that lies in no polygon");
    around.push(hole.toReversed());
  }
  return polygons;
};
