import * as z from "zod";
import { named, text, year } from "./primitives.ts";

/** What an owner can keep to himself when he hands his site over. */
export const withheldParts = ["costs", "yields", "notes", "positions", "nitrogen"] as const;
export type WithheldPart = (typeof withheldParts)[number];

const seasons = z
  .strictObject({ from: year.optional(), to: year.optional() })
  .refine((s) => s.from !== undefined || s.to !== undefined, { error: "needs from, to or both; leave it out to show every year" })
  .refine((s) => s.from === undefined || s.to === undefined || s.from <= s.to, { path: ["to"], error: "is before from" });

/** Somebody who reads the site and should not see everything. */
export const audience = z
  .strictObject({
    name: text.describe("who reads it; printed on every page"),
    fields: z.array(named).min(1).optional().describe("the fields shown; absent: every field"),
    tenure: z.enum(["owned", "rented", "managed"]).optional().describe("shows the fields held so, in place of naming them"),
    leaveOut: z.array(z.enum(withheldParts)).describe("[] leaves nothing out of the fields and years shown"),
    seasons: seasons.optional().describe("the first and last year shown; absent: every year"),
  })
  .refine((a) => a.fields === undefined || a.tenure === undefined, {
    path: ["tenure"],
    error: "chooses fields, and so does fields; keep one",
  });
export type AudienceRecord = z.infer<typeof audience>;
