import { constructFromEvents, CORE_SCHEMA, EVENT_ID, parseEvents, SCALAR_STYLE, type Event, type ScalarEvent } from "js-yaml";
import type { Place } from "../place.ts";

/**
 * Reading the usual case fast. The parser that explains mistakes builds a full syntax tree and takes ten times as long;
 * this one gives values and offsets only, and gives up on anything out of the ordinary. Whatever it gives up on, or
 * whatever then misses its schema, is read again by the explaining parser, which alone words a problem.
 * A test holds the two to the same values and the same places.
 */
export interface FastDocument {
  readonly value: unknown;
  readonly at: (path: readonly (string | number)[]) => Place;
  readonly keyAt: (path: readonly (string | number)[]) => Place;
}

interface Entry {
  readonly key: number;
  readonly node: Node;
}

/** Where a node begins, and its children by key or index. */
interface Node {
  readonly start: number;
  readonly entries?: Map<string, Entry>;
  readonly items?: Node[];
}

export const readFast = (source: string): FastDocument | undefined => {
  if (unusualText.test(source)) return undefined;
  let documents: unknown[];
  let root: Node;
  try {
    const events = parseEvents(source, {});
    if (events.some(isUnusual)) return undefined;
    documents = constructFromEvents(events, { source, schema: CORE_SCHEMA });
    if (documents.length !== 1) return undefined;
    root = nodesOf(events, source);
  } catch {
    return undefined;
  }
  let lines: number[] | undefined;
  const place = (offset: number): Place => {
    lines ??= lineStarts(source);
    const line = lineOf(lines, offset);
    return { line: line + 1, column: offset - lines[line]! + 1 };
  };
  const walk = (path: readonly (string | number)[], wantKey: boolean): Place => {
    let node = root;
    let here = node.start;
    for (const [i, part] of path.entries()) {
      if (node.entries) {
        const entry = node.entries.get(String(part));
        if (!entry) break;
        here = wantKey && i === path.length - 1 ? entry.key : entry.node.start;
        node = entry.node;
      } else {
        const item = node.items?.[Number(part)];
        if (!item) break;
        here = item.start;
        node = item;
      }
    }
    return place(here);
  };
  return { value: documents[0], at: (path) => walk(path, false), keyAt: (path) => walk(path, true) };
};

/**
 * Escapes may spell control characters, some engines lose a key of this name, 0x1f is a number that nobody means, and one with
 * a power of ten or thirteen digits may be too large: for the explaining parser to judge. A fingerprint looks like such a number here and there, and is none.
 */
const unusualText = /__proto__|(?<!\w)0[xo][\da-fA-F]|(?<![\w.]|sha256:)(?:[\d.]+[eE]\+?\d|\d{13})|\\|[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]/;

/** Anchors, aliases, tags and directives: refused in a record, and for the explaining parser to say so. */
const isUnusual = (e: Event): boolean => {
  if (e.type === EVENT_ID.DOCUMENT) return e.directives.length > 0;
  if (e.type === EVENT_ID.SEQUENCE || e.type === EVENT_ID.MAPPING || e.type === EVENT_ID.SCALAR)
    return e.anchorStart >= 0 || e.tagStart >= 0;
  return e.type !== EVENT_ID.POP;
};

const nodesOf = (events: readonly Event[], source: string): Node => {
  let i = 1;
  const scalarStart = (e: ScalarEvent): number => {
    if (e.style === SCALAR_STYLE.SINGLE_QUOTED || e.style === SCALAR_STYLE.DOUBLE_QUOTED) return e.valueStart - 1;
    if (e.style === SCALAR_STYLE.LITERAL_BLOCK) return source.lastIndexOf("|", e.valueStart);
    if (e.style === SCALAR_STYLE.FOLDED_BLOCK) return source.lastIndexOf(">", e.valueStart);
    return e.valueStart;
  };
  const read = (after: number): Node => {
    const e = events[i++]!;
    if (e.type === EVENT_ID.SCALAR) return { start: e.valueStart < 0 ? after : scalarStart(e) };
    if (e.type === EVENT_ID.SEQUENCE) {
      const items: Node[] = [];
      while (events[i]!.type !== EVENT_ID.POP) items.push(read(e.start));
      i += 1;
      return { start: e.start, items };
    }
    if (e.type !== EVENT_ID.MAPPING) throw new Error("not a document the fast reader takes");
    const entries = new Map<string, Entry>();
    while (events[i]!.type !== EVENT_ID.POP) {
      const keyEvent = events[i]!;
      const key = read(e.start);
      const node = read(key.start);
      if (keyEvent.type !== EVENT_ID.SCALAR || keyEvent.valueStart < 0) throw new Error("not a document the fast reader takes");
      const written = source.slice(keyEvent.valueStart, keyEvent.valueEnd);
      const name = keyEvent.style === SCALAR_STYLE.SINGLE_QUOTED ? written.replaceAll("''", "'") : written;
      // YAML's word for nothing names nothing; the explaining reader refuses it.
      if (keyEvent.style === SCALAR_STYLE.PLAIN && /^(~|null|Null|NULL)$/.test(name)) throw new Error("a key that is no word");
      entries.set(name, { key: key.start, node });
    }
    i += 1;
    return { start: e.start, entries };
  };
  return read(0);
};

const lineStarts = (source: string): number[] => {
  const starts = [0];
  for (let at = source.indexOf("\n"); at >= 0; at = source.indexOf("\n", at + 1)) starts.push(at + 1);
  return starts;
};

const lineOf = (starts: readonly number[], offset: number): number => {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
};
