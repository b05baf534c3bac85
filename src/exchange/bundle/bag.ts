/** A file by its path, with forward slashes, relative to the bag. */
export interface BagFile {
  readonly path: string;
  readonly bytes: Uint8Array;
}

/** SHA-512 in lower-case hexadecimal; handed in, because this room knows no cryptography. */
export type Sha512 = (bytes: Uint8Array) => string;

export interface BagLabel {
  /** Whose records these are: `Source-Organization`. */
  readonly farm: string;
  readonly about: string;
  /** The day the site speaks from, `YYYY-MM-DD`: `Bagging-Date`. The clock stays out, or no two bags of one farm would be equal. */
  readonly today: string;
  /** Program and version: `Bag-Software-Agent`. */
  readonly software: string;
  /** README.txt. */
  readonly readme: string;
}

/**
 * The files of a BagIt 1.0 bag (RFC 8493) around a payload, in order of path. Payload paths start with `data/`.
 * The manifests are written as `sha512sum -c` reads them. Throws for a path that a manifest cannot say in one plain line.
 */
export const bag = (payload: readonly BagFile[], label: BagLabel, sha512: Sha512): BagFile[] => {
  for (const { path } of payload)
    if (!path.startsWith("data/") || /[\r\n%\\]/.test(path) || path.split("/").some((part) => part === "" || part === "." || part === ".."))
      throw new Error(`${path} cannot stand in a bag`);
  const octets = payload.reduce((sum, { bytes }) => sum + bytes.length, 0);
  const manifest = (files: readonly BagFile[]): string => files.map(({ path, bytes }) => `${sha512(bytes)}  ${path}\n`).join("");
  const tags = inOrder([
    textFile("bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"),
    textFile(
      "bag-info.txt",
      bagInfo([
        ["Source-Organization", label.farm],
        ["External-Description", label.about],
        ["Bagging-Date", label.today],
        ["Payload-Oxum", `${octets}.${payload.length}`],
        ["Bag-Software-Agent", label.software],
      ]),
    ),
    textFile("README.txt", label.readme),
    textFile("manifest-sha512.txt", manifest(inOrder(payload))),
  ]);
  return inOrder([...payload, ...tags, textFile("tagmanifest-sha512.txt", manifest(tags))]);
};

/** One value of bag-info.txt, or `undefined`: which farm a bag is of, which program made it. */
export const bagInfoValue = (bagInfoText: string, name: string): string | undefined =>
  bagInfoText
    .split("\n")
    .find((line) => line.startsWith(`${name}: `))
    ?.slice(name.length + 2);

/** A value is one line here; RFC 8493 would fold a longer one, which no reader has to. */
export const oneLine = (value: string): string => value.replace(/\s+/g, " ").trim();

export const textFile = (path: string, text: string): BagFile => ({ path, bytes: new TextEncoder().encode(text) });

const bagInfo = (lines: readonly (readonly [string, string])[]): string =>
  lines.map(([name, value]) => `${name}: ${oneLine(value)}\n`).join("");

/** By code unit, the same in every language of the machine. */
const inOrder = (files: readonly BagFile[]): BagFile[] => [...files].sort((a, b) => (a.path < b.path ? -1 : 1));
