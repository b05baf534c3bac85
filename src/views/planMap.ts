import type { Point } from "../exchange/geometry.ts";
import type { Farm, Field } from "../records/model.ts";
import type { MapModel } from "./map.ts";
import { drawable, mapModel } from "./map.ts";
import type { SamplingPlan } from "./planComposites.ts";
import { coreName } from "./planFiles.ts";

export interface MapCore extends Point {
  readonly name: string;
}

export interface MapWalk {
  readonly label: string;
  /** An SVG path through the cores in walking order. */
  readonly path: string;
  readonly cores: readonly MapCore[];
}

export interface PlanMap {
  readonly model: MapModel;
  readonly walks: readonly MapWalk[];
  /** What cores stay away from: a path, or a ring around a spot. */
  readonly avoid: readonly { readonly what: string; readonly path: string }[];
}

const avoidPath = (points: readonly Point[]): string => {
  const [first] = points;
  return points.length === 1 && first ? `M${first.x - 7} ${first.y}a7 7 0 1 0 14 0a7 7 0 1 0 -14 0` : points.map(({ x, y }, i) => `${i === 0 ? "M" : "L"}${x} ${y}`).join("");
};

/** The zones' outlines with every core, its name, and the way from one to the next. `undefined` where no core has a place. */
export const planMap = (farm: Farm, field: Field, plan: SamplingPlan): PlanMap | undefined => {
  if (!plan.bags.some((b) => b.points.length > 0)) return undefined;
  const zones = drawable(field.zones).map((zone) => ({ id: zone.id, area: zone.area, css: "c-none", lines: [], title: `${zone.letter} ${zone.name}` }));
  const model = mapModel(zones, 560, 540, farm.units, []);
  if (!model) return undefined;
  const walks = plan.bags.map((bag): MapWalk => {
    const cores = bag.points.map((at, i): MapCore => ({ ...model.at(at), name: coreName(bag, i) }));
    return { label: bag.label, path: cores.map(({ x, y }, i) => `${i === 0 ? "M" : "L"}${x} ${y}`).join(""), cores };
  });
  const avoid = plan.avoid.map(({ what, line }) => ({ what, path: avoidPath(line.map((p) => model.at(p))) }));
  return { model, walks, avoid };
};
