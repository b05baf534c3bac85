import type { Feature } from "geojson";
import type { Area } from "./geometry.ts";

export interface DescribedArea {
  readonly area: Area;
  readonly properties: Readonly<Record<string, string | number | null>>;
}

/** RFC 7946 text: a feature an area, in the order given, a line each. */
export const areasGeoJson = (areas: readonly DescribedArea[]): string => {
  const features = areas.map(({ area, properties }): Feature => ({ type: "Feature", geometry: area, properties: { ...properties } }));
  return `{"type":"FeatureCollection","features":[${features.map((f) => `\n${JSON.stringify(f)}`).join(",")}\n]}\n`;
};
