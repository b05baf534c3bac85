import type { Position } from "geojson";
import type { Area, Plane, Point } from "./geometry.ts";
import { boundsOf, middleOf, planeAround, polygonsOf, squareMeters } from "./geometry.ts";
import { seeded } from "./seeded.ts";
import { walk, wayLength } from "./walk.ts";

export interface CoreRequest {
  /** Bags to fill from this area, each with its own part of it. */
  readonly composites: number;
  /** Cores in each bag. */
  readonly cores: number;
  /** How far to stay from every edge, holes included, in meters, where the area is large enough. */
  readonly setback: number;
  readonly seed: number;
  /** Where one comes from, in longitude and latitude; decides which end of the walk comes first. */
  readonly from?: Position | undefined;
}

export interface CompositePlaces {
  /** In walking order; WGS 84 degrees to seven decimals, a centimeter. */
  readonly cores: readonly Position[];
  /** The part of the area this bag stands for, edges included. */
  readonly squareMeters: number;
  /** From the first core to the last, in meters. */
  readonly walk: number;
}

export interface PlacedCores {
  readonly kind: "placed";
  readonly composites: readonly CompositePlaces[];
  /** What is kept from the edges, in meters: the one asked for, or less where the area is too small for it. */
  readonly setback: number;
  /** Least distance between two cores, in meters. */
  readonly spacing: number;
}

/** `because` follows "No positions, because ". */
export interface NoPlaces {
  readonly kind: "tooSmall";
  readonly because: "tooNarrow" | "tooClose";
}

/** Parts of the setback asked for, tried in this order. */
const shares = [1, 3 / 4, 1 / 2, 3 / 8, 1 / 4, 3 / 16, 1 / 8, 3 / 32, 1 / 16, 1 / 32];
/** A setback must leave this much of the area, or the bag would stand for its middle only. */
const leastShare = 0.5;
/** Closer than this, two cores are one hole. In meters. */
const leastSpacing = 0.5;
const placesPerCore = 60;
const fewestPlaces = 1500;
const rounds = 14;

interface Place extends Point {
  readonly toEdge: number;
}

/**
 * Where to take cores in an area: each composite gets a compact part of it, and its cores are spread evenly over that part.
 * Places to choose from are drawn at random, one in each cell of a fine grid; they are grouped around as many centers as there
 * are cores (Lloyd's relaxation), and each core is the place nearest its group's middle. So every core lies within the area and
 * behind the setback, no row of the grid shows, and the same seed gives the same cores. Distances are measured in the local
 * plane of `geometry.ts`.
 */
export const corePoints = (area: Area, request: CoreRequest): PlacedCores | NoPlaces => {
  const plane = planeAround(middleOf(boundsOf([area])));
  const size = squareMeters(area, plane);
  const wanted = request.composites * request.cores;
  if (Math.sqrt(size / wanted) < 2 * leastSpacing) return { kind: "tooSmall", because: "tooClose" };
  const random = seeded(request.seed);
  const places = scatter(area, plane, Math.sqrt(size / Math.max(wanted * placesPerCore, fewestPlaces)), random);
  const setback = shares.map((s) => s * request.setback).find((s) => places.filter((p) => p.toEdge >= s).length >= leastShare * places.length);
  if (setback === undefined || places.length < wanted) return { kind: "tooSmall", because: "tooNarrow" };
  const free = places.filter((p) => p.toEdge >= setback);
  const parts = request.composites === 1 ? [free] : groups(free, request.composites, random).map((g) => g.members);
  if (parts.some((part) => part.length < request.cores)) return { kind: "tooSmall", because: "tooNarrow" };
  let from = request.from && plane.toPlane(request.from);
  const chosen: Point[] = [];
  const composites = parts.map((part): CompositePlaces => {
    const middles = groups(part, request.cores, random).map(nearestMember);
    const way = walk(middles, from).map((i) => middles[i]!);
    chosen.push(...way);
    from = way.at(-1);
    return { cores: way.map((p) => plane.toDegrees(p).map((d) => Math.round(d * 1e7) / 1e7)), squareMeters: (size * part.length) / free.length, walk: wayLength(way) };
  });
  const spacing = leastApart(chosen);
  return spacing < leastSpacing ? { kind: "tooSmall", because: "tooClose" } : { kind: "placed", composites, setback, spacing };
};

