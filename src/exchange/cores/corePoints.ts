import type { Position } from "geojson";
import { scatter } from "./corePointsScatter.ts";
import { groups, nearestMember, squared } from "./corePointsSpread.ts";
import { distanceToLines } from "../distanceToLines.ts";
import type { Area, Plane, Point } from "../geometry.ts";
import { boundsOf, middleOf, planeAround, squareMeters } from "../geometry.ts";
import { seeded } from "./seeded.ts";
import { walk, wayLength } from "./walk.ts";

export interface CoreRequest {
  /** Bags to fill from this area, each with its own part of it. */
  readonly composites: number;
  /** Cores in each bag. */
  readonly cores: number;
  /** How far to stay from every edge, holes included, in meters, where the area is large enough. */
  readonly setback: number;
  /** Places to stay away from, each a spot or a line in longitude and latitude, and how far in meters, where the area is large enough. */
  readonly avoid?: readonly { readonly line: readonly Position[]; readonly meters: number }[] | undefined;
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
  /** The part that is kept of the distances from places to avoid: 1, or less where the area is too small for them. */
  readonly keptAway: number;
  /** Least distance between two cores, in meters. */
  readonly spacing: number;
}

/** `because` follows "No positions, because ". */
export interface NoPlaces {
  readonly kind: "tooSmall";
  readonly because: "tooNarrow" | "tooClose" | "avoided";
}

/** Parts of the setback asked for, tried in this order. */
const shares = [1, 3 / 4, 1 / 2, 3 / 8, 1 / 4, 3 / 16, 1 / 8, 3 / 32, 1 / 16, 1 / 32];
/** A setback, and what is avoided, must leave this much of the area, or the bag would stand for its middle only. */
const leastShare = 0.5;
/** Closer than this, two cores are one hole. In meters. */
const leastSpacing = 0.5;
const placesPerCore = 60;
const fewestPlaces = 1500;

/**
 * Where to take cores in an area: each composite gets a compact part of it, and its cores are spread evenly over that part.
 * Places to choose from are drawn at random, one in each cell of a fine grid; they are grouped around as many centers as there
 * are cores (Lloyd's relaxation), and each core is the place nearest its group's middle. So every core lies within the area and
 * behind the setback and away from what is to be avoided, no row of the grid shows, and the same seed gives the same cores. Distances are measured in the local
 * plane of `geometry.ts`.
 */
export const corePoints = (area: Area, request: CoreRequest): PlacedCores | NoPlaces => {
  const plane = planeAround(middleOf(boundsOf([area])));
  const size = squareMeters(area, plane);
  const wanted = request.composites * request.cores;
  if (Math.sqrt(size / wanted) < 2 * leastSpacing) return { kind: "tooSmall", because: "tooClose" };
  const random = seeded(request.seed);
  const everywhere = scatter(area, plane, Math.sqrt(size / Math.max(wanted * placesPerCore, fewestPlaces)), random);
  const away = partsAway(everywhere, request, plane);
  const keptAway = shares.find((s) => away.filter((a) => a >= s).length >= leastShare * away.length);
  if (keptAway === undefined) return { kind: "tooSmall", because: everywhere.length < wanted ? "tooNarrow" : "avoided" };
  const places = everywhere.filter((_, i) => away[i]! >= keptAway);
  const setback = shares
    .map((s) => s * request.setback)
    .find((s) => places.filter((p) => p.toEdge >= s).length >= leastShare * places.length);
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
    return {
      cores: way.map((p) => plane.toDegrees(p).map((d) => Math.round(d * 1e7) / 1e7)),
      squareMeters: (size * part.length) / free.length,
      walk: wayLength(way),
    };
  });
  const spacing = leastApart(chosen);
  return spacing < leastSpacing ? { kind: "tooSmall", because: "tooClose" } : { kind: "placed", composites, setback, keptAway, spacing };
};

/** For each place, the least part of a distance it should keep from what is to be avoided: 1 and more where it keeps them all. */
const partsAway = (places: readonly Point[], { avoid = [] }: CoreRequest, plane: Plane): number[] => {
  const flat = avoid.map(({ line, meters }) => ({ line: line.map((p) => plane.toPlane(p)), meters }));
  return places.map((p) => Math.min(Infinity, ...flat.map(({ line, meters }) => distanceToLines(p, [line]) / meters)));
};

const leastApart = (points: readonly Point[]): number => {
  let least = Infinity;
  for (let i = 0; i < points.length; i++)
    for (let j = i + 1; j < points.length; j++) least = Math.min(least, squared(points[i]!, points[j]!));
  return Math.sqrt(least);
};
