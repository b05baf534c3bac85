import type { PurposeId } from "../vocabulary.ts";

/** Letters, digits and hyphens: such a label is the same on the bag, in a list, in a spreadsheet and on the laboratory's sheet. */
export const labelStart = /^[A-Za-z0-9][A-Za-z0-9-]{0,19}$/;

const plainId = (id: string): string => id.replaceAll("-", "").toUpperCase();

/** A short code for a field, by its id: its first two letters, or as many as tell it from every other of `ids`. */
export const fieldCode = (id: string, ids: readonly string[]): string => {
  const letters = plainId(id);
  const others = ids.filter((other) => other !== id).map(plainId);
  for (let n = 2; n <= letters.length; n++) {
    const code = letters.slice(0, n);
    if (!others.some((other) => other.startsWith(code))) return code;
  }
  return id.toUpperCase();
};

const purposeMarks: Readonly<Record<PurposeId, string>> = { routine: "", phCheck: "P", nitrate: "N" };

/**
 * The text of one bag's label, such as CA-A-2510-1: field, zone, year and month, and a number; N and P before the number mark
 * a nitrate test and a pH check. The number is the first from 1 that gives a label not in `taken`, to which it is added.
 */
export const bagLabel = (start: string, letter: string, date: string, purpose: PurposeId, taken: Set<string>): string => {
  for (let n = 1; ; n++) {
    const label = `${start}-${letter}-${date.slice(2, 4)}${date.slice(5, 7)}-${purposeMarks[purpose]}${n}`;
    // A laboratory may write it in small letters.
    if (taken.has(label.toUpperCase())) continue;
    taken.add(label.toUpperCase());
    return label;
  }
};
