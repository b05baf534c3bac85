import type { Area, Plane, Point } from "../geometry.ts";
import { distanceToLines } from "../distanceToLines.ts";
import { polygonsOf } from "../geometry.ts";

/** A place inside an area, in the local plane, and how far it is from the nearest edge, holes included. In meters. */
export interface Place extends Point {
  readonly toEdge: number;
}

/** One place drawn at random in each cell of a grid of `cell` meters, where it falls inside. */
export const scatter = (area: Area, plane: Plane, cell: number, random: () => number): Place[] => {
  const found: Place[] = [];
  for (const rings of polygonsOf(area)) {
    const flat = rings.map((ring) => ring.map((p) => plane.toPlane(p)));
    const xs = flat[0]!.map((p) => p.x);
    const ys = flat[0]!.map((p) => p.y);
    const [west, east, south, north] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
    for (let y = south; y < north; y += cell)
      for (let x = west; x < east; x += cell) {
        const p = { x: x + random() * cell, y: y + random() * cell };
        if (isInside(p, flat)) found.push({ ...p, toEdge: distanceToLines(p, flat) });
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
