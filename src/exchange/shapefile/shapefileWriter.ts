import type { Position } from "geojson";
import type { DbfColumn, DbfValue } from "./dbfWriter.ts";
import { dbfFile } from "./dbfWriter.ts";
import type { Area } from "../geometry.ts";
import { boundsOf } from "../geometry.ts";
import { turnedRings } from "../rings.ts";

/** One polygon, of one or several parts, and its row of the table. */
export interface ShapeRow {
  readonly area: Area;
  readonly values: readonly DbfValue[];
}

/** The files of one shapefile, by the ending of their names. */
export type Shapefile = Readonly<Record<"shp" | "shx" | "dbf" | "prj" | "cpg", Uint8Array>>;

/** WGS 84 as the format writes it; longitude and latitude in degrees. */
const wgs84 =
  'GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]';

const polygonType = 5;
const headerBytes = 100;

/** The content of one record: type, bounds, numbers of rings and points, where each ring begins, the points. */
const polygonRecord = (area: Area): Uint8Array => {
  const rings = turnedRings(area, "clockwise").flat();
  const points = rings.flat();
  const bytes = new Uint8Array(44 + 4 * rings.length + 16 * points.length);
  const view = new DataView(bytes.buffer);
  view.setInt32(0, polygonType, true);
  writeBounds(view, 4, [area]);
  view.setInt32(36, rings.length, true);
  view.setInt32(40, points.length, true);
  let first = 0;
  rings.forEach((ring, i) => {
    view.setInt32(44 + 4 * i, first, true);
    first += ring.length;
  });
  points.forEach((point, i) => writePoint(view, 44 + 4 * rings.length + 16 * i, point));
  return bytes;
};

const writePoint = (view: DataView, at: number, [x = 0, y = 0]: Position): void => {
  view.setFloat64(at, x, true);
  view.setFloat64(at + 8, y, true);
};

const writeBounds = (view: DataView, at: number, areas: readonly Area[]): void => {
  if (areas.length === 0) return;
  const { west, south, east, north } = boundsOf(areas);
  writePoint(view, at, [west, south]);
  writePoint(view, at + 16, [east, north]);
};

/** The header that .shp and .shx share; lengths in the format are in words of 16 bits. */
const writeHeader = (view: DataView, areas: readonly Area[]): void => {
  view.setInt32(0, 9994);
  view.setInt32(24, view.byteLength / 2);
  view.setInt32(28, 1000, true);
  view.setInt32(32, polygonType, true);
  writeBounds(view, 36, areas);
};

/**
 * An ESRI shapefile of polygons in WGS 84 (Esri, "Shapefile Technical Description", July 1998): outer rings clockwise, holes
 * counterclockwise, every ring closed as in the record. The table is written by `dbfFile`, whose errors it passes on.
 */
export const shapefile = (columns: readonly DbfColumn[], rows: readonly ShapeRow[], date: string): Shapefile => {
  const areas = rows.map((r) => r.area);
  const records = areas.map(polygonRecord);
  const shp = new DataView(new ArrayBuffer(headerBytes + records.reduce((sum, r) => sum + 8 + r.length, 0)));
  const shx = new DataView(new ArrayBuffer(headerBytes + 8 * records.length));
  writeHeader(shp, areas);
  writeHeader(shx, areas);
  let at = headerBytes;
  records.forEach((record, i) => {
    shp.setInt32(at, i + 1);
    shp.setInt32(at + 4, record.length / 2);
    new Uint8Array(shp.buffer).set(record, at + 8);
    shx.setInt32(headerBytes + 8 * i, at / 2);
    shx.setInt32(headerBytes + 8 * i + 4, record.length / 2);
    at += 8 + record.length;
  });
  const text = new TextEncoder();
  return {
    shp: new Uint8Array(shp.buffer),
    shx: new Uint8Array(shx.buffer),
    dbf: dbfFile(
      columns,
      rows.map((r) => r.values),
      date,
    ),
    prj: text.encode(wgs84),
    cpg: text.encode("UTF-8"),
  };
};
