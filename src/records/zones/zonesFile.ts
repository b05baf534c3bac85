import { intersect } from "@turf/intersect";
import { kinks } from "@turf/kinks";
import type { Feature, MultiPolygon, Polygon, Position } from "geojson";
import * as z from "zod";
import type { Area } from "../../exchange/geometry.ts";
import { boundsMeet, boundsOf, middleOf, planeAround, polygonsOf, squareMeters } from "../../exchange/geometry.ts";
import { liesWithin } from "../../exchange/rings.ts";
import { explain, plainIssues } from "../yaml/explain.ts";
import { scanJson } from "../yaml/jsonText.ts";
import { allowedWords } from "../nearMiss.ts";
import type { Path } from "../place.ts";
import { fieldName, placeAt } from "../place.ts";
import type { Problems } from "../problem.ts";
import type { ZoneLives } from "./zoneLives.ts";

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

/** Wherever a system of coordinates is named, WGS 84 must be it: RFC 7946 knows no other. */
const isWgs84 = (crs: unknown): boolean => {
  const named = z.object({ properties: z.object({ name: z.string() }) }).safeParse(crs);
  return crs === undefined || crs === null || (named.success && /CRS84|4326/.test(named.data.properties.name));
};

type Report = (path: Path, message: string) => void;

/**
 * Read the zone polygons of a field. `zones` are those of field.yaml, `undefined` when that could not be read. Every
 * problem is located in the file; `undefined` when the polygons cannot be used. Zones that were never zones at the same time may overlap.
 */
export const readZones = (
  text: string,
  file: string,
  zones: Pick<ZoneLives, "ids" | "together"> | undefined,
  problems: Problems,
): Map<string, Area> | undefined => {
  const before = problems.errors.length;
  const { fault } = scanJson(text);
  if (fault !== undefined) {
    problems.error(file, placeAt(text, fault), "", fault === text.length ? "is not valid JSON; it ends too early" : "is not valid JSON");
    return undefined;
  }
  const report: Report = (path, message) => problems.error(file, placeAt(text, scanJson(text, path).found), fieldName(path), message);
  const result = zonesGeoJson.safeParse(JSON.parse(text), { error: explain });
  if (!result.success) {
    reportIssues(result.error.issues, report);
    return undefined;
  }
  if (!isWgs84(result.data.crs)) report(["crs"], "must be WGS 84 longitude and latitude; convert the file first");

  const areas = new Map<string, Area>();
  result.data.features.forEach((feature, i) => {
    const { zone } = feature.properties;
    const place = ["features", i, "properties", "zone"];
    if (zones && !zones.ids.includes(zone)) report(place, `zone "${zone}" is not in field.yaml; ${allowedWords(zone, zones.ids)}`);
    else if (areas.has(zone)) report(place, `zone "${zone}" has two features; join them into one MultiPolygon`);
    else {
      reportShape(feature.geometry, zone, (message) => report(["features", i, "geometry"], message));
      areas.set(zone, feature.geometry);
    }
  });
  if (problems.errors.length > before) return undefined;
  const order = result.data.features.map((f) => f.properties.zone);
  warnOfFar(areas, order, (path, message) => problems.warn(file, placeAt(text, scanJson(text, path).found), fieldName(path), message));
  // Where field.yaml could not be read, which of them were ever zones together is not known.
  if (zones) reportOverlaps(areas, report, order, zones.together);
  return problems.errors.length > before ? undefined : areas;
};

/** No field reaches so far: a degree was mistyped, and the map would show two specks. */
const farMeters = 50_000;

/** Warn, once a zone, of a position far from the middle one of the field. */
const warnOfFar = (areas: ReadonlyMap<string, Area>, order: readonly string[], warn: Report): void => {
  const positions = [...areas.values()].flatMap((area) => polygonsOf(area).flat(2));
  const middle = (axis: 0 | 1): number => positions.map((p) => p[axis]!).sort((a, b) => a - b)[Math.floor(positions.length / 2)] ?? 0;
  const plane = planeAround([middle(0), middle(1)]);
  const away = (position: Position): number => Math.hypot(plane.toPlane(position).x, plane.toPlane(position).y);
  for (const [zone, area] of areas) {
    const farthest = Math.max(...polygonsOf(area).flat(2).map(away));
    if (farthest > farMeters)
      warn(
        ["features", order.indexOf(zone), "geometry"],
        `zone "${zone}" reaches ${Math.round(farthest / 1000)} km away from the middle of the field; is a degree mistyped?`,
      );
  }
};

