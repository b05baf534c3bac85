import { intersect, kinks } from "@turf/turf";
import type { Feature, MultiPolygon, Polygon } from "geojson";
import * as z from "zod";
import type { Area } from "../exchange/geometry.ts";
import { boundsMeet, boundsOf, middleOf, planeAround, polygonsOf, squareMeters } from "../exchange/geometry.ts";
import { explain, plainIssues } from "./explain.ts";
import { allowedWords } from "./nearMiss.ts";
import type { Problems } from "./problem.ts";
import { fieldName, locator, parseYaml, start } from "./yamlFile.ts";

const position = z
  .array(z.number())
  .min(2)
  .max(3)
  .refine(([lon = 0, lat = 0]) => Math.abs(lon) <= 180 && Math.abs(lat) <= 90, {
    error: "must be longitude and latitude in degrees (WGS 84), in this order",
  });
const ring = z
  .array(position)
  .min(4)
  .refine((r) => r[0]?.[0] === r.at(-1)?.[0] && r[0]?.[1] === r.at(-1)?.[1], {
    error: "is open; the last position must repeat the first",
  });
const polygon = z.array(ring).min(1);

/** zones.geojson, RFC 7946: one feature a zone, `properties.zone` its id. Members of other programs are left alone. */
const zonesGeoJson = z.object({
  type: z.literal("FeatureCollection"),
  features: z.array(
    z.object({
      type: z.literal("Feature"),
      properties: z.object({ zone: z.string() }),
      geometry: z.discriminatedUnion("type", [
        z.object({ type: z.literal("Polygon"), coordinates: polygon }),
        z.object({ type: z.literal("MultiPolygon"), coordinates: z.array(polygon).min(1) }),
      ]),
    }),
  ),
  crs: z.unknown().optional(),
});

/** Two zones may share this much of the smaller one: boundaries walked twice never match to the foot. */
const overlapAllowed = 0.01;

/**
 * Read the zone polygons of a field. `zones` are the ids in field.yaml. Every problem is located in the file;
 * `undefined` when the polygons cannot be used.
 */
export const readZones = (text: string, file: string, zones: readonly string[], problems: Problems): Map<string, Area> | undefined => {
  const before = problems.errors.length;
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (cause) {
    const offset = Number(/position (\d+)/.exec(String(cause))?.[1] ?? 0);
    const lines = text.slice(0, offset).split("\n");
    problems.error(file, { line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 }, "", "is not valid JSON");
    return undefined;
  }
  // JSON is YAML too, but slower to read; the places are needed only when something is wrong.
  const report = (path: readonly (string | number)[], message: string): void => {
    const parsed = parseYaml(text, file, problems);
    problems.error(file, parsed ? locator(parsed.document, parsed.lines).at(path) : start, fieldName(path), message);
  };
  const result = zonesGeoJson.safeParse(json, { error: explain });
  if (!result.success) {
    for (const issue of plainIssues(result.error.issues)) report(issue.path, issue.message);
    return undefined;
  }
  if (result.data.crs !== undefined && !/CRS84|4326/.test(JSON.stringify(result.data.crs)))
    report(["crs"], "must be WGS 84 longitude and latitude; convert the file first");

  const areas = new Map<string, Area>();
  result.data.features.forEach((feature, i) => {
    const { zone } = feature.properties;
    if (!zones.includes(zone)) report(["features", i, "properties", "zone"], `zone "${zone}" is not in field.yaml; ${allowedWords(zone, zones)}`);
    else if (areas.has(zone)) report(["features", i, "properties", "zone"], `zone "${zone}" has two features; join them into one MultiPolygon`);
    else {
      const crossing = kinks(feature.geometry).features[0];
      if (crossing) {
        const at = crossing.geometry.coordinates.map((c) => c.toFixed(6)).join(", ");
        report(["features", i, "geometry"], `the boundary of zone "${zone}" crosses itself near ${at}`);
      }
      areas.set(zone, feature.geometry);
    }
  });
  if (problems.errors.length > before) return undefined;
  reportOverlaps(areas, report, result.data.features.map((f) => f.properties.zone));
  return problems.errors.length > before ? undefined : areas;
};

const reportOverlaps = (
  areas: ReadonlyMap<string, Area>,
  report: (path: readonly (string | number)[], message: string) => void,
  order: readonly string[],
): void => {
  const all = [...areas].map(([zone, area]) => ({ zone, area, bounds: boundsOf([area]) }));
  if (all.length < 2) return;
  const plane = planeAround(middleOf(boundsOf(all.map((a) => a.area))));
  const asFeature = (area: Area): Feature<Polygon | MultiPolygon> => ({ type: "Feature", properties: {}, geometry: area });
  all.forEach((a, i) => {
    for (const b of all.slice(i + 1)) {
      if (!boundsMeet(a.bounds, b.bounds)) continue;
      const shared = intersect({ type: "FeatureCollection", features: [asFeature(a.area), asFeature(b.area)] });
      if (!shared || polygonsOf(shared.geometry).length === 0) continue;
      const share = squareMeters(shared.geometry, plane) / Math.min(squareMeters(a.area, plane), squareMeters(b.area, plane));
      if (share > overlapAllowed)
        report(
          ["features", order.indexOf(b.zone), "geometry"],
          `zone "${b.zone}" overlaps zone "${a.zone}" by ${(share * 100).toFixed(1)} % of the smaller one; at most 1 % is allowed`,
        );
    }
  });
};
