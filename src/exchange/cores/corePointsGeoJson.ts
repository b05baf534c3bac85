import type { FeatureCollection, Point } from "geojson";
import type { Position } from "../geometry.ts";

export interface DescribedPoint {
  readonly at: Position;
  readonly properties: Readonly<Record<string, string | number>>;
}

/** RFC 7946 text: a feature a point, in the order given, WGS 84 longitude before latitude, a line each. */
export const pointsGeoJson = (points: readonly DescribedPoint[]): string => {
  const collection: FeatureCollection<Point> = {
    type: "FeatureCollection",
    features: points.map(({ at, properties }) => ({
      type: "Feature",
      geometry: { type: "Point", coordinates: [...at] },
      properties: { ...properties },
    })),
  };
  return `{"type":"FeatureCollection","features":[${collection.features.map((f) => `\n${JSON.stringify(f)}`).join(",")}\n]}\n`;
};
