import { zipSync } from "fflate";

/**
 * A zip archive of files by name, in the order given. Every entry bears the format's oldest day, so that the same files give
 * the same bytes on any day; the day is one of the local calendar, as the format has it, so that they do in any time zone too.
 */
export const zipped = (files: Readonly<Record<string, Uint8Array>>): Uint8Array =>
  zipSync({ ...files }, { level: 9, mtime: new Date(1980, 0, 1) });
