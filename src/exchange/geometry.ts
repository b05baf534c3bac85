import polylabel from "polylabel";
import type { MultiPolygon, Polygon, Position } from "geojson";

export type { Position } from "geojson";

/**
 * Plane geometry of a field. A field is small: around its own middle the ellipsoid is flat to within a part in
 * ten thousand over some kilometers, so areas and distances are measured in a local plane in meters.
 */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** WGS 84: semi-major axis in meters and first eccentricity squared (EPSG:7030). */
const semiMajor = 6_378_137;
const eccentricitySquared = 0.00669437999014;
const radians = Math.PI / 180;

export interface Plane {
  /** Longitude and latitude in degrees to meters east and north of the plane's origin. */
  toPlane(position: Position): Point;
  toDegrees(point: Point): Position;
}

/** The local plane around a position, from the ellipsoid's radii of curvature in the meridian (M) and the prime vertical (N). */
export const planeAround = ([longitude = 0, latitude = 0]: Position): Plane => {
  const sine = Math.sin(latitude * radians);
  const w = 1 - eccentricitySquared * sine * sine;
  const n = semiMajor / Math.sqrt(w);
  const m = (semiMajor * (1 - eccentricitySquared)) / w ** 1.5;
  const east = n * Math.cos(latitude * radians) * radians;
  const north = m * radians;
  return {
    toPlane: ([lon = 0, lat = 0]) => ({ x: (lon - longitude) * east, y: (lat - latitude) * north }),
    toDegrees: ({ x, y }) => [longitude + x / east, latitude + y / north],
  };
};

export type Area = Polygon | MultiPolygon;

/** Rings by polygon: the outer one first, then its holes. */
export const polygonsOf = (area: Area): Position[][][] => (area.type === "Polygon" ? [area.coordinates] : area.coordinates);

export interface Bounds {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
}

export const boundsOf = (areas: readonly Area[]): Bounds => {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const area of areas)
    for (const rings of polygonsOf(area))
      for (const [lon = 0, lat = 0] of rings[0] ?? []) {
        west = Math.min(west, lon);
        east = Math.max(east, lon);
        south = Math.min(south, lat);
        north = Math.max(north, lat);
      }
  return { west, south, east, north };
};

export const middleOf = (b: Bounds): Position => [(b.west + b.east) / 2, (b.south + b.north) / 2];

export const boundsMeet = (a: Bounds, b: Bounds): boolean =>
  a.west <= b.east && b.west <= a.east && a.south <= b.north && b.south <= a.north;

const ringArea = (ring: readonly Position[], plane: Plane): number => {
  let twice = 0;
  const points = ring.map((p) => plane.toPlane(p));
  for (let i = 0; i + 1 < points.length; i++) {
    const a = points[i]!;
    const b = points[i + 1]!;
    twice += a.x * b.y - b.x * a.y;
  }
  return Math.abs(twice) / 2;
};

/** Area in square meters, holes taken out. */
export const squareMeters = (area: Area, plane: Plane = planeAround(middleOf(boundsOf([area])))): number =>
  polygonsOf(area).reduce(
    (sum, [outer = [], ...holes]) => sum + ringArea(outer, plane) - holes.reduce((h, ring) => h + ringArea(ring, plane), 0),
    0,
  );

const labelPoints = new WeakMap<Area, Position>();

/**
 * Where a label sits best: the point furthest from every edge of the largest polygon, to a twentieth of its size. Searched
 * once an area, which is drawn on several maps.
 */
export const labelPoint = (area: Area): Position => {
  let known = labelPoints.get(area);
  if (!known) labelPoints.set(area, (known = searchLabelPoint(area)));
  return known;
};

const searchLabelPoint = (area: Area): Position => {
  const largest = polygonsOf(area).reduce((best, rings) =>
    squareMeters({ type: "Polygon", coordinates: rings }) > squareMeters({ type: "Polygon", coordinates: best }) ? rings : best,
  );
  const bounds = boundsOf([area]);
  const plane = planeAround(middleOf(bounds));
  const flat = largest.map((ring) =>
    ring.map((position): [number, number] => {
      const { x, y } = plane.toPlane(position);
      return [x, y];
    }),
  );
  const [x = 0, y = 0] = polylabel(flat, Math.sqrt(squareMeters(area, plane)) / 20);
  return plane.toDegrees({ x, y });
};
