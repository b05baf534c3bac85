import { BoundaryError } from "../../exchange/boundaries/boundaryError.ts";
import type { Shape } from "../../exchange/boundaries/boundaryShape.ts";
import type { Area } from "../../exchange/geometry.ts";
import { polygonsOf } from "../../exchange/geometry.ts";
import type { BoundaryField } from "./boundaryField.ts";
import { allowedList, allowedWords } from "../nearMiss.ts";
import { Problems } from "../problem.ts";
import { scanJson } from "../yaml/jsonText.ts";
import { readZones } from "./zonesFile.ts";

/** A zone with the polygon it is to have. */
export interface ZoneDrawn {
  readonly zone: BoundaryField["zones"][number];
  /** Absent: neither the file nor the field has one. */
  readonly area: Area | undefined;
  /** "former": it is no zone any more, and keeps its polygon for the maps of its time. */
  readonly from: "file" | "kept" | "none" | "former";
}

/** Where a zone's name is looked for when nobody says, first to last; letters great and small are one. */
const usualNames = ["zone", "name", "title", "label", "id"];

/**
 * Give each shape to the zone it names by id, name or letter; shapes of one zone are joined. Zones that the file leaves out
 * keep the polygon they have, and so do former zones, which come last. Throws `BoundaryError` where a shape names no zone, or what comes out breaks a rule of zones.geojson.
 */
export const zonesFromBoundaries = (shapes: readonly Shape[], field: BoundaryField, property: string | undefined): ZoneDrawn[] => {
  refuseStrangers(shapes, field, property);
  const drawn = new Map<string, Area[]>();
  for (const shape of shapes) {
    const zone = zoneOf(shape, shapes.length, field, property);
    drawn.set(zone, [...(drawn.get(zone) ?? []), shape.area]);
  }
  const zones = field.zones.map((zone): ZoneDrawn => {
    const areas = drawn.get(zone.id);
    if (areas) return { zone, area: joined(areas), from: "file" };
    const kept = field.areas.get(zone.id);
    return { zone, area: kept, from: kept ? "kept" : "none" };
  });
  const former = field.former.flatMap((zone): ZoneDrawn[] =>
    field.areas.has(zone.id) ? [{ zone, area: field.areas.get(zone.id), from: "former" }] : [],
  );
  const problems = new Problems();
  readZones(zonesText([...zones, ...former]), "zones.geojson", field.lives, problems);
  const [first] = problems.errors;
  if (first) throw new BoundaryError(first.message);
  return [...zones, ...former];
};

/** A name that a shell takes as it is in double quotes, and `new field` in a list with commas. */
const plainName = /^[\p{L}\p{N}][\p{L}\p{N} ._()/-]*$/u;

/** Where each shape has a name of its own and none is a zone's, the file draws zones that the field does not have yet: say how to make them. */
const refuseStrangers = (shapes: readonly Shape[], field: BoundaryField, property: string | undefined): void => {
  const names = shapes.map((shape) => nameIn(shape, property) ?? "");
  const all = [...field.zones, ...field.former];
  if (shapes.length < 2 || new Set(names).size < names.length || !names.every((name) => plainName.test(name))) return;
  if (names.some((name) => all.some((zone) => isCalled(zone, name)))) return;
  const listed = names.join(", ");
  const called = field.zones.map((z) => z.id);
  throw new BoundaryError(
    `none of its ${names.length} names is a zone of field "${field.id}"; ${allowedList(called)}; for a new field with these zones: npm run new -- field --name NAME --zones "${listed}"`,
  );
};

const isCalled = (zone: { readonly id: string; readonly name: string; readonly letter: string }, name: string): boolean =>
  [zone.id, zone.name, zone.letter].some((each) => alike(each) === alike(name));

/** Capitals do not matter, nor whether an ö is one character or an o with dots. */
const alike = (name: string): string => name.normalize("NFC").toLowerCase();

const zoneOf = (shape: Shape, shapes: number, field: BoundaryField, property: string | undefined): string => {
  const [only] = field.zones;
  const written = nameIn(shape, property);
  if (written === undefined) {
    if (shapes === 1 && field.zones.length === 1) return only!.id;
    const names = [...shape.properties.keys()];
    const lacks = property === undefined ? "has no name" : `has no property "${property}"`;
    const advice =
      names.length === 0
        ? "name each shape after its zone"
        : `say with --zone-name which of these names its zone: ${names.slice(0, 20).join(", ")}`;
    throw new BoundaryError(`${shape.called} ${lacks}; ${advice}`);
  }
  const isIt = (z: BoundaryField["zones"][number]): boolean => isCalled(z, written);
  const found = field.zones.find(isIt);
  if (found) return found.id;
  const former = field.former.find(isIt);
  const quoted = `"${written.slice(0, 60)}"`;
  if (former)
    throw new BoundaryError(
      `${quoted} is no zone of field "${field.id}" any more since ${former.until}; ${allowedList(field.zones.map((z) => z.id))}`,
    );
  // A file that draws one whole field needs not know what its only zone is called.
  if (property === undefined && shapes === 1 && field.zones.length === 1) return only!.id;
  const called = field.zones.flatMap((z) => (z.name.toLowerCase() === z.id ? [z.id] : [z.id, z.name]));
  throw new BoundaryError(`${quoted} is no zone of field "${field.id}"; ${allowedWords(written, called)}`);
};

const nameIn = (shape: Shape, property: string | undefined): string | undefined => {
  if (property !== undefined)
    return shape.properties.get(property) ?? [...shape.properties].find(([key]) => key.toLowerCase() === property.toLowerCase())?.[1];
  return usualNames.flatMap((name) => [...shape.properties].filter(([key]) => key.toLowerCase() === name).map(([, value]) => value))[0];
};

const joined = (areas: readonly Area[]): Area => {
  const polygons = areas.flatMap(polygonsOf);
  return polygons.length === 1 ? { type: "Polygon", coordinates: polygons[0]! } : { type: "MultiPolygon", coordinates: polygons };
};

/** zones.geojson as text: one line a ring, so that a version control shows which boundary was moved. */
export const zonesText = (zones: readonly ZoneDrawn[]): string =>
  `{\n  "type": "FeatureCollection",\n  "features": [\n${features(zones)}\n  ]\n}\n`;

/** The text of a zones.geojson that has features, with more of them below the last one and everything else as it was. */
export const withZones = (text: string, zones: readonly ZoneDrawn[]): string => {
  const { features: old } = JSON.parse(text.replace(/^\ufeff/, "")) as { features: unknown[] };
  const last = scanJson(text.replace(/^\ufeff/, " "), ["features", old.length - 1]).end!;
  const ending = text.includes("\r\n") ? "\r\n" : "\n";
  return `${text.slice(0, last)},${ending}${features(zones).replaceAll("\n", ending)}${text.slice(last)}`;
};

const features = (zones: readonly ZoneDrawn[]): string =>
  zones
    .flatMap(({ zone, area }) => {
      if (!area) return [];
      const polygons = polygonsOf(area).map(
        (rings) => `[\n${rings.map((ring) => `          ${JSON.stringify(ring)}`).join(",\n")}\n        ]`,
      );
      const coordinates = area.type === "Polygon" ? polygons[0]! : `[${polygons.join(", ")}]`;
      return [
        `    {
      "type": "Feature",
      "properties": { "zone": ${JSON.stringify(zone.id)} },
      "geometry": {
        "type": "${area.type}",
        "coordinates": ${coordinates}
      }
    }`,
      ];
    })
    .join(",\n");
