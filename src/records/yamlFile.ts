import type { Document, Node, Pair } from "yaml";
import { isAlias, isMap, isPair, isScalar, isSeq, LineCounter, parseDocument, visit } from "yaml";
import type * as z from "zod";
import { explain, plainIssues } from "./explain.ts";
import type { Problems } from "./problem.ts";

export interface Place {
  readonly line: number;
  readonly column: number;
}

type Path = readonly (string | number)[];

/** A record file that met its schema, and where each of its values stands. */
export interface Parsed<T> {
  readonly file: string;
  readonly value: T;
  /** Where the value at `path` stands; where the path stops early, its nearest parent. */
  readonly at: (path: Path) => Place;
  /** Where the key at `path` stands. */
  readonly keyAt: (path: Path) => Place;
}

/** `composites[2].results.K`: list items counted from 1, as a person counts. */
export const fieldName = (path: Path): string =>
  path.map((p, i) => (typeof p === "number" ? `[${p + 1}]` : i === 0 ? p : `.${p}`)).join("");

export const start: Place = { line: 1, column: 1 };

/** Decode UTF-8 strictly, so that a file in another encoding is refused and not half-read. */
export const decode = (bytes: Uint8Array, file: string, problems: Problems): string | undefined => {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    const line = bytes.subarray(0, firstBadByte(bytes)).reduce((n, b) => n + (b === 10 ? 1 : 0), 1);
    problems.error(file, { line, column: 1 }, "", "is not UTF-8 text; save it as UTF-8");
    return undefined;
  }
};

/** The longest prefix that decodes, by halving. */
const firstBadByte = (bytes: Uint8Array): number => {
  let good = 0;
  let bad = bytes.length;
  const decodes = (end: number): boolean => {
    try {
      // `stream` lets a character cut by `end` pass.
      new TextDecoder("utf-8", { fatal: true }).decode(bytes.subarray(0, end), { stream: true });
      return true;
    } catch {
      return false;
    }
  };
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (decodes(middle)) good = middle;
    else bad = middle;
  }
  return good;
};

/** Records are written by hand; a megabyte of YAML in one of them is a mistake. */
const mostBytes = 1_000_000;

/** Parse YAML text and locate every problem of its syntax. `undefined` when it cannot be used. */
export const parseYaml = (text: string, file: string, problems: Problems): { document: Document; lines: LineCounter } | undefined => {
  if (text.length > mostBytes) {
    problems.error(file, start, "", "is larger than 1 MB, too large for a record");
    return undefined;
  }
  const lines = new LineCounter();
  let document: Document;
  try {
    document = parseDocument(text, { lineCounter: lines, prettyErrors: false, version: "1.2", schema: "core" });
  } catch (cause) {
    // The parser is recursive; a file of ten thousand brackets exhausts the stack rather than the memory.
    if (!(cause instanceof RangeError)) throw cause;
    problems.error(file, start, "", "is nested too deeply to be a record");
    return undefined;
  }
  const place = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  for (const error of document.errors) problems.error(file, place(error.pos[0]), "", syntaxWords(error.code, error.message));
  // Tags and directives of other YAML dialects would change what a value means.
  for (const warning of document.warnings) problems.error(file, place(warning.pos[0]), "", syntaxWords(warning.code, warning.message));
  if (document.errors.length > 0 || document.warnings.length > 0) return undefined;
  if (/[&*]/.test(text)) {
    const anchored: Node[] = [];
    visit(document, (_, node) => {
      const hasAnchor = isAlias(node) || ((isMap(node) || isSeq(node) || isScalar(node)) && node.anchor !== undefined);
      if (!hasAnchor) return undefined;
      anchored.push(node);
      problems.error(file, place((node).range?.[0] ?? 0), "", "anchors (&) and aliases (*) are not allowed in a record; write the value out");
      return visit.BREAK;
    });
    if (anchored.length > 0) return undefined;
  }
  return { document, lines };
};

const syntaxWords = (code: string, message: string): string => {
  switch (code) {
    case "DUPLICATE_KEY":
      return "this key stands twice in one block; keep one";
    case "MULTIPLE_DOCS":
      return "holds more than one document (---); one record a file";
    case "TAB_AS_INDENT":
      return "a tab cannot indent; use spaces";
    case "BAD_INDENT":
      return "is indented differently from its neighbors";
    default:
      return `is not valid YAML: ${message.charAt(0).toLowerCase()}${message.slice(1)}`;
  }
};

/** Parse a record against its schema; every problem goes to `problems`, each at its own place. */
export const parseRecord = <T>(text: string, file: string, schema: z.ZodType<T>, problems: Problems): Parsed<T> | undefined => {
  const parsed = parseYaml(text, file, problems);
  if (!parsed) return undefined;
  const { document, lines } = parsed;
  if (document.contents === null) {
    problems.error(file, start, "", "is empty");
    return undefined;
  }
  const locate = locator(document, lines);
  let plain: unknown;
  try {
    plain = document.toJS({ maxAliasCount: 0 });
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
    problems.error(file, start, "", "is nested too deeply to be a record");
    return undefined;
  }
  const result = schema.safeParse(plain, { error: explain });
  if (result.success) return { file, value: result.data, ...locate };
  for (const issue of plainIssues(result.error.issues))
    problems.error(file, issue.atKey ? locate.keyAt(issue.path) : locate.at(issue.path), fieldName(issue.path), issue.message);
  return undefined;
};

/** Walk a path through maps and lists to a place in the text. */
export const locator = (document: Document, lines: LineCounter): Pick<Parsed<unknown>, "at" | "keyAt"> => {
  const place = (node: unknown, fallback: Place): Place => {
    const range = (node as Node | null)?.range;
    if (!range) return fallback;
    const { line, col } = lines.linePos(range[0]);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const walk = (path: Path, wantKey: boolean): Place => {
    let node: unknown = document.contents;
    let here = place(node, start);
    for (const [i, part] of path.entries()) {
      if (isMap(node)) {
        const pair: Pair | undefined = node.items.find((p) => isPair(p) && isScalar(p.key) && String(p.key.value) === String(part));
        if (!pair) return here;
        const key = place(pair.key, here);
        here = wantKey && i === path.length - 1 ? key : place(pair.value, key);
        node = pair.value;
      } else if (isSeq(node)) {
        node = node.items[Number(part)];
        if (node === undefined) return here;
        here = place(node, here);
      } else return here;
    }
    return here;
  };
  return { at: (path) => walk(path, false), keyAt: (path) => walk(path, true) };
};
