import { stringify } from "csv-stringify/sync";

export type Cell = string | number | undefined;

/**
 * CSV text (RFC 4180, CRLF, UTF-8 without BOM) with a header line. A text that a spreadsheet would run as a formula
 * (=1+1) is written with a leading apostrophe; numbers are never touched.
 */
export const toCsv = (columns: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  stringify([columns, ...rows] as Cell[][], { record_delimiter: "\r\n", quoted_match: /[\r\n]/, escape_formulas: true });
