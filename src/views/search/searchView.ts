import { analytes } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { compareNames } from "../nameOrder.ts";
import { mostFieldsInFull } from "./searchIndex.ts";
import { timelineYears } from "../field/timeline.ts";
import { paths } from "../paths.ts";

/** A heading of the page's own index, with a link for each field below it. */
export interface IndexEntry {
  readonly text: string;
  readonly fields: readonly { readonly name: string; readonly path: string; readonly anchor: string }[];
}

export interface SearchView {
  /** Fields by the first letter of their names; empty where the lists of fields, which go over pages, must serve. */
  readonly letters: readonly { readonly letter: string; readonly fields: readonly Field[] }[];
  /** Newest first; empty where the links would be more than a page can carry. */
  readonly years: readonly IndexEntry[];
  readonly analytes: readonly IndexEntry[];
}

/** Above so many fields, years and analytes are left to the fields' own pages: the links would be thousands. */
const mostFieldsIndexed = 60;

/** The same things as in the search's index, as links for a reader without a script. */
export const searchView = (farm: Farm): SearchView => {
  if (farm.fields.length > mostFieldsInFull) return { letters: [], years: [], analytes: [] };
  const rows = [...farm.fields].sort((a, b) => compareNames(a.name, b.name));
  const letterOf = (field: Field): string => field.name.normalize("NFD").charAt(0).toUpperCase();
  const letters = [...new Set(rows.map(letterOf))].map((letter) => ({ letter, fields: rows.filter((f) => letterOf(f) === letter) }));
  if (rows.length > mostFieldsIndexed) return { letters, years: [], analytes: [] };
  return {
    letters,
    years: entries(
      rows,
      (f) => timelineYears(f).map((y) => y.year),
      (f, year) => ({ path: paths.timeline(f.id), anchor: `y${year}` }),
    ).sort((a, b) => Number(b.text) - Number(a.text)),
    analytes: analyteEntries(rows),
  };
};

const entries = (
  rows: readonly Field[],
  keysOf: (field: Field) => readonly string[],
  to: (field: Field, key: string) => { path: string; anchor: string },
): IndexEntry[] => {
  const found = new Map<string, IndexEntry["fields"][number][]>();
  for (const field of rows)
    for (const key of new Set(keysOf(field))) found.set(key, [...(found.get(key) ?? []), { name: field.name, ...to(field, key) }]);
  return [...found].map(([text, fields]) => ({ text, fields }));
};

const analyteEntries = (rows: readonly Field[]): IndexEntry[] => {
  const found = entries(
    rows,
    (f) => f.samplings.flatMap((s) => s.composites.flatMap((c) => c.measurements.map((m) => m.analyte))),
    (f) => ({ path: paths.field(f.id), anchor: "history" }),
  );
  const order = Object.keys(analytes);
  return found
    .sort((a, b) => order.indexOf(a.text) - order.indexOf(b.text))
    .map((e) => ({ ...e, text: analytes[e.text as keyof typeof analytes].label }));
};
