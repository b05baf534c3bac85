import { BoundaryError } from "./boundaryError.ts";
import type { RawShape } from "./boundaryShape.ts";

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** What a GeoJSON text draws: a collection, one feature or a bare geometry (RFC 7946). Throws `BoundaryError`. */
export const shapesOfGeoJson = (text: string): RawShape[] => {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    throw new BoundaryError("is not valid JSON");
  }
  if (!isObject(json) || typeof json["type"] !== "string") throw new BoundaryError("is JSON and no GeoJSON: its type is missing");
  if (!isWgs84(json["crs"] ?? undefined))
    throw new BoundaryError("is not in WGS 84; export it again as WGS 84 longitude and latitude (EPSG:4326)");
  if (json["type"] === "FeatureCollection") {
    if (!Array.isArray(json["features"])) throw new BoundaryError("is a collection without features");
    return json["features"].map((feature: unknown, i) => shapeOf(feature, i));
  }
  return [json["type"] === "Feature" ? shapeOf(json, 0) : { properties: {}, geometry: json }];
};

/** Where a file of before RFC 7946 names a system, WGS 84 must be it. */
const isWgs84 = (crs: unknown): boolean => {
  if (crs === undefined) return true;
  const name = isObject(crs) && isObject(crs["properties"]) ? crs["properties"]["name"] : undefined;
  return typeof name === "string" && /CRS84|EPSG:+4326/.test(name);
};

const shapeOf = (feature: unknown, i: number): RawShape => {
  if (!isObject(feature) || feature["type"] !== "Feature") throw new BoundaryError(`shape ${i + 1} is no feature`);
  const { id, properties, geometry = null } = feature;
  return { properties: { ...(id !== undefined && { id }), ...(isObject(properties) && properties) }, geometry };
};
