import type { Point } from "./geometry.ts";

/** Least distance from a point to any of some lines, in the unit of the plane. A line of one point is a spot; without lines, Infinity. */
export const distanceToLines = ({ x, y }: Point, lines: readonly (readonly Point[])[]): number => {
  let least = Infinity;
  for (const line of lines)
    for (let i = 0; i === 0 || i + 1 < line.length; i++) {
      const [a, b] = [line[i]!, line[i + 1] ?? line[i]!];
      const [dx, dy] = [b.x - a.x, b.y - a.y];
      const along = Math.max(0, Math.min(1, ((x - a.x) * dx + (y - a.y) * dy) / (dx * dx + dy * dy || 1)));
      least = Math.min(least, (x - a.x - along * dx) ** 2 + (y - a.y - along * dy) ** 2);
    }
  return Math.sqrt(least);
};
