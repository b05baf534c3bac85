import type { Pair, YAMLMap } from "yaml";
import { isCollection, isPair, isScalar, stringify } from "yaml";

/**
 * Changing a record without touching the rest of it: new text is only put between old, so that comments, order, quotes and line ends stay
 * as they are. Whoever does so reads the new text again, and leaves the file alone where it is not what was meant.
 */

/** A text put in at `at`, in place of the `over` characters that stand there. */
export interface Splice {
  readonly at: number;
  readonly over: number;
  readonly put: string;
}

/** The text with every splice in it; what is put in at one place stands in the order given. */
export const spliced = (text: string, splices: readonly Splice[]): string =>
  splices
    .map((splice, order) => ({ ...splice, order }))
    .sort((a, b) => b.at - a.at || b.order - a.order)
    .reduce((whole, { at, over, put }) => whole.slice(0, at) + put + whole.slice(at + over), text);

export const pairOf = (map: YAMLMap, key: string): Pair | undefined =>
  map.items.find((pair) => isScalar(pair.key) && pair.key.value === key);
export const valueOf = (map: YAMLMap, key: string): unknown => pairOf(map, key)?.value;

/** Where a pair or a value ends, comments after it left out. The parser counts a comment below the last line of a block as part of it. */
export const endOf = (node: unknown): number => {
  if (isPair(node)) return endOf(node.value ?? node.key);
  if (isCollection(node) && !node.flow) return endOf(node.items.at(-1));
  return (node as { range: readonly [number, number, number] }).range[1];
};

/** The spaces that a key on a line of its own begins with; the dash of a list item counts as one. */
export const indentOf = (text: string, pair: Pair): string => {
  const [start] = (pair.key as { range: readonly [number, number, number] }).range;
  return text.slice(text.lastIndexOf("\n", start - 1) + 1, start).replace(/[^ ]/g, " ");
};

/** New lines below the line in which `end` lies, ended as that line is. A text of several lines ends with its last line's own end. */
export const below = (text: string, end: number, put: readonly string[]): Splice => {
  const line = text.charAt(end - 1) === "\n" ? end - 1 : text.indexOf("\n", end);
  if (line < 0) {
    const ending = text.includes("\r\n") ? "\r\n" : "\n";
    return { at: text.length, over: 0, put: put.map((each) => ending + each).join("") };
  }
  const ending = text.charAt(line - 1) === "\r" ? "\r\n" : "\n";
  return { at: line + 1, over: 0, put: put.map((each) => each + ending).join("") };
};

/** A value on one line, spaced as the records are by hand. */
export const inBraces = (value: unknown): string => {
  if (Array.isArray(value)) return `[${value.map(inBraces).join(", ")}]`;
  if (typeof value !== "object" || value === null) return stringify(value, { collectionStyle: "flow", lineWidth: 0 }).trimEnd();
  return `{ ${Object.entries(value)
    .map(([key, each]) => `${key}: ${inBraces(each)}`)
    .join(", ")} }`;
};
