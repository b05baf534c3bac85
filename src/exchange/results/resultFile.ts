import { CsvError, parse } from "csv-parse/sync";
import type { Fault } from "./resultFileText.ts";
import { placeIn } from "./resultFileText.ts";

export const delimiters = { comma: ",", semicolon: ";", tab: "\t" } as const;
export type DelimiterName = keyof typeof delimiters;

export interface Shape {
  /** Absent: the one that parts the headers so that most of them are known. */
  readonly delimiter?: DelimiterName | undefined;
  /** The line, from 1, on which the headers stand; lines above it are passed over. */
  readonly headerLine: number;
  /** `rows`: each bag is a row below its headers. `columns`: each bag is a column beside them. */
  readonly bags: "rows" | "columns";
  readonly knows: (header: string) => boolean;
}

/** A result file as a table with a bag in each row, whichever way it was written. All texts are trimmed. */
export interface ResultTable {
  readonly headers: readonly string[];
  /** As many texts as there are headers. */
  readonly rows: readonly (readonly string[])[];
  /** Where a header (row -1), or a text of a row, stands in the file: line and column from 1. */
  readonly place: (row: number, column: number) => { line: number; column: number };
}

export type ReadTable = { readonly table: ResultTable } | { readonly faults: readonly Fault[] };

/** More is no sheet of soil tests; it keeps a hostile file from filling the memory. */
const most = { rows: 20_000, rowsWords: "20,000", columns: 1_000, columnsWords: "1,000", row: 200_000, rowWords: "200,000" } as const;

/** Read text whose lines end in LF. Quotes, doubled quotes and line ends within quotes follow RFC 4180; spaces around a text do not count. */
export const resultTable = (text: string, shape: Shape): ReadTable => {
  const skipped = startOfLine(text, shape.headerLine);
  if (skipped === undefined || text.slice(skipped).trim() === "")
    return fault(1, 1, shape.headerLine === 1 ? "is empty" : `ends before line ${shape.headerLine}, where its headers should stand`);
  const body = text.slice(skipped);
  const chosen = shape.delimiter === undefined ? detect(body, shape) : delimiters[shape.delimiter];
  if (chosen === undefined)
    return fault(
      shape.headerLine,
      1,
      "has no header that is known, whether comma, semicolon or tab parts them; check headerLine, delimiter and columns of the laboratory's resultFile",
    );
  const read = records(body, chosen);
  const placed = (record: Raw, cell: number): { line: number; column: number } => {
    const at = placeIn(record.raw, cellStart(record.raw, cell, chosen));
    return { line: at.line + record.line + shape.headerLine - 2, column: at.column };
  };
  if ("failed" in read) return { faults: [{ ...placed(read.failed, read.cell), because: read.because }] };
  if (read.records.length > most.rows) return fault(placed(read.records[most.rows]!, 0).line, 1, `has more than ${most.rowsWords} rows`);
  const filled = read.records.filter((r) => r.cells.some((cell) => cell !== ""));
  if (filled.length === 0) return fault(shape.headerLine, 1, "holds no value, only what parts them");
  const width = filled[0]!.cells.length;
  if (shape.bags === "rows" && width > most.columns) return fault(shape.headerLine, 1, `has more than ${most.columnsWords} columns`);
  // A row that is too long even by an empty value is refused: a decimal comma out of quotes moves all that follows by one column.
  const uneven = filled.filter((r) => r.cells.length !== width);
  if (uneven.length > 0)
    return {
      faults: uneven.map((r) => ({
        ...placed(r, Math.min(r.cells.length, width) - 1),
        because: `has ${r.cells.length} values in this row and ${width} in its first one`,
      })),
    };
  return { table: shape.bags === "rows" ? asRows(filled, placed) : asColumns(filled, width, placed) };
};

const fault = (line: number, column: number, because: string): { faults: Fault[] } => ({ faults: [{ line, column, because }] });

interface Raw {
  readonly cells: readonly string[];
  /** The row as it stands in the file, and the line, from 1 below the passed-over ones, on which it begins. */
  readonly raw: string;
  readonly line: number;
}

type Place = (record: Raw, cell: number) => { line: number; column: number };

const asRows = ([head, ...rest]: readonly Raw[], placed: Place): ResultTable => ({
  headers: head!.cells,
  rows: rest.map((r) => r.cells),
  place: (row, column) => placed(row < 0 ? head! : rest[row]!, column),
});