/** One place drawn at random in each cell of a grid of `cell` meters, where it falls inside. */
const scatter = (area: Area, plane: Plane, cell: number, random: () => number): Place[] => {
  const found: Place[] = [];
  for (const rings of polygonsOf(area)) {
    const flat = rings.map((ring) => ring.map((p) => plane.toPlane(p)));
    const xs = flat[0]!.map((p) => p.x);
    const ys = flat[0]!.map((p) => p.y);
    const [west, east, south, north] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    for (let y = south; y < north; y += cell)
      for (let x = west; x < east; x += cell) {
        const p = { x: x + random() * cell, y: y + random() * cell };
        if (isInside(p, flat)) found.push({ ...p, toEdge: distanceToEdge(p, flat) });
      }
  }
  return found;
};

/** By the number of edges crossed on the way east: odd within, holes taken out. */
const isInside = ({ x, y }: Point, rings: readonly (readonly Point[])[]): boolean => {
  let inside = false;
  for (const ring of rings)
    for (let i = 0; i + 1 < ring.length; i++) {
      const [a, b] = [ring[i]!, ring[i + 1]!];
      if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside;
    }
  return inside;
};

const distanceToEdge = ({ x, y }: Point, rings: readonly (readonly Point[])[]): number => {
  let least = Infinity;
  for (const ring of rings)
    for (let i = 0; i + 1 < ring.length; i++) {
      const [a, b] = [ring[i]!, ring[i + 1]!];
      const [dx, dy] = [b.x - a.x, b.y - a.y];
      const along = Math.max(0, Math.min(1, ((x - a.x) * dx + (y - a.y) * dy) / (dx * dx + dy * dy || 1)));
      least = Math.min(least, (x - a.x - along * dx) ** 2 + (y - a.y - along * dy) ** 2);
    }
  return Math.sqrt(least);
};

interface Group {
  center: Point;
  members: Place[];
}

/** Places grouped around `n` centers, each center moved to the middle of its group until they are spread evenly (Lloyd). */
const groups = (places: readonly Place[], n: number, random: () => number): Group[] => {
  let centers: Point[] = farFromEachOther(places, n, random);
  for (let round = 0; ; round++) {
    const found = centers.map((center): Group => ({ center, members: [] }));
    for (const place of places) nearestOf(place, found).members.push(place);
    if (round === rounds) return found;
    centers = found.map(({ center, members }) => (members.length === 0 ? center : { x: middle(members.map((m) => m.x)), y: middle(members.map((m) => m.y)) }));
  }
};

const middle = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
const squared = (a: Point, b: Point): number => (a.x - b.x) ** 2 + (a.y - b.y) ** 2;

/** A start for the centers: of eight places drawn at random, the one furthest from all centers so far. */
const farFromEachOther = (places: readonly Place[], n: number, random: () => number): Place[] => {
  const draw = (): Place => places[Math.floor(random() * places.length)]!;
  const chosen = [draw()];
  while (chosen.length < n) {
    const drawn = Array.from({ length: 8 }, draw);
    const away = drawn.map((p) => Math.min(...chosen.map((c) => squared(p, c))));
    chosen.push(drawn[away.indexOf(Math.max(...away))]!);
  }
  return chosen;
};

const nearestOf = (place: Point, found: readonly Group[]): Group => {
  let [best, least] = [found[0]!, Infinity];
  for (const group of found) {
    const d = squared(place, group.center);
    if (d < least) [best, least] = [group, d];
  }
  return best;
};

/** A group may be bent around a hole, and its middle may lie in it; its nearest member never does. */
const nearestMember = ({ center, members }: Group): Point => members.reduce<Point | undefined>((best, m) => (!best || squared(m, center) < squared(best, center) ? m : best), undefined) ?? center;

const leastApart = (points: readonly Point[]): number => {
  let least = Infinity;
  for (let i = 0; i < points.length; i++) for (let j = i + 1; j < points.length; j++) least = Math.min(least, squared(points[i]!, points[j]!));
  return Math.sqrt(least);
};
