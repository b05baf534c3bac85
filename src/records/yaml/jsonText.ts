import type { Path } from "../place.ts";

const space = /[\t\n\r ]*/y;
const token =
  /([[\]{},:])|("(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[\da-fA-F]{4}))*")|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/y;

type Need = "value" | "value or ]" | "key" | "key or }" | ":" | ", or end" | "end";

export interface Scan {
  /** Where the text stops being JSON; absent for JSON. */
  readonly fault: number | undefined;
  /** Where the value at the wanted path stands; where the path stops early, its nearest parent. */
  readonly found: number;
  /** Where that value ends; absent where the text stops before. */
  readonly end: number | undefined;
}

/**
 * Walk JSON text for places, which `JSON.parse` does not give. Iterative, so that deep nesting cannot exhaust the stack.
 */
export const scanJson = (text: string, wanted: Path = []): Scan => {
  const open: { readonly list: boolean; at: string | number }[] = [];
  let need: Need = "value";
  let found = 0;
  let matched = -1;
  let end: number | undefined;
  let offset = 0;
  const matches = (): boolean => open.length <= wanted.length && open.every((o, i) => String(o.at) === String(wanted[i]));
  for (;;) {
    space.lastIndex = offset;
    space.exec(text);
    offset = space.lastIndex;
    if (offset === text.length) return { fault: need === "end" ? undefined : offset, found, end };
    token.lastIndex = offset;
    const match = token.exec(text);
    if (!match) return { fault: offset, found, end };
    const [word, mark, string] = match;
    const top = open.at(-1);
    if (
      (mark === "]" && (need === "value or ]" || (need === ", or end" && top?.list))) ||
      (mark === "}" && (need === "key or }" || (need === ", or end" && top && !top.list)))
    ) {
      open.pop();
      need = open.length > 0 ? ", or end" : "end";
    } else if (need === "value" || need === "value or ]") {
      if (mark !== undefined && mark !== "[" && mark !== "{") return { fault: offset, found, end };
      if (open.length > matched && matches()) [found, matched, end] = [offset, open.length, undefined];
      if (mark === undefined) need = open.length > 0 ? ", or end" : "end";
      else {
        open.push({ list: mark === "[", at: mark === "[" ? 0 : "" });
        need = mark === "[" ? "value or ]" : "key or }";
      }
    } else if ((need === "key" || need === "key or }") && string !== undefined && top) {
      top.at = JSON.parse(string) as string;
      need = ":";
    } else if (need === ":" && mark === ":") need = "value";
    else if (need === ", or end" && mark === "," && top) {
      if (typeof top.at === "number") top.at += 1;
      need = top.list ? "value" : "key";
    } else return { fault: offset, found, end };
    offset += word.length;
    if (open.length === matched && (need === ", or end" || need === "end")) end ??= offset;
  }
};
