import { codePoint } from "./codePoint.ts";
import { placeAt } from "./place.ts";
import type { Problems } from "./problem.ts";

/** Decode UTF-8 strictly, so that a file in another encoding is refused and not half-read. A byte order mark is passed over. */
export const decode = (bytes: Uint8Array, file: string, problems: Problems): string | undefined => {
  let text: string;
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    const line = bytes.subarray(0, firstBadByte(bytes)).reduce((n, b) => n + (b === 10 ? 1 : 0), 1);
    problems.error(file, { line, column: 1 }, "", "is not UTF-8 text; save it as UTF-8");
    return undefined;
  }
  const conflict = conflictMark.exec(text);
  if (conflict) {
    problems.error(file, placeAt(text, conflict.index), "", conflictWords);
    return undefined;
  }
  const odd = notText.exec(text);
  if (!odd) return text;
  problems.error(file, placeAt(text, odd.index), "", oddWords(odd[0].charCodeAt(0)));
  return undefined;
};

/**
 * What YAML's own character set leaves out, a mark that is not seen and begins no file, marks that turn the direction of writing, so
 * that a page would show another text than the record holds, and a carriage return that ends no line.
 */
const notText = /[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff]|\r(?!\n)/;

/** What git leaves in a file of which two people changed the same lines. */
const conflictMark = /^(?:<{7}|>{7})/m;
const conflictWords =
  "is between two versions that git could not merge: keep one of the two, and take the lines with <<<<<<<, ======= and >>>>>>> out";

const oddWords = (code: number): string => {
  if (code === 13) return "has a carriage return without a line feed; save it with LF or CRLF line ends";
  if (code >= 0x202a && code <= 0x2069) return `has a mark that turns the direction of writing (${codePoint(code)}); leave it out`;
  return `has a control character (${codePoint(code)}), so it is not plain text; save it as UTF-8`;
};

/** The longest prefix that decodes, by halving. */
const firstBadByte = (bytes: Uint8Array): number => {
  let good = 0;
  let bad = bytes.length;
  const decodes = (end: number): boolean => {
    try {
      // `stream` lets a character cut by `end` pass.
      new TextDecoder("utf-8", { fatal: true }).decode(bytes.subarray(0, end), { stream: true });
      return true;
    } catch {
      return false;
    }
  };
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    if (decodes(middle)) good = middle;
    else bad = middle;
  }
  return good;
};
