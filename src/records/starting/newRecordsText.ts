import { stringify } from "yaml";

/**
 * A file to be made: its path below the farm's folder, the schema its text names, and the text below that line. New records teach as they
 * are read: `# Words` explains, and a `#` right before a key, or before two spaces, makes that line an optional one.
 */
export interface NewFile {
  readonly path: string;
  readonly schema: "farm" | "field" | "lab" | "sampling" | "season";
  readonly text: string;
}

/** A word or a sentence of a person as YAML writes it on one line: in quotes only where it needs them. */
export const scalar = (text: string): string => stringify(text, { lineWidth: 0 }).trimEnd();

/** A label is always quoted: YAML would read 0012 as 12. */
export const quoted = (text: string): string => JSON.stringify(text);