const asColumns = (lines: readonly Raw[], width: number, placed: Place): ResultTable => ({
  headers: lines.map((r) => r.cells[0]!),
  rows: Array.from({ length: width - 1 }, (_, bag) => lines.map((r) => r.cells[bag + 1]!)),
  place: (row, column) => placed(lines[column]!, row + 1),
});

const startOfLine = (text: string, line: number): number | undefined => {
  let at = 0;
  for (let n = 1; n < line; n++) {
    at = text.indexOf("\n", at) + 1;
    if (at === 0) return undefined;
  }
  return at;
};

/** The delimiter by which most headers are known; the first of equals. */
const detect = (body: string, { bags, knows }: Shape): string | undefined => {
  const known = Object.values(delimiters).map((delimiter) => {
    const read = records(body, delimiter, bags === "rows" ? 1 : undefined);
    if ("failed" in read) return { delimiter, count: 0 };
    const headers =
      bags === "rows" ? (read.records[0]?.cells ?? []) : read.records.flatMap((r) => (r.cells.length > 1 ? r.cells.slice(0, 1) : []));
    return { delimiter, count: headers.filter(knows).length };
  });
  const best = Math.max(...known.map((k) => k.count));
  return best === 0 ? undefined : known.find((k) => k.count === best)?.delimiter;
};

type Records = { readonly records: readonly Raw[] } | { readonly failed: Raw; readonly cell: number; readonly because: string };

/** At most `only` records, where it is given. An empty line is a record of one empty text, so that all records together are the whole text. */
const records = (body: string, delimiter: string, only?: number): Records => {
  // A row beyond the limit is read, to be noticed.
  const options = {
    delimiter,
    record_delimiter: "\n",
    relax_column_count: true,
    raw: true,
    trim: true,
    max_record_size: most.row,
  } as const;
  try {
    return { records: withLines(parse(body, { ...options, to: only ?? most.rows + 1 }) as unknown as Parsed[]) };
  } catch (cause) {
    if (!(cause instanceof CsvError)) throw cause;
    const { records: whole, index } = cause as CsvError & { records: number; index: number };
    const before = whole > 0 ? (parse(body, { ...options, to: whole }) as unknown as Parsed[]).map((r) => r.raw).join("") : "";
    const failed = { cells: [], raw: body.slice(before.length, before.length + most.row), line: before.split("\n").length };
    return { failed, cell: index, because: words[cause.code] ?? `cannot be parted into columns (${cause.code})` };
  }
};

type Parsed = { readonly record: readonly string[]; readonly raw: string };

const withLines = (parsed: readonly Parsed[]): Raw[] => {
  let line = 1;
  return parsed.map(({ record, raw }) => {
    const begins = line;
    for (let at = raw.indexOf("\n"); at >= 0; at = raw.indexOf("\n", at + 1)) line += 1;
    return { cells: record.map((cell) => cell.trim()), raw, line: begins };
  });
};

const words: Readonly<Partial<Record<string, string>>> = {
  CSV_QUOTE_NOT_CLOSED: "has a quotation mark that is never closed, from this value on",
  CSV_INVALID_CLOSING_QUOTE: "has text after the closing quotation mark of this value; a mark within quotes is doubled",
  INVALID_OPENING_QUOTE: "has a quotation mark within this value; put the whole value in quotes and double the mark",
  CSV_MAX_RECORD_SIZE: `has a row longer than ${most.rowWords} characters; is a quotation mark missing?`,
};

/** Where the text of a cell begins in its row, quotation mark included. */
const cellStart = (raw: string, cell: number, delimiter: string): number => {
  let at = 0;
  const afterSpaces = (): number => {
    let to = at;
    while (/[ \t]/.test(raw.charAt(to)) && raw.charAt(to) !== delimiter) to += 1;
    return to;
  };
  for (let n = 0; n < cell; n++) {
    const begins = afterSpaces();
    if (raw.charAt(begins) === '"') {
      at = begins + 1;
      for (;;) {
        const mark = raw.indexOf('"', at);
        if (mark < 0) return begins;
        at = mark + 1;
        if (raw.charAt(at) !== '"') break;
        at += 1;
      }
    }
    const next = raw.indexOf(delimiter, at);
    if (next < 0) return afterSpaces();
    at = next + 1;
  }
  return afterSpaces();
};
