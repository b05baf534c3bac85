/** A column of a .dbf table. A name has at most ten letters; a number is written with `decimals` places. */
export interface DbfColumn {
  readonly name: string;
  readonly decimals?: number | undefined;
}

export type DbfValue = string | number | undefined;

const encoder = new TextEncoder();
/** A field of characters holds at most 254 bytes, a number at most 19. */
const longestText = 254;
const longestNumber = 19;

/** As many whole characters as fit: a letter of several bytes is never cut in two. */
const fitting = (text: string, bytes: number): Uint8Array => {
  let kept = text;
  while (encoder.encode(kept).length > bytes) kept = Array.from(kept).slice(0, -1).join("");
  return encoder.encode(kept);
};

const written = (value: DbfValue, { name, decimals }: DbfColumn): Uint8Array => {
  if (value === undefined) return new Uint8Array();
  if (decimals === undefined) return fitting(String(value), longestText);
  const digits = typeof value === "number" ? value.toFixed(decimals) : "";
  // A number cut short would be another number.
  if (!/^-?\d+(\.\d+)?$/.test(digits) || digits.length > longestNumber)
    throw new Error(`${name}: ${value} is no number that a .dbf can hold`);
  return encoder.encode(digits);
};

/**
 * A dBASE III table, as beside a shapefile: text in UTF-8 to the left, numbers to the right, blank where a value is not known.
 * Each column is as wide as its longest value, and one of fractions has room for one: a column without a value has been called broken. `date`, `YYYY-MM-DD`, stands in the header as the day of the last change.
 * Throws for a name over ten letters, twice the same name, or a number that does not fit.
 */
export const dbfFile = (columns: readonly DbfColumn[], rows: readonly (readonly DbfValue[])[], date: string): Uint8Array => {
  for (const { name } of columns) if (!/^[A-Z][A-Z0-9_]{0,9}$/.test(name)) throw new Error(`${name} is no name of a .dbf column`);
  if (new Set(columns.map((c) => c.name)).size < columns.length) throw new Error("two .dbf columns have one name");
  const cells = rows.map((row) => columns.map((column, i) => written(row[i], column)));
  const widths = columns.map(({ decimals }, i) => Math.max(decimals ? decimals + 2 : 1, ...cells.map((row) => row[i]!.length)));
  const headerLength = 32 + 32 * columns.length + 1;
  const recordLength = 1 + widths.reduce((sum, w) => sum + w, 0);
  const bytes = new Uint8Array(headerLength + recordLength * rows.length + 1).fill(0x20, headerLength);
  const view = new DataView(bytes.buffer);
  view.setUint8(0, 3);
  view.setUint8(1, Number(date.slice(0, 4)) - 1900);
  view.setUint8(2, Number(date.slice(5, 7)));
  view.setUint8(3, Number(date.slice(8)));
  view.setUint32(4, rows.length, true);
  view.setUint16(8, headerLength, true);
  view.setUint16(10, recordLength, true);
  columns.forEach(({ name, decimals }, i) => {
    const at = 32 + 32 * i;
    bytes.set(encoder.encode(name), at);
    view.setUint8(at + 11, (decimals === undefined ? "C" : "N").charCodeAt(0));
    view.setUint8(at + 16, widths[i]!);
    view.setUint8(at + 17, decimals ?? 0);
  });
  view.setUint8(headerLength - 1, 0x0d);
  cells.forEach((row, r) => {
    // The first byte of a record, left blank, says that it is not deleted.
    let at = headerLength + r * recordLength + 1;
    row.forEach((cell, i) => {
      bytes.set(cell, columns[i]!.decimals === undefined ? at : at + widths[i]! - cell.length);
      at += widths[i]!;
    });
  });
  view.setUint8(bytes.length - 1, 0x1a);
  return bytes;
};
