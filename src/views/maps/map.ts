import type { Area, Bounds, Plane, Point, Position } from "../../exchange/geometry.ts";
import { boundsOf, labelPoint, middleOf, planeAround, polygonsOf } from "../../exchange/geometry.ts";
import { show } from "../../interpretation/show.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import type { Farm, Zone } from "../../records/model.ts";
import { boxOf, fittingWay, meet } from "./mapLabels.ts";

/** A class on a map: its swatch, its name and its limits in words. */
export interface MapClass {
  readonly css: string;
  readonly label: string;
}

export interface MapZone {
  readonly id: string;
  /** SVG path, one decimal: neighbours share their rounded points, so no gap shows. */
  readonly path: string;
  readonly css: string;
  readonly labelX: number;
  readonly labelY: number;
  readonly lines: readonly string[];
  readonly title: string;
}

export interface MapModel {
  readonly width: number;
  readonly height: number;
  readonly zones: readonly MapZone[];
  /** Those that have room: a name that would run into another, or into a label, is left out. */
  readonly names: readonly { text: string; x: number; y: number }[];
  readonly scale: { readonly pixels: number; readonly label: string };
  readonly legend: readonly MapClass[];
  /** Which of their labels the zones bear: 0 the full one, then the shorter ones in turn. */
  readonly way: number;
  /** Where a place on earth stands on the map, in pixels. */
  readonly at: (position: Position) => Point;
}

export interface ZoneToDraw {
  readonly id: string;
  readonly area: Area;
  readonly css: string;
  readonly lines: readonly string[];
  /** Shorter labels, for a map whose zones lie too close for the lines. */
  readonly shorter?: readonly (readonly string[])[];
  readonly title: string;
}

const padding = 26;
const scaleRoom = 40;
/** Half the height of a label of one line, where type is largest. */
const labelHalf = 10.5;

/** The width of a letter of a field's name on a phone, where type is largest beside the drawing; how high it is, and how far its middle lies above its baseline. */
const nameLetter = 9.5;
const nameHigh = 19;
const nameMiddle = 6;

/** Round bar lengths, in feet or meters, so that the bar is about a quarter of the map's width. */
const scaleFor = (metersPerPixel: number, width: number, units: Farm["units"]): MapModel["scale"] => {
  const unit = convert(1, unitChoices[units].map, "m");
  const most = (metersPerPixel * width * 0.3) / unit;
  const power = 10 ** Math.floor(Math.log10(most));
  const length = ([5, 2, 1].find((f) => f * power <= most) ?? 1) * power;
  return { pixels: round((length * unit) / metersPerPixel), label: `${show(length, 0)} ${unitChoices[units].map}` };
};

const round = (n: number): number => Math.round(n * 10) / 10;

/** Bounds that hold what lies beside them, but grow by no more than a quarter of their size on any side. */
const widened = ({ west, south, east, north }: Bounds, beside: readonly Position[]): Bounds => {
  const [wide, high] = [(east - west) / 4, (north - south) / 4];
  const longitudes = beside.map((p) => Math.min(Math.max(p[0]!, west - wide), east + wide));
  const latitudes = beside.map((p) => Math.min(Math.max(p[1]!, south - high), north + high));
  return {
    west: Math.min(west, ...longitudes),
    south: Math.min(south, ...latitudes),
    east: Math.max(east, ...longitudes),
    north: Math.max(north, ...latitudes),
  };
};

/**
 * Draw zones to scale in a box `width` pixels wide and at most `mostHeight` high, north up.
 * `names` are printed above the top of a group of zones, such as a field's name on the farm map. `beside` should be seen too, where
 * it lies near the zones.
 */
export const mapModel = (
  zones: readonly ZoneToDraw[],
  width: number,
  mostHeight: number,
  units: Farm["units"],
  legend: readonly MapClass[],
  names: readonly { text: string; areas: readonly Area[] }[] = [],
  beside: readonly Position[] = [],
): MapModel | undefined => {
  if (zones.length === 0) return undefined;
  const bounds = widened(boundsOf(zones.map((z) => z.area)), beside);
  const plane: Plane = planeAround(middleOf(bounds));
  const southWest = plane.toPlane([bounds.west, bounds.south]);
  const northEast = plane.toPlane([bounds.east, bounds.north]);
  const wide = Math.max(northEast.x - southWest.x, 1);
  const high = Math.max(northEast.y - southWest.y, 1);
  const metersPerPixel = Math.max(wide / (width - 2 * padding), high / (mostHeight - 2 * padding - scaleRoom));
  const height = Math.ceil(high / metersPerPixel + 2 * padding + scaleRoom);
  const left = (width - wide / metersPerPixel) / 2;
  const toPixel = ({ x, y }: Point): Point => ({
    x: round(left + (x - southWest.x) / metersPerPixel),
    y: round(padding + (northEast.y - y) / metersPerPixel),
  });
  const labels = zones.map((zone) => ({ ...toPixel(plane.toPlane(labelPoint(zone.area))), ways: [zone.lines, ...(zone.shorter ?? [])] }));
  const way = fittingWay(labels, width);
  const drawn = zones.map((zone, i): MapZone => {
    const { x, y, ways } = labels[i]!;
    return {
      id: zone.id,
      path: pathOf(zone.area, plane, toPixel),
      css: zone.css,
      labelX: x,
      labelY: y,
      lines: ways[way]!,
      title: zone.title,
    };
  });
  const placed = names.map(({ text, areas }) => {
    const b = boundsOf(areas);
    const at = toPixel(plane.toPlane([b.west, b.north]));
    // A patch lower than its label would have the label run into the name above it.
    const tops = zones.flatMap((zone, i) =>
      areas.includes(zone.area) && labels[i]!.ways[way]!.length > 0 ? [labels[i]!.y - labelHalf] : [],
    );
    const wide = text.length * nameLetter;
    const [x, y] = [round(Math.max(0, Math.min(at.x, width - wide))), round(Math.min(at.y, ...tops) - 6)];
    return { text, x, y, box: { x: x + wide / 2, y: y - nameMiddle, width: wide, height: nameHigh } };
  });
  const boxes = [...placed.map((p) => p.box), ...labels.map((label) => boxOf(label, way))];
  return {
    width,
    height,
    zones: drawn,
    names: placed.filter(({ box }) => boxes.every((other) => other === box || !meet(box, other))).map(({ text, x, y }) => ({ text, x, y })),
    scale: scaleFor(metersPerPixel, width, units),
    legend,
    way,
    at: (position) => toPixel(plane.toPlane(position)),
  };
};

const pathOf = (area: Area, plane: Plane, toPixel: (p: Point) => Point): string =>
  polygonsOf(area)
    .flat()
    .map((ring) => {
      const points = ring.slice(0, -1).map((position) => toPixel(plane.toPlane(position)));
      return `M${points.map((p) => `${p.x} ${p.y}`).join("L")}Z`;
    })
    .join("");

/** The zones that have a polygon; the others are named below the map. */
export const drawable = (zones: readonly Zone[]): (Zone & { area: Area })[] =>
  zones.filter((z): z is Zone & { area: Area } => z.area !== undefined);
