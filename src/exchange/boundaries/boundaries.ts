import { BoundaryError } from "./boundaryError.ts";
import { shapesOfGeoJson } from "./boundaryGeoJson.ts";
import type { Boundaries, RawShape } from "./boundaryShape.ts";
import { shapesOf } from "./boundaryShape.ts";
import { boundaryText } from "./boundaryText.ts";
import { shapesOfGpx } from "./gpxBoundaries.ts";
import { shapesOfKml } from "./kmlBoundaries.ts";
import { shapesOfShapefile } from "./shapefileBoundaries.ts";

/** The largest file that is read; asked for before reading. */
export const mostBoundaryBytes = 10_000_000;

const fromJson = (bytes: Uint8Array): RawShape[] => shapesOfGeoJson(boundaryText(bytes));

const readers = new Map([
  ["geojson", fromJson],
  ["json", fromJson],
  ["kml", shapesOfKml],
  ["gpx", shapesOfGpx],
  ["zip", shapesOfShapefile],
]);

const instead = new Map([
  ["kmz", "unzip it and give the .kml in it"],
  ["shp", "give the .zip that holds the .shp with its .dbf and .prj"],
  ["dbf", "give the .zip that holds it with its .shp and .prj"],
]);

/**
 * Read the boundaries a file draws, by the ending of its name: GeoJSON, KML, GPX (each track or route encloses ground) or a
 * zipped shapefile, all in WGS 84. Throws `BoundaryError`, whose message is one line, for a file that cannot be used.
 */
export const readBoundaries = (bytes: Uint8Array, name: string): Boundaries => {
  const ending = /\.([a-z0-9]+)$/i.exec(name)?.[1]?.toLowerCase() ?? "";
  const reader = readers.get(ending);
  if (!reader)
    throw new BoundaryError(`is of a kind that is not read; ${instead.get(ending) ?? "give .geojson, .kml, .gpx, or a shapefile as .zip"}`);
  if (bytes.length > mostBoundaryBytes) throw new BoundaryError(tooLarge);
  if (bytes.length === 0) throw new BoundaryError("is empty");
  return shapesOf(reader(bytes));
};

export const tooLarge = "is larger than 10 MB, too large for the zones of a field";
