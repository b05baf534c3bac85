import type { ResultTable } from "../../exchange/results/resultFile.ts";
import type { WrittenUnit } from "../../interpretation/units.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { DateOrder } from "../../exchange/results/resultFileValue.ts";
import { allowedWords } from "../nearMiss.ts";
import type { Problems } from "../problem.ts";
import type { Oxide, ResultColumn, ResultFileRecord } from "../schemas/lab.ts";
import type { datesOf } from "../schemas/lab.ts";
import { elementOf } from "../schemas/lab.ts";

/** What a column of one file means; `unit` is absent where neither the header nor the laboratory's record says it. */
export type ColumnMeaning =
  | { readonly kind: "label" }
  | { readonly kind: "ignored" }
  | { readonly kind: "report" }
  | { readonly kind: "date"; readonly order: DateOrder; readonly of: (typeof datesOf)[number] }
  | { readonly kind: "analyte"; readonly analyte: AnalyteId; readonly unit: WrittenUnit | undefined; readonly oxide: Oxide | undefined };

type Columns = ResultFileRecord["columns"];
/** Header and its column, spaces made one. A map, since a header may be called "constructor"; units are spelled by one, too. */
type ByHeader = ReadonlyMap<string, ResultColumn>;

/** The analyte's usual unit as it would stand in the laboratory's file: YAML begins nothing with a percent sign. */
const yamlUnit = (analyte: AnalyteId): string => (analytes[analyte].unit === "%" ? '"%"' : analytes[analyte].unit);

/** Spellings of units in headers, in small letters and without spaces; each is the unit beside it by definition. */
const spellings = new Map(
  Object.entries<WrittenUnit>({
    ph: "pH",
    index: "index",
    ppm: "ppm",
    "mg/kg": "mg/kg",
    "mgkg-1": "mg/kg",
    "mg/100g": "mg/100 g",
    "g/kg": "g/kg",
    "%": "%",
    percent: "%",
    "mg/l": "mg/l",
    "mg/dm3": "mg/l",
    "mg/100ml": "mg/100 ml",
    "lb/ac": "lb/ac",
    "lbs/ac": "lb/ac",
    "lb/acre": "lb/ac",
    "lbs/acre": "lb/ac",
    "lb/a": "lb/ac",
    "lbs/a": "lb/ac",
    lbperacre: "lb/ac",
    lbsperacre: "lb/ac",
    "kg/ha": "kg/ha",
    "kgha-1": "kg/ha",
    "meq/100g": "meq/100 g",
    "me/100g": "meq/100 g",
    "cmol/kg": "cmol/kg",
    "cmolc/kg": "cmol/kg",
    "meq/100cm3": "meq/100 cm3",
    "ds/m": "dS/m",
    "ms/cm": "mS/cm",
    "mmho/cm": "mmho/cm",
    "mmhos/cm": "mmho/cm",
    "us/cm": "uS/cm",
  }),
);

/** `K (ppm)` and `K [ppm]`: the name and what stands in the brackets. */
const bracketed = /^(.*\S)\s*[([]([^()[\]]+)[)\]]$/;
const spelledUnit = (text: string): WrittenUnit | undefined =>
  spellings.get(text.toLowerCase().replace(/\s+/g, "").replace(/[µμ]/g, "u").replace(/³/g, "3"));
/** More is no name of a test, and the ways to part it grow with its third power. */
const longestHeader = 200;
/** `K ppm`, `K_lbs/A` and `Ca, meq/100 g`: the name and the last words of a header without brackets, where they spell a unit. */
const trailing = (name: string): { base: string; unit: WrittenUnit } | undefined => {
  if (name.length > longestHeader) return undefined;
  for (const words of [1, 2, 3]) {
    const [, base, last] = new RegExp(`^(.*?[^\\s,_-])[\\s,_-]+(\\S+(?: \\S+){${words - 1}})$`).exec(name) ?? [];
    const unit = last === undefined ? undefined : spelledUnit(last);
    if (base !== undefined && unit !== undefined) return { base, unit };
  }
  return undefined;
};
/** A header may be broken over two lines to keep its column narrow, and hold two spaces, in the file and so in the record. */
const oneSpace = (header: string): string => header.replace(/\s+/g, " ");
const byHeader = (columns: Columns): ByHeader => new Map(Object.entries(columns).map(([header, column]) => [oneSpace(header), column]));

