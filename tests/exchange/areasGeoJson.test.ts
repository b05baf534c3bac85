import type { FeatureCollection, MultiPolygon, Polygon } from "geojson";
import { expect, it } from "vitest";
import { areasGeoJson } from "../../src/exchange/areasGeoJson.ts";
import { squareMeters } from "../../src/exchange/geometry.ts";

const clockwise = (west: number, south: number, size: number) => [[west, south], [west, south + size], [west + size, south + size], [west + size, south], [west, south]];
const written = (text: string): FeatureCollection<Polygon | MultiPolygon | null> => JSON.parse(text) as FeatureCollection<Polygon | MultiPolygon | null>;

it("a zone in two parts keeps both, a zone in one is a polygon, and one without a boundary has no geometry", () => {
  const two: MultiPolygon = { type: "MultiPolygon", coordinates: [[clockwise(0, 44, 0.001)], [clockwise(0.01, 44, 0.002)]] };
  const one: Polygon = { type: "Polygon", coordinates: [clockwise(0.02, 44, 0.001)] };
  const { features } = written(areasGeoJson([two, one, undefined].map((area, i) => ({ area, properties: { zone: i } }))));
  expect(features.map((f) => [f.properties!["zone"] as number, f.geometry?.type])).toEqual([[0, "MultiPolygon"], [1, "Polygon"], [2, undefined]]);
  expect(squareMeters(features[0]!.geometry!)).toBeCloseTo(squareMeters(two), 3);
});

// RFC 7946, section 3.1.6: exterior rings are counterclockwise.
it("turns the outer rings counterclockwise", () => {
  const { features } = written(areasGeoJson([{ area: { type: "Polygon", coordinates: [clockwise(0, 44, 0.001)] }, properties: {} }]));
  const [ring] = (features[0]!.geometry as Polygon).coordinates;
  const twice = ring!.slice(1).reduce((sum, [x, y], i) => sum + ring![i]![0]! * y! - x! * ring![i]![1]!, 0);
  expect(twice).toBeGreaterThan(0);
});
