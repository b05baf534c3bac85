import { hash } from "node:crypto";

/** A fingerprint of records, by the bytes of their files, that anybody can work out again with the tools of any Unix. */
export interface RecordsPrint {
  /** In lower-case hexadecimal. */
  readonly sha256: string;
  readonly files: number;
  /** Works it out again; to be run in the folder that holds farm.yaml. */
  readonly command: string;
}

/**
 * The SHA-256 of a list of SHA-256 sums, as `sha256sum` prints it, of the records among `hashes` (path to sum) that are `below` one of
 * these names, in order of their paths' bytes. A record's file name begins with a small letter or a digit; what is hidden or meant for
 * people alone is not read, and the command passes it over too.
 */
export const recordsPrint = (hashes: ReadonlyMap<string, string>, below: readonly string[]): RecordsPrint => {
  const paths = [...hashes.keys()].filter((path) => below.some((name) => path === name || path.startsWith(`${name}/`))).sort();
  const listed = paths.map((path) => `${hashes.get(path)!}  ${path}\n`).join("");
  const held = below.filter((name) => paths.some((path) => path === name || path.startsWith(`${name}/`)));
  return {
    sha256: hash("sha256", listed, "hex"),
    files: paths.length,
    command: `find ${held.join(" ")} -name '[a-z0-9]*.yaml' -o -name zones.geojson | LC_ALL=C sort | xargs sha256sum | sha256sum`,
  };
};
