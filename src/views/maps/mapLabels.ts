import type { Point } from "../../exchange/geometry.ts";

/** What stands in a zone: the fullest label first, each of the others shorter. */
export interface Label extends Point {
  readonly ways: readonly (readonly string[])[];
}

/** Type on a phone, where it is largest beside the drawing, in the drawing's own px: the width of a letter by line, and the height of a line. */
const letter = [10.5, 15, 8.6];
const line = [21, 27, 23];

export interface Box extends Point {
  readonly width: number;
  readonly height: number;
}

export const boxOf = ({ x, y, ways }: Label, way: number): Box => {
  const lines = ways[way]!;
  return {
    x,
    y,
    width: Math.max(0, ...lines.map((text, i) => text.length * letter[Math.min(i, 2)]!)),
    height: lines.reduce((sum, _, i) => sum + line[Math.min(i, 2)]!, 0),
  };
};

export const meet = (a: Box, b: Box): boolean =>
  a.width > 0 && b.width > 0 && Math.abs(a.x - b.x) < (a.width + b.width) / 2 && Math.abs(a.y - b.y) < (a.height + b.height) / 2;

/**
 * The fullest way in which all labels of a map can be read: none runs into another, nor over the map's edge. The same way for every
 * zone, so that a missing value never looks like a value that is missing. The last way where none fits.
 */
export const fittingWay = (labels: readonly Label[], width: number): number => {
  const ways = Math.min(...labels.map((label) => label.ways.length));
  for (let way = 0; way < ways - 1; way += 1) {
    const boxes = labels.map((label) => boxOf(label, way));
    const fits = boxes.every(
      (box, i) => box.x - box.width / 2 >= 0 && box.x + box.width / 2 <= width && boxes.slice(i + 1).every((other) => !meet(box, other)),
    );
    if (fits) return way;
  }
  return Math.max(0, ways - 1);
};
