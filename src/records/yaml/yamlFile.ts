import type { Document, Node, Pair, YAMLMap } from "yaml";
import { isMap, isScalar, isSeq, LineCounter, parseDocument, visit } from "yaml";
import type * as z from "zod";
import { warnOfCutTexts } from "./cutText.ts";
import { explain, oddBlank, oddBlankWords, plainIssues } from "./explain.ts";
import { readFast } from "./fastYaml.ts";
import { nodeOf, refuseOdd, refuseTooLarge } from "./oddYaml.ts";
import type { Path, Place } from "../place.ts";
import { fieldName, placeAt, start } from "../place.ts";
import type { Problems } from "../problem.ts";
import { deepWords, directiveWords, syntaxWords } from "./syntaxWords.ts";

/** A record file that met its schema, and where each of its values stands. */
export interface Parsed<T> {
  readonly file: string;
  readonly value: T;
  /** Where the value at `path` stands; where the path stops early, its nearest parent. */
  readonly at: (path: Path) => Place;
  /** Where the key at `path` stands. */
  readonly keyAt: (path: Path) => Place;
}

interface Source {
  readonly document: Document;
  readonly lines: LineCounter;
}

/** No record nests a tenth as deep; the parser is recursive and would exhaust the stack. */
const deepest = 200;

/** Where brackets nest too deeply, if they do. Brackets in texts count too: no text opens so many and closes none. */
const tooDeep = (text: string): number | undefined => {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 91 || c === 123) depth += 1;
    else if (c === 93 || c === 125) depth = Math.max(0, depth - 1);
    if (depth > deepest) return i;
  }
  return undefined;
};

/** Parse YAML text and locate every problem of its syntax. `undefined` when it cannot be used. */
const parseYaml = (text: string, file: string, problems: Problems): Source | undefined => {
  const deep = tooDeep(text);
  if (deep !== undefined) {
    problems.error(file, placeAt(text, deep), "", deepWords);
    return undefined;
  }
  const lines = linesOf(text);
  const document: Document = parseDocument(text, {
    prettyErrors: false,
    version: "1.2",
    schema: "core",
    logLevel: "error",
    uniqueKeys: false,
  });
  const place = (offset: number): Place => linePlace(lines, offset);
  // Tags and directives of other YAML dialects would change what a value means, so a warning stops a record too.
  const faults = [...document.errors, ...document.warnings].sort((a, b) => a.pos[0] - b.pos[0]);
  let line = 0;
  let tab = false;
  for (const { code, message, pos } of faults) {
    const at = place(openQuote(document, message, pos[0]) ?? pos[0]);
    // One slip makes the parser stumble more than once: on its line, after a tab on those that follow, where a line is indented
    // wrongly on its neighbors, and where it took the record to end on all of them.
    if (at.line === line) continue;
    if (line > 0 && ((indenting.has(code) && (tab || at.line <= line + 2)) || /^Unexpected .* token in YAML stream/.test(message))) {
      line = at.line;
      continue;
    }
    line = at.line;
    tab ||= code === "TAB_AS_INDENT";
    const odd = oddBlank.test(text.slice(lines.lineStarts[line - 1], lines.lineStarts[line]));
    problems.error(
      file,
      at,
      "",
      odd ? `this line cannot be read; ${oddBlankWords}` : syntaxWords(code, message, text.slice(pos[0], pos[0] + 100)),
    );
    if (odd) break;
  }
  if (faults.length > 0) return undefined;
  if (document.directives?.yaml.explicit) {
    problems.error(file, start, "", directiveWords);
    return undefined;
  }
  return refuseOdd(document, (node) => place(node.range?.[0] ?? 0), file, problems) ? undefined : { document, lines };
};

/** Faults that one line brings upon the next. */
const indenting: ReadonlySet<string> = new Set(["BAD_INDENT", "BLOCK_AS_IMPLICIT_KEY"]);

/** Where a text begins whose closing quote the parser looked for until `end`. */
const openQuote = (document: Document, message: string, end: number): number | undefined => {
  let open: number | undefined;
  if (/^Missing closing ["']/.test(message))
    visit(document, {
      Scalar: (_, { range, type }) => {
        if (range && range[0] < end && end <= range[1] && type?.startsWith("QUOTE")) open = range[0];
      },
    });
  return open;
};

/** Where lines begin, of the text itself: the parser's own count stops short in some broken files. */
const linesOf = (text: string): LineCounter => {
  const lines = new LineCounter();
  for (let at = 0; at > 0 || lines.lineStarts.length === 0; at = text.indexOf("\n", at) + 1) lines.addNewLine(at);
  return lines;
};

const linePlace = (lines: LineCounter, offset: number): Place => {
  const { line, col } = lines.linePos(offset);
  return { line: Math.max(1, line), column: Math.max(1, col) };
};

/** Parse a record against its schema; every problem goes to `problems`, each at its own place. */
export const parseRecord = <T>(text: string, file: string, schema: z.ZodType<T>, problems: Problems): Parsed<T> | undefined => {
  warnOfCutTexts(text, file, problems);
  const quick = readFast(text);
  const quickResult = quick && schema.safeParse(quick.value);
  if (quickResult?.success) return { file, value: quickResult.data, at: quick!.at, keyAt: quick!.keyAt };
  return explainRecord(text, file, schema, problems);
};

/** The slow way, which can say what is wrong; also for the rare record that the fast reader leaves alone. */
export const explainRecord = <T>(text: string, file: string, schema: z.ZodType<T>, problems: Problems): Parsed<T> | undefined => {
  const parsed = parseYaml(text, file, problems);
  if (!parsed) return undefined;
  const { document, lines } = parsed;
  const plain: unknown = document.toJS();
  if (plain === null) {
    problems.error(file, start, "", "is empty");
    return undefined;
  }
  const locate = locator(document, lines);
  const result = schema.safeParse(plain, { error: explain });
  if (result.success) {
    const place = (node: Node): Place => linePlace(lines, node.range?.[0] ?? 0);
    return refuseTooLarge(document, place, file, problems) ? undefined : { file, value: result.data, ...locate };
  }
  for (const issue of plainIssues(result.error.issues))
    problems.error(file, issue.atKey ? locate.keyAt(issue.path) : locate.at(issue.path), fieldName(issue.path), issue.message);
  return undefined;
};

/** Walk a path through maps and lists to a place in the text. */
const locator = (document: Document, lines: LineCounter): Pick<Parsed<unknown>, "at" | "keyAt"> => {
  const place = (node: unknown, fallback: Place): Place => {
    const range = nodeOf(node)?.range;
    return range ? linePlace(lines, range[0]) : fallback;
  };
  const known = new Map<YAMLMap, Map<string, Pair>>();
  const pairsOf = (map: YAMLMap): Map<string, Pair> => {
    let pairs = known.get(map);
    if (!pairs) known.set(map, (pairs = new Map(map.items.map((p) => [isScalar(p.key) ? String(p.key.value) : "", p]))));
    return pairs;
  };
  const walk = (path: Path, wantKey: boolean): Place => {
    let node: unknown = document.contents;
    let here = place(node, start);
    for (const [i, part] of path.entries()) {
      if (isMap(node)) {
        const pair = pairsOf(node).get(String(part));
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
