import { BoundaryError } from "./boundaryError.ts";
import { shapefileLetters } from "./shapefileLetters.ts";

/**
 * Rows of a dBASE table (.dbf) by field name, all as text; `undefined` for one that was deleted. `cpg` is the file beside it that says
 * how letters are written. Throws `BoundaryError` where the table is not whole.
 */
export const shapefileRows = (bytes: Uint8Array, cpg: Uint8Array | undefined): (Record<string, string> | undefined)[] => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 33) throw broken();
  const count = view.getUint32(4, true);
  const begin = view.getUint16(8, true);
  const length = view.getUint16(10, true);
  const words = shapefileLetters(cpg, bytes[29]!);
  const fields: { name: string; from: number; to: number }[] = [];
  // The first byte of a row is a space, or an asterisk once it is deleted.
  let from = 1;
  for (let at = 32; at + 32 <= begin && at + 32 <= bytes.length && bytes[at] !== 0x0d; at += 32) {
    const name = words(bytes.subarray(at, at + 11)).replace(/\0[\s\S]*$/, "");
    const to = from + bytes[at + 16]!;
    fields.push({ name, from, to });
    from = to;
  }
  if (fields.length === 0 || length < from || begin + count * length > bytes.length) throw broken();
  return Array.from({ length: count }, (_, i) => {
    const row = bytes.subarray(begin + i * length, begin + (i + 1) * length);
    if (row[0] === 0x2a) return undefined;
    return Object.fromEntries(fields.map((f) => [f.name, words(row.subarray(f.from, f.to)).replaceAll("\0", "").trim()]));
  });
};

const broken = (): BoundaryError => new BoundaryError("has a table of names (.dbf) that is not whole");
