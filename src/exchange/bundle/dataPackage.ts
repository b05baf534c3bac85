import type { BagFile, Sha512 } from "./bag.ts";
import { columnOf } from "./dataPackageColumns.ts";

export interface PackageLabel {
  /** Lower-case letters, digits and hyphens. */
  readonly name: string;
  readonly title: string;
  readonly description: string;
}

/**
 * A Data Package descriptor (tabular profile) of CSV tables: where each is, its size, its checksum, and a Table Schema with
 * the type, title, meaning and unit of every column in the order of the file. `tables` are CSV files with a header line, their paths
 * relative to the descriptor. A column nobody has described is a plain text. JSON text, the same for the same tables.
 */
export const dataPackage = (tables: readonly BagFile[], { name, title, description }: PackageLabel, sha512: Sha512): string =>
  `${JSON.stringify(
    {
      profile: "tabular-data-package",
      name,
      title,
      description,
      resources: tables.map(({ path, bytes }) => ({
        profile: "tabular-data-resource",
        name: path
          .replace(/^(site\/)?(data\/)?/, "")
          .replace(/\.csv$/, "")
          .replaceAll("/", "-"),
        path,
        format: "csv",
        mediatype: "text/csv",
        encoding: "utf-8",
        bytes: bytes.length,
        hash: `sha512:${sha512(bytes)}`,
        schema: {
          fields: header(bytes).map((column) => ({ name: column, ...(columnOf(column) ?? { type: "string" }) })),
          missingValues: [""],
        },
      })),
    },
    null,
    2,
  )}\n`;

/** The names in a CSV's first line; ours are plain words without quotes or commas. */
export const header = (bytes: Uint8Array): string[] => {
  const end = bytes.indexOf(0x0a);
  return new TextDecoder()
    .decode(end < 0 ? bytes : bytes.subarray(0, end))
    .replace(/\r$/, "")
    .split(",");
};
