export type Cell = string | number | undefined;

/** How a spreadsheet knows a formula; the full-width signs count for some. */
const formula = /^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/;
const needsQuotes = /[",\r\n]/;

const cellText = (cell: Cell): string => {
  if (typeof cell !== "string") return cell === undefined ? "" : String(cell);
  const text = formula.test(cell) ? `'${cell}` : cell;
  return needsQuotes.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

/**
 * CSV text (RFC 4180, CRLF, UTF-8 without BOM) with a header line. A text that a spreadsheet would run as a formula
 * (=1+1) is written with a leading apostrophe; numbers are never touched.
 */
export const toCsv = (columns: readonly string[], rows: readonly (readonly Cell[])[]): string => [columns, ...rows].map((row) => `${row.map(cellText).join(",")}\r\n`).join("");
