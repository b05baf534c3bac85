import type { Position } from "geojson";

/** A point for a hand-held receiver: longitude and latitude in WGS 84 degrees, and what it is called. */
export interface Waypoint {
  readonly at: Position;
  readonly name: string;
  readonly about?: string | undefined;
}

export interface GpxRoute {
  readonly name: string;
  readonly about?: string | undefined;
  readonly points: readonly Waypoint[];
}

export interface Gpx {
  readonly name: string;
  readonly about?: string | undefined;
  readonly routes: readonly GpxRoute[];
}

/** Characters that XML 1.0 has no way to write, not even escaped. */
const unwritable = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;
const escapes: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&apos;" };

const escapeXml = (text: string): string => text.replace(unwritable, "?").replace(/[&<>"']/g, (c) => escapes[c]!);

const element = (name: string, text: string | undefined): string =>
  text === undefined || text === "" ? "" : `<${name}>${escapeXml(text)}</${name}>`;

/** Seven decimals, a centimeter; the schema's longitude ends short of 180, also where rounding would reach it. */
const degrees = (value: number): string => Math.min(value, 179.9999999).toFixed(7);

/** Longitude must be below 180 and latitude at most 90: anything else is our bug. */
const place = ([longitude = NaN, latitude = NaN]: Position): string => {
  if (!(longitude >= -180 && longitude < 180 && latitude >= -90 && latitude <= 90))
    throw new Error(`no place on earth: ${longitude}, ${latitude}`);
  return `lat="${degrees(latitude)}" lon="${degrees(longitude)}"`;
};

const bounds = (points: readonly Waypoint[]): string => {
  if (points.length === 0) return "";
  const longitudes = points.map((p) => p.at[0]!);
  const latitudes = points.map((p) => p.at[1]!);
  return `<bounds minlat="${degrees(Math.min(...latitudes))}" minlon="${degrees(Math.min(...longitudes))}" maxlat="${degrees(Math.max(...latitudes))}" maxlon="${degrees(Math.max(...longitudes))}"/>`;
};

const point = (tag: "wpt" | "rtept", { at, name, about }: Waypoint): string =>
  `<${tag} ${place(at)}>${element("name", name)}${element("desc", about)}</${tag}>`;

/**
 * GPX 1.1 text: every point once as a waypoint, because some receivers show nothing else, and each route with the same points
 * in walking order. Elements stand in the order that the GPX 1.1 schema (topografix.com/GPX/1/1/gpx.xsd) asks for. No time is
 * written: a plan has none, and the same plan gives the same bytes.
 */
export const toGpx = ({ name, about, routes }: Gpx): string => {
  const points = routes.flatMap((r) => r.points);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx xmlns="http://www.topografix.com/GPX/1/1" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xsi:schemaLocation="http://www.topografix.com/GPX/1/1 http://www.topografix.com/GPX/1/1/gpx.xsd" version="1.1" creator="field-history">',
    `<metadata>${element("name", name)}${element("desc", about)}${bounds(points)}</metadata>`,
    ...points.map((p) => point("wpt", p)),
    ...routes.flatMap((r, i) => [
      `<rte>${element("name", r.name)}${element("desc", r.about)}<number>${i + 1}</number>`,
      ...r.points.map((p) => point("rtept", p)),
      "</rte>",
    ]),
    "</gpx>",
    "",
  ].join("\n");
};
