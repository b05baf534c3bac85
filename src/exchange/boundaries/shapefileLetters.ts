/** Code pages by number, where the decoder has another name for them than windows-1250. */
const pages: Readonly<Partial<Record<string, string>>> = {
  866: "ibm866",
  932: "shift_jis",
  936: "gbk",
  949: "euc-kr",
  950: "big5",
  65001: "utf-8",
};

/** By the byte of a table's head that names its code page, as GDAL 3.6 reads it; Western ones, which a table without a page has too, are left out. */
const drivers: Readonly<Partial<Record<number, number>>> = {
  0x26: 866,
  0x65: 866,
  0xc8: 1250,
  0xc9: 1251,
  0xca: 1254,
  0xcb: 1253,
  0xcc: 1257,
  0x50: 874,
  0x7c: 874,
  0x13: 932,
  0x7b: 932,
  0x4d: 936,
  0x7a: 936,
  0x4e: 949,
  0x79: 949,
  0x4f: 950,
  0x78: 950,
};

/**
 * How the letters of a table are read: as the .cpg beside it says; else as UTF-8, which nothing else is by chance; else by the page that the
 * table's head names; else as Western. `driver` is the byte of that head.
 */
export const shapefileLetters = (cpg: Uint8Array | undefined, driver: number): ((bytes: Uint8Array) => string) => {
  const page = drivers[driver];
  const strict = [cpg && decoderNamed(latin.decode(cpg)), decoder("utf-8"), page && decoder(labelOf(String(page)))].filter(
    (d) => d instanceof TextDecoder,
  );
  return (bytes) => {
    for (const each of strict) {
      try {
        return each.decode(bytes);
      } catch {
        // The next one may fit.
      }
    }
    return latin.decode(bytes);
  };
};

const latin = new TextDecoder("windows-1252");

const labelOf = (page: string): string => pages[page] ?? `windows-${page}`;

/** "UTF-8", "ISO-8859-2" and "cp1250" are names of decoders; "1250", "ANSI 1250" and "88592" say it by the number. */
const decoderNamed = (text: string): TextDecoder | undefined => {
  const number = text.replace(/\D/g, "");
  return decoder(text) ?? decoder(labelOf(number)) ?? decoder(`iso${number}`);
};

const decoder = (label: string): TextDecoder | undefined => {
  try {
    return new TextDecoder(label, { fatal: true });
  } catch {
    return undefined;
  }
};
