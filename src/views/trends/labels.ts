/** A value printed beside its mark, in pixels: `y` is the baseline of the text. */
export interface Label {
  readonly x: number;
  readonly y: number;
  readonly anchor: "start" | "middle" | "end";
  readonly text: string;
}

interface Mark {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A digit of the semibold 11.5 px face, and how far the letters reach above their baseline. */
const digitWidth = 6.6;
const capHeight = 9;
const markRadius = 5;

const boxOf = ({ x, y, anchor, text }: Label): Box => {
  const width = text.length * digitWidth;
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: y - capHeight, bottom: y + 1 };
};

const round = (n: number): number => Math.round(n * 10) / 10;

/** Above is where a reader looks first; then below, right and left; then further off. */
const places = ({ x, y, text }: Mark): Label[] => [
  { x, y: round(y - 10), anchor: "middle", text },
  { x, y: round(y + 19), anchor: "middle", text },
  { x: round(x + 8), y: round(y + 4), anchor: "start", text },
  { x: round(x - 8), y: round(y + 4), anchor: "end", text },
  { x, y: round(y - 21), anchor: "middle", text },
  { x, y: round(y + 30), anchor: "middle", text },
];

const overlap = (a: Box, b: Box): number =>
  Math.max(0, Math.min(a.right, b.right) - Math.max(a.left, b.left)) * Math.max(0, Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top));

/** The part of a box that lies outside the plot. */
const outside = (box: Box, plot: Box): number => (box.right - box.left) * (box.bottom - box.top) - overlap(box, plot);

/**
 * A place for each mark's label, in the order given, where it covers no mark, no label set before it and nothing
 * outside the plot; where there is no such place, the one that covers least. `unlabeled`: marks that have no label and may not be covered.
 */
export const placeLabels = (marks: readonly Mark[], plot: Box, unlabeled: readonly Omit<Mark, "text">[] = []): Label[] => {
  const taken: Box[] = [...marks, ...unlabeled].map(({ x, y }) => ({
    left: x - markRadius,
    right: x + markRadius,
    top: y - markRadius,
    bottom: y + markRadius,
  }));
  return marks.map((mark) => {
    let best: { label: Label; cost: number } | undefined;
    for (const label of places(mark)) {
      const box = boxOf(label);
      const cost = taken.reduce((sum, each) => sum + overlap(box, each), outside(box, plot));
      if (!best || cost < best.cost - 1e-9) best = { label, cost };
      if (cost === 0) break;
    }
    taken.push(boxOf(best!.label));
    return best!.label;
  });
};
