/** Where something stands in a file: line and column, counted from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** Keys and list positions (from 0) that lead to a value. */
export type Path = readonly (string | number)[];

export const start: Place = { line: 1, column: 1 };

/** The place of the character at `offset`. */
export const placeAt = (text: string, offset: number): Place => {
  let line = 1;
  let begin = 0;
  for (let at = text.indexOf("\n"); at >= 0 && at < offset; at = text.indexOf("\n", begin)) {
    line += 1;
    begin = at + 1;
  }
  return { line, column: offset - begin + 1 };
};

const longestKey = 60;
const shortKey = (key: string): string => (key.length > longestKey ? `${key.slice(0, longestKey)}…` : key);

/** `composites[2].results.K`: list items counted from 1, as a person counts. */
export const fieldName = (path: Path): string =>
  path.map((p, i) => (typeof p === "number" ? `[${p + 1}]` : i === 0 ? shortKey(p) : `.${shortKey(p)}`)).join("");
