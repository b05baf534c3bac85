import type { Position } from "geojson";
import { BoundaryError } from "./boundaryError.ts";
import type { Area } from "../geometry.ts";
import { planeAround } from "../geometry.ts";
import { signedArea } from "../rings.ts";
import { pointsPastStart } from "./pointsPastStart.ts";

/** What a file draws, before it is looked at: properties by name, and a geometry in the words of RFC 7946. */
export interface RawShape {
  readonly properties: Readonly<Record<string, unknown>>;
  readonly geometry: unknown;
  /** A walked line stands for the ground it goes round. */
  readonly walked?: boolean;
}

/** What was done to a shape so that it may be used; lengths in meters. */
export type BoundaryNote =
  | { readonly kind: "closed" | "joined"; readonly shape: string; readonly meters: number }
  | { readonly kind: "passedOver"; readonly what: "point" | "line"; readonly count: number }
  | { readonly kind: "heights" }
  | { readonly kind: "turned"; readonly count: number };

/** One shape that encloses ground: WGS 84, rings closed and turned as RFC 7946 asks (outer ones counterclockwise), no heights. */
export interface Shape {
  /** Numbers and words of the file, by the property's name. */
  readonly properties: ReadonlyMap<string, string>;
  /** How messages call it: its name, or its place in the file. */
  readonly called: string;
  readonly area: Area;
}

export interface Boundaries {
  readonly shapes: readonly Shape[];
  readonly notes: readonly BoundaryNote[];
}

/** An open ring is closed, and a walk's parts are joined, over at most this many meters: about twice what a hand-held receiver strays under trees. */
const mostMetersClosed = 25;

/** More corners than any field has; the search for crossings goes by the square of them. */
export const mostPositions = 20_000;

/** Positions are kept to a centimeter (1e-7 degrees of latitude is 1.1 cm). */
const decimals = 7;

/** What would forge lines of a message, or steer the terminal that shows it. */
const notShown = /[\p{Cc}\p{Zl}\p{Zp}\u202a-\u202e\u2066-\u2069]+/gu;

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** Turn what a file draws into shapes that may become zones. Throws `BoundaryError` where there is none, or one cannot be used. */
export const shapesOf = (raw: readonly RawShape[]): Boundaries => {
  const notes: BoundaryNote[] = [];
  const seen = { point: 0, line: 0, heights: false, turned: 0, positions: 0 };
  const shapes = raw.flatMap((each, i): Shape[] => {
    const properties = wordsOf(each.properties);
    const name = [...properties].find(([key]) => /^(zone|name)$/i.test(key))?.[1];
    const called = name === undefined ? `shape ${i + 1}` : `"${name.replace(notShown, " ").trim().slice(0, 60)}"`;
    const polygons = new Reader(called, each.walked === true, seen, notes).polygons(each.geometry, 0);
    if (polygons.length === 0) return [];
    return [
      {
        properties,
        called,
        area: polygons.length === 1 ? { type: "Polygon", coordinates: polygons[0]! } : { type: "MultiPolygon", coordinates: polygons },
      },
    ];
  });
  if (shapes.length === 0) {
    if (seen.line > 0) throw new BoundaryError("holds lines and no polygon; draw each zone as a polygon, or give the walk as GPX");
    throw new BoundaryError(seen.point > 0 ? "holds points and no polygon; draw each zone as a polygon" : "holds no shape");
  }
  if (seen.heights) notes.push({ kind: "heights" });
  if (seen.turned > 0) notes.push({ kind: "turned", count: seen.turned });
  for (const what of ["point", "line"] as const) if (seen[what] > 0) notes.push({ kind: "passedOver", what, count: seen[what] });
  return { shapes, notes };
};

const wordsOf = (properties: Readonly<Record<string, unknown>>): Map<string, string> =>
  new Map(
    Object.entries(properties).flatMap(([key, value]) =>
      ["string", "number", "boolean"].includes(typeof value) && String(value).trim() !== "" ? [[key, String(value).trim()] as const] : [],
    ),
  );

interface Seen {
  point: number;
  line: number;
  heights: boolean;
  turned: number;
  positions: number;
}

/** Reads the geometry of one shape. */
class Reader {
  readonly #called: string;
  readonly #walked: boolean;
  readonly #seen: Seen;
  readonly #notes: BoundaryNote[];

  constructor(called: string, walked: boolean, seen: Seen, notes: BoundaryNote[]) {
    this.#called = called;
    this.#walked = walked;
    this.#seen = seen;
    this.#notes = notes;
  }

