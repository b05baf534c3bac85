import { inflateSync } from "node:zlib";

/** What a test asks of a PDF as Chromium writes it: uncompressed objects, compressed streams, glyphs with a table to Unicode. */
export interface ReadPdf {
  /** Each sheet's size in points, width and height. */
  readonly sheets: readonly [number, number][];
  /** Marked for screen readers: a tree of structure, and the mark that it holds. */
  readonly tagged: boolean;
  /** The headings of its outline. */
  readonly outline: number;
  /** How much smaller than on the screen its pages are drawn, where a table is wider than the sheet: 1, or the least below it. */
  readonly scale: number;
  /** Of each sheet, what is written in one go, in the order drawn: words of one line in one type. */
  readonly runs: readonly (readonly string[])[];
  /** What is written beside the drawing: title, outline, names of the structure, alternative texts, addresses of links. */
  readonly strings: readonly string[];
  /** The whole file, letter by byte, with every compressed stream after it as it reads. */
  readonly everything: string;
  /** All text in the order drawn, without white space. */
  readonly text: string;
}

export const readPdf = (bytes: Buffer): ReadPdf => {
  const file = bytes.toString("latin1");
  const objects = new Map([...file.matchAll(/(?:^|\n)(\d+) 0 obj\n([^]*?)\nendobj/g)].map(([, id, body]) => [id!, body!]));
  const stream = (id: string): string => {
    const body = objects.get(id)!;
    const held = Buffer.from(body.slice(body.indexOf("stream\n") + 7, body.lastIndexOf("\nendstream")), "latin1");
    return (body.includes("/FlateDecode") ? inflateSync(held) : held).toString("latin1");
  };
  const pages = [...objects.values()].filter((body) => /\/Type \/Page\n/.test(body));
  const contentOf = (page: string): string => stream(/\/Contents (\d+) 0 R/.exec(page)![1]!);
  const tables = new Map<string, Map<string, string>>();
  const runsOf = (page: string): string[] => {
    const fonts = new Map([...(/\/Font <<([^>]*)>>/.exec(page)?.[1] ?? "").matchAll(/\/(F\d+) (\d+) 0 R/g)].map(([, name, id]) => [name!, id!]));
    let glyphs = new Map<string, string>();
    let code = /.{4}/g;
    const runs: string[] = [];
    for (const [mark, font, hex] of contentOf(page).matchAll(/\bBT\n|\/(F\d+) [\d.]+ Tf|<([\dA-F]+)>(?=[^<>]*T[jJ])/g)) {
      if (mark === "BT\n") runs.push("");
      else if (font !== undefined) {
        const held = objects.get(fonts.get(font)!)!;
        const table = /\/ToUnicode (\d+) 0 R/.exec(held)![1]!;
        // A font of drawn glyphs names each by one byte, any other by two.
        code = held.includes("/Subtype /Type3") ? /.{2}/g : /.{4}/g;
        glyphs = tables.get(table) ?? toUnicode(stream(table));
        tables.set(table, glyphs);
      } else for (const glyph of hex!.match(code)!) runs.push(`${runs.pop() ?? ""}${glyphs.get(glyph) ?? "\ufffd"}`);
    }
    return runs;
  };
  const runs = pages.map(runsOf);
  return {
    sheets: pages.map((page) => {
      const [, width, height] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(page)!;
      return [Number(width), Number(height)];
    }),
    tagged: file.includes("/StructTreeRoot") && /\/MarkInfo\s*<<[^>]*\/Marked true/.test(file),
    outline: [...file.matchAll(/\/Title [(<]/g)].length - 1,
    // Chromium draws in 1/300 in: 3.125 of those to a dot of the screen, when nothing is shrunk.
    scale: Math.min(...pages.map((page) => Number(/W\* n\nq\n([\d.]+) 0 0 /.exec(contentOf(page))![1]) / 3.125)),
    runs,
    strings: [...objects.values()].flatMap(stringsOf),
    everything: [file, ...[...objects].filter(([, body]) => body.includes("stream\n")).map(([id]) => stream(id))].join("\n"),
    text: runs.flat().join("").replace(/\s+/g, ""),
  };
};

/** The strings of an object without its stream: in round brackets with escapes, or as hexadecimal bytes; UTF-16 after its mark. */
const stringsOf = (body: string): string[] => {
  const [head] = body.split(">> stream\n");
  const bytes = [...head!.matchAll(/\(((?:\\[^]|[^\\()])*)\)|<([\dA-Fa-f]+)>/g)].map(([, literal, hex]) =>
    hex !== undefined ? Buffer.from(hex, "hex").toString("latin1") : literal!.replace(/\\([0-7]{3})/g, (_, octal: string) => String.fromCharCode(parseInt(octal, 8))).replace(/\\(.)/g, "$1"),
  );
  return bytes.map((text) => (text.startsWith("\u00fe\u00ff") ? Buffer.from(text.slice(2), "latin1").swap16().toString("utf16le") : text));
};

const toUnicode = (cmap: string): Map<string, string> => {
  const glyphs = new Map<string, string>();
  const letters = (hex: string): string => String.fromCharCode(...hex.match(/.{4}/g)!.map((unit) => parseInt(unit, 16)));
  for (const [, lines] of cmap.matchAll(/beginbfchar\n([^]*?)endbfchar/g))
    for (const [, glyph, to] of lines!.matchAll(/<(\w+)> <(\w+)>/g)) glyphs.set(glyph!, letters(to!));
  for (const [, lines] of cmap.matchAll(/beginbfrange\n([^]*?)endbfrange/g))
    for (const [, first, last, to] of lines!.matchAll(/<(\w+)> <(\w+)> <(\w{4})>/g))
      for (let i = 0; parseInt(first!, 16) + i <= parseInt(last!, 16); i++)
        glyphs.set((parseInt(first!, 16) + i).toString(16).toUpperCase().padStart(first!.length, "0"), String.fromCharCode(parseInt(to!, 16) + i));
  return glyphs;
};
