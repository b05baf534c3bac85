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

/** Of the places around a mark the first that covers nothing, or the one that covers least; `cost` in square pixels covered. */
const bestPlace = (mark: Mark, taken: readonly Box[], plot: Box): { readonly label: Label; readonly cost: number } => {
  let best: { label: Label; cost: number } | undefined;
  for (const label of places(mark)) {
    const box = boxOf(label);
    const cost = taken.reduce((sum, each) => sum + overlap(box, each), outside(box, plot));
    if (!best || cost < best.cost - 1e-9) best = { label, cost };
    if (cost === 0) break;
  }
  return best!;
};

/** A label that covers more than this of another, or of a mark, cannot be read: a digit's corner. */
const readable = 15;

/** What a crowd of marks is told by: the newest, the first, the highest and the lowest; of equal ones the newer. */
const telling = (marks: readonly Mark[]): number[] => {
  const most = (of: (mark: Mark) => number): number =>
    marks.reduce(
      (best, mark, i) => (of(mark) > of(marks[best]!) || (of(mark) === of(marks[best]!) && mark.x > marks[best]!.x) ? i : best),
      0,
    );
  return [...new Set([most((m) => m.x), most((m) => -m.x), most((m) => -m.y), most((m) => m.y)])];
};

/**
 * A place for each mark's label, in the order given, where it covers no mark, no label set before it and nothing outside the plot.
 * Where marks stand too close for all of them, the telling ones keep theirs, and any other that has no free place has an empty
 * text. `unlabeled`: marks that have no label and may not be covered.
 */
export const placeLabels = (marks: readonly Mark[], plot: Box, unlabeled: readonly Omit<Mark, "text">[] = []): Label[] => {
  const boxes: Box[] = [...marks, ...unlabeled].map(({ x, y }) => ({
    left: x - markRadius,
    right: x + markRadius,
    top: y - markRadius,
    bottom: y + markRadius,
  }));
  const set = (order: readonly number[], must: (i: number) => boolean): readonly { readonly label: Label; readonly cost: number }[] => {
    const taken = [...boxes];
    const found: { label: Label; cost: number }[] = [];
    for (const i of order) {
      const best = bestPlace(marks[i]!, taken, plot);
      const shown = must(i) || best.cost <= 1e-9;
      found[i] = shown ? best : { label: { ...best.label, text: "" }, cost: 0 };
      if (shown) taken.push(boxOf(best.label));
    }
    return found;
  };
  const indices = marks.map((_, i) => i);
  const all = set(indices, () => true);
  if (all.every(({ cost }) => cost <= readable)) return all.map(({ label }) => label);
  const first = telling(marks);
  const rest = indices.filter((i) => !first.includes(i)).sort((a, b) => marks[b]!.x - marks[a]!.x);
  return set([...first, ...rest], (i) => first.includes(i)).map(({ label }) => label);
};
