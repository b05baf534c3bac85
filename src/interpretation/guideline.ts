import * as z from "zod";
import { bandsRule } from "./rules/bands.ts";
import { bufferTableRule } from "./rules/bufferTable.ts";
import { buildMaintainRule } from "./rules/buildMaintain.ts";
import { cationSumRule } from "./rules/cationSum.ts";
import { limeQualityRule } from "./rules/limeQuality.ts";
import { removalRule } from "./rules/removal.ts";
import { id, provenance, sourcedNumber } from "./rules/sourced.ts";
import { targetPhRule } from "./rules/targetPh.ts";

/** One rule of a publication, of one of the kinds in `rules/`. */
export const section = z.discriminatedUnion("kind", [
  bandsRule,
  buildMaintainRule,
  targetPhRule,
  bufferTableRule,
  removalRule,
  limeQualityRule,
  cationSumRule,
]);
export type Section = z.infer<typeof section>;
export type SectionKind = Section["kind"];

const year = z.number().int().min(1900).max(2200);

/** What the publication says about taking the sample; shown, not computed with. */
const sampling = z.strictObject({
  statement: z.string(),
  ...provenance,
});

/** A published set of rules as data. The file's name is its id. */
export const guideline = z.strictObject({
  title: z.string().min(1),
  short: z.string().min(1).describe("the name used in sentences, such as Tri-State 2020"),
  publication: id.describe("the publication in references.yaml"),
  edition: year.optional(),
  region: z.string().min(1),
  status: z.enum(["current", "superseded"]),
  supersededBy: z.string().optional(),
  about: z.string().min(1),
  gaps: z.array(z.string()).default([]).describe("what the publication holds that this file does not, and why"),
  sampling: z.array(sampling).default([]),
  intervalYears: sourcedNumber.optional().describe("the longest time between two samplings of a field"),
  sections: z
    .array(section)
    .min(1)
    .refine((all) => new Set(all.map((s) => s.id)).size === all.length, "has two sections with one id"),
});
export type GuidelineRecord = z.infer<typeof guideline>;

export interface Guideline extends GuidelineRecord {
  readonly id: string;
}

/** The sections of one kind, in the pack's order. */
export const sectionsOf = <K extends SectionKind>(pack: Guideline, kind: K): Extract<Section, { kind: K }>[] =>
  pack.sections.filter((s): s is Extract<Section, { kind: K }> => s.kind === kind);
