import type { Feature, Geometry } from "geojson";
import type { Area } from "./geometry.ts";
import { turnedRings } from "./rings.ts";

export interface DescribedArea {
  /** Absent where it has no boundary. */
  readonly area: Area | undefined;
  readonly properties: Readonly<Record<string, string | number | null>>;
}

/** RFC 7946 text: a feature an area, in the order given, a line each; outer rings counterclockwise, whichever way a record holds them. */
export const areasGeoJson = (areas: readonly DescribedArea[]): string => {
  const features = areas.map(({ area, properties }): Feature<Geometry | null> => ({
    type: "Feature",
    geometry: area ? turned(area) : null,
    properties: { ...properties },
  }));
  return `{"type":"FeatureCollection","features":[${features.map((f) => `\n${JSON.stringify(f)}`).join(",")}\n]}\n`;
};

const turned = (area: Area): Area => {
  const polygons = turnedRings(area, "counterclockwise");
  return polygons.length === 1 ? { type: "Polygon", coordinates: polygons[0]! } : { type: "MultiPolygon", coordinates: polygons };
};
