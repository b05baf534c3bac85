import type { SearchIndex } from "../views/search/searchIndex.ts";
import { fold, holdsAll } from "./fold.ts";

export interface Found {
  readonly text: string;
  readonly href: string;
}

export interface FoundGroup {
  readonly title: string;
  /** The first of them, in the order of the index. */
  readonly hits: readonly Found[];
  /** How many there are in all. */
  readonly total: number;
}

const mostHits = 20;

interface Prepared {
  readonly field: string[][];
  readonly thing: string[][];
  readonly page: string[][];
}

/** The words of everything that can be found, folded once. */
export const prepare = (index: SearchIndex): Prepared => ({
  field: index.fields.map(([id, name, also]) => fold(`${name} ${also} ${id}`)),
  thing: index.things.map(([, text, key]) => fold(`${text} ${key}`)),
  page: index.pages.map(([, text, , also]) => fold(`${text} ${also}`)),
});

/**
 * Everything that begins with every word typed, in any order, grouped as the index groups it. A thing of a field (a year, a zone)
 * is found by its own words together with the field's, and needs one of its own: a field's name alone finds the field.
 */
export const search = (index: SearchIndex, words: Prepared, query: string): FoundGroup[] => {
  const typed = fold(query);
  if (typed.length === 0) return [];
  const groups = index.kinds.map(([title]) => ({ title, hits: [] as Found[], total: 0 }));
  const add = (kind: number, hit: () => Found): void => {
    const group = groups[kind]!;
    group.total += 1;
    if (group.hits.length < mostHits) group.hits.push(hit());
  };
  // Which of the typed words each thing answers, asked once for all the fields that share the thing.
  const answered = words.thing.map((own) => typed.map((each) => own.some((word) => word.startsWith(each))));
  index.fields.forEach(([id, name, , things], f) => {
    const byField = typed.map((each) => words.field[f]!.some((word) => word.startsWith(each)));
    if (byField.every(Boolean)) add(0, () => ({ text: name, href: address(index.kinds[0]![1], id, "") }));
    for (const t of things) {
      const own = answered[t]!;
      if (!own.some(Boolean) || !own.every((yes, i) => yes || byField[i])) continue;
      const [kind, text, key] = index.things[t]!;
      add(kind, () => ({ text: `${name}, ${text}`, href: address(index.kinds[kind]![1], id, key) }));
    }
  });
  index.pages.forEach(([kind, text, href], p) => {
    if (holdsAll(words.page[p]!, typed)) add(kind, () => ({ text, href }));
  });
  return groups.filter((group) => group.total > 0);
};

const address = (pattern: string, field: string, key: string): string =>
  pattern.replace("{field}", encodeURIComponent(field)).replace("{key}", encodeURIComponent(key));
