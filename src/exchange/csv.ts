import { stringify } from "csv-stringify/sync";

export type Cell = string | number | undefined;

/** Written as it stands: nothing to quote in it, and no spreadsheet would run it. Nearly every cell is such a one, and the library takes its time. */
const plainCell = (cell: Cell): boolean => typeof cell !== "string" || /^(?![=+\-@\t\uFF1D\uFF0B\uFF0D\uFF20])[^",\r\n]*$/.test(cell);

/**
 * CSV text (RFC 4180, CRLF, UTF-8 without BOM) with a header line. A text that a spreadsheet would run as a formula
 * (=1+1) is written with a leading apostrophe; numbers are never touched.
 */
export const toCsv = (columns: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  [columns, ...rows]
    .map((row) =>
      row.length > 1 && row.every(plainCell)
        ? `${row.join(",")}\r\n`
        : stringify([row as Cell[]], { record_delimiter: "\r\n", quoted_match: /[\r\n]/, escape_formulas: true }),
    )
    .join("");
