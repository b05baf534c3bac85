import * as z from "zod";
import { id, longText, text, year } from "./primitives.ts";

/** references.yaml: every publication, once. */
export const references = z.record(
  id,
  z.strictObject({
    title: text,
    publisher: text,
    number: text.optional(),
    year: year.optional(),
    edition: text.optional(),
    doi: z
      .string()
      .regex(/^10\.\d{4,}\/\S+$/, "must be a DOI such as 10.1234/abcd")
      .optional(),
    readAt: text.optional().describe("where the text was read, and how much of it"),
    extent: longText.optional(),
  }),
);
export type ReferencesRecord = z.infer<typeof references>;
export type ReferenceRecord = ReferencesRecord[string];