/** Every position of a projected ring is wrong in the same way: the first one stands for them. */
const reportIssues = (issues: readonly z.core.$ZodIssue[], report: Report): void => {
  const told = new Set<string>();
  for (const { path, message } of plainIssues(issues)) {
    const ring = path[3] === "coordinates" ? JSON.stringify([path.slice(0, -1), message]) : undefined;
    if (ring !== undefined && told.has(ring)) continue;
    if (ring !== undefined) told.add(ring);
    report(path, message);
  }
};

/** A zone smaller than a square meter is a line or a point. */
const leastSquareMeters = 1;

const reportShape = (area: Area, zone: string, report: (message: string) => void): void => {
  const parts = polygonsOf(area).map((rings): Polygon => ({ type: "Polygon", coordinates: rings.map(withoutRepeats) }));
  const crossing = parts.flatMap((part) => kinks(part).features)[0];
  if (crossing) {
    const at = crossing.geometry.coordinates.map((c) => c.toFixed(6)).join(", ");
    report(`the boundary of zone "${zone}" crosses itself near ${at}`);
  } else if (parts.some(({ coordinates: [outer, ...holes] }) => holes.some((hole) => !isHole(hole, outer!, holes))))
    report(
      `a hole of zone "${zone}" is no hole, because it lies outside the boundary or within another hole; each piece of ground is a part of its own in a MultiPolygon`,
    );
  else if (parts.some((part) => squareMeters(part) < leastSquareMeters)) report(`the boundary of zone "${zone}" encloses no area`);
  else if (parts.some((a, i) => parts.slice(i + 1).some((b) => sharedShare(a, b) > overlapAllowed)))
    report(`parts of zone "${zone}" overlap each other`);
};

/** Anything else would be taken off the zone's area all the same. */
const isHole = (ring: readonly Position[], outer: readonly Position[], holes: readonly (readonly Position[])[]): boolean =>
  liesWithin(ring, outer) && !holes.some((other) => other !== ring && liesWithin(ring, other));

/** A receiver that stands still writes one position twice; that is no crossing. */
const withoutRepeats = (ring: readonly Position[]): Position[] =>
  ring.filter(([lon, lat], i) => i === 0 || lon !== ring[i - 1]![0] || lat !== ring[i - 1]![1]);

export const asFeature = (area: Area): Feature<Polygon | MultiPolygon> => ({ type: "Feature", properties: {}, geometry: area });

/** What two areas share, as a share of the smaller one. */
const sharedShare = (a: Area, b: Area): number => {
  if (!boundsMeet(boundsOf([a]), boundsOf([b]))) return 0;
  const shared = intersect({ type: "FeatureCollection", features: [asFeature(a), asFeature(b)] });
  if (!shared) return 0;
  const plane = planeAround(middleOf(boundsOf([a, b])));
  return squareMeters(shared.geometry, plane) / Math.min(squareMeters(a, plane), squareMeters(b, plane));
};

const reportOverlaps = (
  areas: ReadonlyMap<string, Area>,
  report: Report,
  order: readonly string[],
  together: ZoneLives["together"],
): void => {
  const all = [...areas];
  all.forEach(([zone, area], i) => {
    for (const [other, otherArea] of all.slice(i + 1)) {
      if (!together(zone, other)) continue;
      const share = sharedShare(area, otherArea);
      if (share > overlapAllowed)
        report(
          ["features", order.indexOf(other), "geometry"],
          `zone "${other}" overlaps zone "${zone}" by ${(share * 100).toFixed(1)} % of the smaller one; at most 1 % is allowed`,
        );
    }
  });
};