  polygons(geometry: unknown, depth: number): Position[][][] {
    if (geometry === null) return [];
    if (!isObject(geometry) || depth > 20) throw this.#broken("has a geometry that cannot be read");
    const { type, coordinates } = geometry;
    switch (type) {
      case "Polygon":
        return [this.#polygon(coordinates)];
      case "MultiPolygon":
        return this.#list(coordinates).map((each) => this.#polygon(each));
      case "GeometryCollection":
        return this.#list(geometry["geometries"]).flatMap((each) => this.polygons(each, depth + 1));
      case "LineString":
        if (this.#walked) return [[this.#walk(this.#positions(coordinates))]];
        this.#seen.line += 1;
        return [];
      case "MultiLineString":
        if (this.#walked) return [[this.#walk(this.#joined(this.#list(coordinates).map((each) => this.#positions(each))))]];
        this.#seen.line += 1;
        return [];
      case "Point":
      case "MultiPoint":
        this.#seen.point += 1;
        return [];
      default:
        throw this.#broken("has a geometry that cannot be read");
    }
  }

  #polygon(rings: unknown): Position[][] {
    const list = this.#list(rings);
    if (list.length === 0) throw this.#broken("has no boundary");
    return list.map((ring, i) => this.#ring(this.#positions(ring), i === 0));
  }

  #list(value: unknown): readonly unknown[] {
    if (!Array.isArray(value)) throw this.#broken("has a geometry that cannot be read");
    return value;
  }

  #positions(value: unknown): Position[] {
    const list = this.#list(value);
    this.#seen.positions += list.length;
    if (this.#seen.positions > mostPositions) throw new BoundaryError("has more than 20,000 corners; simplify the drawing first");
    const kept: Position[] = [];
    for (const position of list) {
      const [lon, lat, height] = Array.isArray(position) ? (position as unknown[]) : [];
      if (typeof lon !== "number" || typeof lat !== "number" || !Number.isFinite(lon) || !Number.isFinite(lat))
        throw this.#broken("has a position that is no pair of numbers");
      if (Math.abs(lon) > 180 || Math.abs(lat) > 90)
        throw this.#broken(
          `has the position ${plain(lon)}, ${plain(lat)}, which is no longitude and latitude; export it again as WGS 84 (EPSG:4326)`,
        );
      if (height !== undefined) this.#seen.heights = true;
      const at = [Number(lon.toFixed(decimals)), Number(lat.toFixed(decimals))];
      const before = kept.at(-1);
      if (!before || before[0] !== at[0] || before[1] !== at[1]) kept.push(at);
    }
    return kept;
  }

  /** The parts of a walk that was interrupted, one after another. */
  #joined(parts: readonly Position[][]): Position[] {
    return parts.reduce((line, part) => {
      const gap = metersBetween(line.at(-1), part[0]);
      if (gap > mostMetersClosed)
        throw this.#broken(`was walked in parts that lie ${Math.round(gap)} m apart; at most ${mostMetersClosed} m are joined`);
      if (gap > 0) this.#notes.push({ kind: "joined", shape: this.#called, meters: gap });
      return [...line, ...part];
    });
  }

  #walk(positions: Position[]): Position[] {
    const past = pointsPastStart(positions);
    if (past > 0)
      throw this.#broken(
        `goes past its own start and across the way it began with; take its last ${past === 1 ? "point" : `${past} points`} off, so that it ends where it begins`,
      );
    return this.#ring(positions, true);
  }

  #ring(positions: Position[], outer: boolean): Position[] {
    const gap = metersBetween(positions.at(-1), positions[0]);
    if (gap > mostMetersClosed)
      throw this.#broken(`ends ${Math.round(gap)} m from where it begins; at most ${mostMetersClosed} m are closed`);
    if (gap > 0) {
      this.#notes.push({ kind: "closed", shape: this.#called, meters: gap });
      positions = [...positions, positions[0]!];
    }
    if (positions.length < 4) throw this.#broken("has fewer than three corners");
    if (signedArea(positions) > 0 === outer) return positions;
    this.#seen.turned += 1;
    return positions.toReversed();
  }

  #broken(what: string): BoundaryError {
    return new BoundaryError(`${this.#called} ${what}`);
  }
}

const plain = (n: number): string => String(Number(n.toPrecision(6)));

const metersBetween = (a: Position | undefined, b: Position | undefined): number => {
  if (!a || !b) return 0;
  const { x, y } = planeAround(a).toPlane(b);
  return Math.hypot(x, y);
};