interface Found {
  readonly column: ResultColumn;
  /** What stands in brackets after the name, and the unit that it spells, or the header's last words do. */
  readonly brackets: string | undefined;
  readonly unit: WrittenUnit | undefined;
}

const statesUnit = (column: ResultColumn): boolean => typeof column === "object" && "unit" in column && column.unit !== undefined;

const find = (header: string, columns: ByHeader): Found | undefined => {
  const name = oneSpace(header);
  const [, named, brackets] = bracketed.exec(name) ?? [];
  const words = trailing(name);
  const unit = words?.unit ?? spelledUnit(brackets ?? "");
  const exact = columns.get(name);
  // A word, unlike brackets, may only look like a unit, and then the record's says which it is: index is one in "K index", and none in "Salt index".
  if (exact !== undefined) return { column: exact, brackets, unit: words?.unit === "index" && statesUnit(exact) ? undefined : unit };
  const without = unit === undefined ? undefined : columns.get(words?.base ?? named ?? "");
  return without === undefined ? undefined : { column: without, brackets, unit };
};

const dates = { sampling: "the day of sampling", receipt: "the day of receipt", report: "the day of the report" };

/** The oxide of an element that a header names: P2O5 of P, whichever way its small figures are written. */
const oxideIn = (header: string, analyte: AnalyteId): Oxide | undefined =>
  (Object.keys(elementOf) as Oxide[]).find(
    (oxide) => elementOf[oxide] === analyte && header.normalize("NFKC").toLowerCase().includes(oxide.toLowerCase()),
  );

/** Whether a header is one that the laboratory's record maps. */
export const knownHeader = (columns: Columns): ((header: string) => boolean) => {
  const known = byHeader(columns);
  return (header) => find(header, known) !== undefined;
};

/** What each column of the file means. Every header that cannot be read is told at its place. */
export const columnMeanings = (
  table: ResultTable,
  columns: Columns,
  file: string,
  lab: string,
  problems: Problems,
): (ColumnMeaning | undefined)[] => {
  const known = byHeader(columns);
  const taken = new Map<string, string>();
  const meanings = table.headers.map((header, at): ColumnMeaning | undefined => {
    const error = (message: string): undefined => problems.error(file, table.place(-1, at), oneSpace(header), message) as undefined;
    // A column without a name and without a value is the mark at the end of each line.
    if (header === "" && table.rows.every((row) => row[at] === "")) return { kind: "ignored" };
    const found = find(header, known);
    if (!found)
      return error(
        `is a column that labs/${lab}.yaml does not know; add it to resultFile.columns, as ignore if it is not wanted; ${allowedWords(header, Object.keys(columns))}`,
      );
    const { column, brackets, unit } = found;
    if (column === "ignore") return { kind: "ignored" };
    const means =
      column === "label" ? "the label" : column === "report" ? "the report's number" : "date" in column ? dates[column.of] : column.analyte;
    const twin = taken.get(means);
    if (twin !== undefined) return error(`gives ${means}, as "${twin}" does; ignore one of them`);
    taken.set(means, oneSpace(header));
    if (column === "label" || column === "report") return { kind: column };
    if ("date" in column) return { kind: "date", order: column.date, of: column.of };
    if (column.unit === undefined && brackets !== undefined && unit === undefined)
      return error(
        `"${brackets}" is not a unit known here; state the column's unit in labs/${lab}.yaml, such as { analyte: ${column.analyte}, unit: ${yamlUnit(column.analyte)} }`,
      );
    if (column.unit !== undefined && unit !== undefined && column.unit !== unit)
      return error(`gives its unit as ${unit}, and labs/${lab}.yaml says ${column.unit}; one of them is wrong`);
    const { analyte, as } = column;
    const named = as === undefined ? oxideIn(header, analyte) : undefined;
    if (named !== undefined)
      return error(
        `names ${named}, and ${analyte} is the element alone; say { analyte: ${analyte}, as: ${named} } in labs/${lab}.yaml, or as: element where its figures are`,
      );
    return { kind: "analyte", analyte, unit: column.unit ?? unit, oxide: as === "element" ? undefined : as };
  });
  if (!taken.has("the label") && meanings.every((m) => m !== undefined))
    problems.error(file, table.place(-1, 0), "", "has no column for the label, by which a row finds its bag");
  return meanings;
};
