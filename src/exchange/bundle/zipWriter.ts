import { zipSync } from "fflate";

/**
 * A zip archive of files by name, in the order given. Every entry bears the format's oldest day, so that the same files give
 * the same bytes on any day; the day is one of the local calendar, as the format has it, so that they do in any time zone too.
 */
export const zipped = (files: Readonly<Record<string, Uint8Array>>): Uint8Array =>
  zipSync({ ...files }, { level: 9, mtime: new Date(1980, 0, 1) });

/** Why an archive of so many files and bytes would be broken: as old tools read it, it counts files in 16 bits and bytes in 32. */
export const zipFault = (files: number, bytes: number): string | undefined => {
  if (files > 65_535) return `a ZIP holds at most 65,535 files, and these are ${files}`;
  return bytes >= 2 ** 32 ? `a ZIP holds less than 4 GB, and this one has ${(bytes / 2 ** 30).toFixed(1)} GB` : undefined;
};
