/** What a laboratory's file may be written in. A file with a byte order mark says it itself, and the mark is believed. */
export const resultEncodings = ["utf-8", "windows-1252", "latin-1"] as const;
export type ResultEncoding = (typeof resultEncodings)[number];

/** Something that stops a file from being read: where, line and column from 1, and why, as a clause about the file. */
export interface Fault {
  readonly line: number;
  readonly column: number;
  readonly because: string;
}

export type Text = { readonly text: string } | { readonly fault: Fault };

/** Files of other programs, by how they begin: their bytes say nothing as text. */
const packed: readonly [begins: string, is: string][] = [
  ["PK\u0003\u0004", "a spreadsheet or another packed file"],
  ["\u00d0\u00cf\u0011\u00e0", "a spreadsheet of the old kind"],
  ["%PDF-", "a PDF"],
  ["\u001f\u008b", "a packed file"],
];

/**
 * The text of a result file, lines ended by LF alone. UTF-8 and UTF-16 with a mark are known by it; without one the file
 * is in the encoding that is stated, UTF-8 where none is. Strict: what does not decode, and what no line of text holds, is a fault.
 */
export const resultText = (bytes: Uint8Array, stated: ResultEncoding = "utf-8"): Text => {
  const begins = String.fromCharCode(...bytes.subarray(0, 8));
  const other = packed.find(([sign]) => begins.startsWith(sign));
  if (other) return { fault: { line: 1, column: 1, because: `is ${other[1]}, not text; save it as CSV` } };
  const marked = mark(bytes);
  const read = marked ? decoded(bytes, marked) : stated === "latin-1" ? latin1(bytes) : decoded(bytes, stated);
  if ("fault" in read) return read;
  const text = read.text.replace(/\r\n?/g, "\n");
  const odd = notText.exec(text);
  if (!odd) return { text };
  const code = `U+${odd[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}`;
  return {
    fault: {
      ...placeIn(text, odd.index),
      because: `has a control character (${code}), so it is no text${marked ? "" : ` in ${names[stated]}`}`,
    },
  };
};

const names: Readonly<Record<ResultEncoding | "utf-16le" | "utf-16be", string>> = {
  "utf-8": "UTF-8",
  "windows-1252": "Windows-1252",
  "latin-1": "Latin-1",
  "utf-16le": "UTF-16",
  "utf-16be": "UTF-16",
};

/** Tabs and line ends belong to text; other control characters, and a mark that is not seen, do not. */
const notText = /[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ufeff\ufffe\uffff]/;

const mark = (bytes: Uint8Array): "utf-8" | "utf-16le" | "utf-16be" | undefined => {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return "utf-8";
  if (a === 0xff && b === 0xfe) return "utf-16le";
  return a === 0xfe && b === 0xff ? "utf-16be" : undefined;
};

const decoded = (bytes: Uint8Array, encoding: "utf-8" | "utf-16le" | "utf-16be" | "windows-1252"): Text => {
  try {
    return { text: new TextDecoder(encoding, { fatal: true }).decode(bytes) };
  } catch {
    const good = goodBytes(bytes, encoding);
    const before = new TextDecoder(encoding).decode(bytes.subarray(0, good), { stream: true });
    const hint = encoding === "utf-8" ? "; save it as UTF-8, or state the laboratory's encoding, such as windows-1252" : "";
    return {
      fault: { ...placeIn(before.replace(/\r\n?/g, "\n"), Infinity), because: `is not ${names[encoding]} text from here on${hint}` },
    };
  }
};

/** By the letter of ISO 8859-1: the decoder of that name reads Windows-1252. */
const latin1 = (bytes: Uint8Array): Text => {
  let text = "";
  for (let at = 0; at < bytes.length; at += 8192) text += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return { text };
};

/** How many bytes decode before the first that does not, by halving. */
const goodBytes = (bytes: Uint8Array, encoding: string): number => {
  let good = 0;
  let bad = bytes.length;
  while (bad - good > 1) {
    const middle = (good + bad) >> 1;
    try {
      // `stream` lets a character cut by the end pass.
      new TextDecoder(encoding, { fatal: true }).decode(bytes.subarray(0, middle), { stream: true });
      good = middle;
    } catch {
      bad = middle;
    }
  }
  return good;
};

/** Line and column, from 1, of the character at `offset` of a text whose lines end in LF. */
export const placeIn = (text: string, offset: number): { line: number; column: number } => {
  const before = text.slice(0, offset);
  return { line: before.split("\n").length, column: before.length - before.lastIndexOf("\n") };
};
