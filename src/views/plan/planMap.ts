import type { Point } from "../../exchange/geometry.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { MapModel } from "../maps/map.ts";
import { drawable, mapModel } from "../maps/map.ts";
import type { SamplingPlan } from "./planComposites.ts";
import { coreName } from "./planFiles.ts";

export interface MapCore extends Point {
  readonly name: string;
  /** Whether its name stands on the map; without it, a dot. The table of positions names them all. */
  readonly named: boolean;
}

export interface MapWalk {
  readonly label: string;
  /** An SVG path through the cores in walking order. */
  readonly path: string;
  readonly cores: readonly MapCore[];
}

export interface PlanMap {
  readonly model: MapModel;
  /** Where the cores are too many to be told apart, of each walk its beginning alone, by the mark of its bag. */
  readonly walks: readonly MapWalk[];
  /** Every core is drawn. */
  readonly whole: boolean;
  /** What cores stay away from: a path, or a ring around a spot. */
  readonly avoid: readonly MapAvoided[];
}

interface MapAvoided {
  readonly what: string;
  /** No piece of it lies on the sheet. */
  readonly off: boolean;
  readonly path: string;
  /** Where its number stands: in the ring, or on the line halfway between two of its corners. */
  readonly at: Point;
}

const avoidPath = (points: readonly Point[]): string => {
  const [first] = points;
  return points.length === 1 && first
    ? `M${first.x - 11} ${first.y}a11 11 0 1 0 22 0a11 11 0 1 0 -22 0`
    : points.map(({ x, y }, i) => `${i === 0 ? "M" : "L"}${x} ${y}`).join("");
};

/** Wide enough for the name of a core; its height on the map is 19. */
export const nameWidth = (name: string): number => 12 + 7 * name.length;

/** More cores than these are a heap of rings on one sheet. */
const mostCores = 400;

/** Names may touch by so much and are still read. */
const overlap = 5;

/** The cores whose names find room beside each other: where each walk begins, then the rest in order. */
const fitting = <C extends Point & { readonly name: string }>(walks: readonly (readonly C[])[]): Set<C> => {
  const placed = new Set<C>();
  for (const core of [...walks.flatMap((w) => w.slice(0, 1)), ...walks.flatMap((w) => w.slice(1))]) {
    const free = [...placed].every(
      (p) => Math.abs(p.x - core.x) > (nameWidth(p.name) + nameWidth(core.name)) / 2 - overlap || Math.abs(p.y - core.y) > 19 - overlap,
    );
    if (free) placed.add(core);
  }
  return placed;
};

/** The middle of the piece in the middle of a line, as far as it lies on the sheet; a spot's own place. */
const numberAt = (points: readonly Point[], { width, height }: MapModel): Point => {
  const half = Math.max(0, Math.floor(points.length / 2) - 1);
  const [a, b] = [points[half]!, points[half + 1] ?? points[half]!];
  const within = (value: number, most: number): number => Math.min(Math.max(value, 12), most - 12);
  return {
    x: within((within(a.x, width) + within(b.x, width)) / 2, width),
    y: within((within(a.y, height) + within(b.y, height)) / 2, height),
  };
};

/** Each piece of a line, or a spot, taken as the box around it. */
const isOff = (points: readonly Point[], { width, height }: MapModel): boolean =>
  points.slice(0, Math.max(1, points.length - 1)).every((a, i) => {
    const b = points[i + 1] ?? a;
    return Math.max(a.x, b.x) < 0 || Math.min(a.x, b.x) > width || Math.max(a.y, b.y) < 0 || Math.min(a.y, b.y) > height;
  });

/** The zones' outlines with every core, its name, and the way from one to the next. `undefined` where no core has a place. */
export const planMap = (farm: Farm, field: Field, plan: SamplingPlan): PlanMap | undefined => {
  if (!plan.bags.some((b) => b.points.length > 0)) return undefined;
  const zones = drawable(field.zones).map((zone) => ({
    id: zone.id,
    area: zone.area,
    css: "c-none",
    lines: [],
    title: `${zone.letter} ${zone.name}`,
  }));
  const model = mapModel(
    zones,
    560,
    540,
    farm.units,
    [],
    [],
    plan.avoid.flatMap((a) => a.line),
  );
  if (!model) return undefined;
  const ways = plan.bags.map((bag) => {
    const cores = bag.points.map((at, i) => ({ ...model.at(at), name: coreName(bag, i) }));
    return { label: bag.label, path: cores.map(({ x, y }, i) => `${i === 0 ? "M" : "L"}${x} ${y}`).join(""), cores };
  });
  const whole = ways.reduce((sum, w) => sum + w.cores.length, 0) <= mostCores;
  const begins = plan.bags.flatMap((bag, i): MapWalk[] => {
    const [first] = ways[i]!.cores;
    return first ? [{ label: bag.label, path: "", cores: [{ ...first, name: bag.mark, named: true }] }] : [];
  });
  const fits = fitting(ways.map((w) => w.cores));
  const drawn = ways.map((w): MapWalk => ({ ...w, cores: w.cores.map((c) => ({ ...c, named: fits.has(c) })) }));
  const avoid = plan.avoid.map(({ what, line }) => {
    const points = line.map((p) => model.at(p));
    return { what, off: isOff(points, model), path: avoidPath(points), at: numberAt(points, model) };
  });
  return { model, walks: whole ? drawn : begins, whole, avoid };
};
