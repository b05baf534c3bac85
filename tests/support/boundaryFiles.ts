import { zipSync } from "fflate";

/** Two squares side by side, each 0.002 degrees wide, on the ground of the tiny farm: west and east. */
export const west = [[-37.004, 44], [-37.002, 44], [-37.002, 44.002], [-37.004, 44.002], [-37.004, 44]];
export const east = [[-37.002, 44], [-37, 44], [-37, 44.002], [-37.002, 44.002], [-37.002, 44]];

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

export const feature = (properties: object, ring: readonly (readonly number[])[]) => ({ type: "Feature", properties, geometry: { type: "Polygon", coordinates: [ring] } });

export const geoJson = (...features: readonly object[]): string => JSON.stringify({ type: "FeatureCollection", features });

export const bothGeoJson = geoJson(feature({ name: "West end" }, west), feature({ name: "East end" }, east));

const kmlRing = (ring: readonly (readonly number[])[], height = ""): string => ring.map((p) => `${p.join(",")}${height}`).join(" ");
export const placemark = (name: string, ring: readonly (readonly number[])[], height = ""): string =>
  `<Placemark><name>${name}</name><Polygon><outerBoundaryIs><LinearRing><coordinates>${kmlRing(ring, height)}</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark>`;
export const kml = (inner: string): string => `<?xml version="1.0" encoding="UTF-8"?>\n<kml xmlns="http://www.opengis.net/kml/2.2"><Document>${inner}</Document></kml>`;
export const bothKml = kml(placemark("West end", west, ",12") + placemark("east", east, ",12"));

const points = (tag: string, ring: readonly (readonly number[])[]): string => ring.map(([lon, lat]) => `<${tag} lat="${lat}" lon="${lon}"></${tag}>`).join("");
export const track = (name: string, ...segments: readonly (readonly (readonly number[])[])[]): string => `<trk><name>${name}</name>${segments.map((s) => `<trkseg>${points("trkpt", s)}</trkseg>`).join("")}</trk>`;
export const route = (name: string, ring: readonly (readonly number[])[]): string => `<rte><name>${name}</name>${points("rtept", ring)}</rte>`;
export const gpx = (inner: string): string => `<?xml version="1.0"?>\n<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="test">${inner}</gpx>`;
export const bothGpx = gpx(track("West end", west) + route("East end", east));

export const wgs84 = 'GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]],PRIMEM["Greenwich",0.0],UNIT["Degree",0.0174532925199433]]';
export const utm = 'PROJCS["WGS_1984_UTM_Zone_15N",GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137.0,298.257223563]]],PROJECTION["Transverse_Mercator"]]';

/** A .shp by the layout of its public description of 1998: rings as they are given, one record a shape. */
export const shp = (shapes: readonly (readonly (readonly (readonly number[])[])[])[], type = 5): Uint8Array => {
  const records = shapes.map((rings, i) => {
    const count = rings.reduce((sum, ring) => sum + ring.length, 0);
    const length = 44 + rings.length * 4 + count * 16;
    const view = new DataView(new ArrayBuffer(8 + length));
    view.setInt32(0, i + 1);
    view.setInt32(4, length / 2);
    view.setInt32(8, type, true);
    view.setInt32(44, rings.length, true);
    view.setInt32(48, count, true);
    let start = 0;
    rings.forEach((ring, j) => {
      view.setInt32(52 + j * 4, start, true);
      start += ring.length;
    });
    rings.flat().forEach(([lon = 0, lat = 0], j) => {
      view.setFloat64(52 + rings.length * 4 + j * 16, lon, true);
      view.setFloat64(60 + rings.length * 4 + j * 16, lat, true);
    });
    return new Uint8Array(view.buffer);
  });
  const head = new DataView(new ArrayBuffer(100));
  head.setInt32(0, 9994);
  head.setInt32(24, (100 + records.reduce((sum, r) => sum + r.length, 0)) / 2);
  head.setInt32(28, 1000, true);
  head.setInt32(32, type, true);
  return Buffer.concat([new Uint8Array(head.buffer), ...records]);
};

/** A .dbf of one column of text. */
export const dbf = (column: string, values: readonly (string | Uint8Array)[]): Uint8Array => {
  const width = 20;
  const bytes = Buffer.alloc(65 + values.length * (width + 1), 32);
  bytes.fill(0, 0, 64);
  bytes[0] = 3;
  bytes.writeUInt32LE(values.length, 4);
  bytes.writeUInt16LE(65, 8);
  bytes.writeUInt16LE(width + 1, 10);
  bytes.write(column, 32, "latin1");
  bytes[43] = "C".charCodeAt(0);
  bytes[48] = width;
  bytes[64] = 13;
  values.forEach((value, i) => Buffer.from(value as string).copy(bytes, 65 + i * (width + 1) + 1));
  return bytes;
};

/** Shapefiles turn outer rings clockwise. */
export const shapefile = (parts: Partial<Record<"shp" | "dbf" | "prj" | "cpg", Uint8Array | undefined>> = {}): Uint8Array => {
  const all: Record<string, Uint8Array | undefined> = {
    shp: shp([[west.toReversed()], [east.toReversed()]]),
    dbf: dbf("ZONE", ["West end", "east"]),
    prj: bytesOf(wgs84),
    ...parts,
  };
  return zipSync(Object.fromEntries(Object.entries(all).flatMap(([ending, bytes]) => (bytes ? [[`export/zones.${ending}`, bytes]] : []))));
};
