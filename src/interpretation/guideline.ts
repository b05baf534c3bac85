import * as z from "zod";
import { bandRatesRule } from "./rules/bandRates.ts";
import { acidityMultipleRule } from "./rules/acidityMultiple.ts";
import { acidityTableRule } from "./rules/acidityTable.ts";
import { baseShareRule } from "./rules/baseShare.ts";
import { bandsRule } from "./rules/bands.ts";
import { bufferAcidityRule } from "./rules/bufferAcidity.ts";
import { bufferTableRule } from "./rules/bufferTable.ts";
import { cationSumRule } from "./rules/cationSum.ts";
import { conversionRule } from "./rules/conversion.ts";
import { limeClassRule } from "./rules/limeClass.ts";
import { limeFactorRule } from "./rules/limeFactor.ts";
import { legumeCreditRule } from "./rules/legumeCredit.ts";
import { limeQualityRule } from "./rules/limeQuality.ts";
import { linearYieldRule } from "./rules/linearYield.ts";
import { manureAvailabilityRule } from "./rules/manureAvailability.ts";
import { marginRule } from "./rules/margin.ts";
import { nitrateLinearRule } from "./rules/nitrateLinear.ts";
import { nitrateTableRule } from "./rules/nitrateTable.ts";
import { nitrogenNeedRule } from "./rules/nitrogenNeed.ts";
import { nitrogenSupplyRule } from "./rules/nitrogenSupplyRule.ts";
import { noiseRule } from "./rules/noise.ts";
import { phAluminumRule } from "./rules/phAluminum.ts";
import { profileNitrateRule } from "./rules/profileNitrate.ts";
import { quadraticIndexRule } from "./rules/quadraticIndex.ts";
import { removalRule } from "./rules/removal.ts";
import { samplingSpecRule } from "./rules/samplingSpec.ts";
import { seedRowLimitRule } from "./rules/seedRowLimit.ts";
import { environmentalLimit } from "./rules/environmentalLimit.ts";
import { id, provenance } from "./rules/sourced.ts";
import { starterShareRule } from "./rules/starterShare.ts";
import { targetPhRule } from "./rules/targetPh.ts";
import { yieldLessNitrateRule } from "./rules/yieldLessNitrate.ts";
import { buildMaintainRule } from "./rules/buildMaintainRule.ts";
import { indexOfftakeRule } from "./rules/indexRule.ts";

/** One rule of a publication, of one of the kinds in `rules/`. */
export const section = z.discriminatedUnion("kind", [
  bandsRule,
  buildMaintainRule,
  targetPhRule,
  bufferTableRule,
  bufferAcidityRule,
  acidityMultipleRule,
  acidityTableRule,
  phAluminumRule,
  quadraticIndexRule,
  removalRule,
  limeQualityRule,
  cationSumRule,
  baseShareRule,
  conversionRule,
  bandRatesRule,
  linearYieldRule,
  indexOfftakeRule,
  limeClassRule,
  limeFactorRule,
  starterShareRule,
  seedRowLimitRule,
  nitrateLinearRule,
  nitrateTableRule,
  yieldLessNitrateRule,
  profileNitrateRule,
  nitrogenNeedRule,
  nitrogenSupplyRule,
  legumeCreditRule,
  manureAvailabilityRule,
  noiseRule,
  marginRule,
  samplingSpecRule,
]);
export type Section = z.infer<typeof section>;
export type SectionKind = Section["kind"];

const year = z.number().int().min(1900).max(2200);

/** What else the publication says that a reader must know; shown, not computed with. */
const remark = z.strictObject({
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
  extends: id
    .optional()
    .describe("another guideline whose sections are taken over; a section here with the same id replaces the one there"),
  gaps: z.array(z.string()).default([]).describe("what the publication holds that this file does not, and why"),
  remarks: z.array(remark).default([]),
  environmentalLimits: z.array(environmentalLimit).optional().describe("soil tests above which phosphorus is a risk to water"),
  sections: z
    .array(section)
    .min(1)
    .refine((all) => new Set(all.map((s) => s.id)).size === all.length, "has two sections with one id"),
});
export type GuidelineRecord = z.infer<typeof guideline>;

export interface Guideline extends GuidelineRecord {
  readonly id: string;
  /** Where its sections come from, in a guideline that extends another; its `sections` then hold those taken over too. */
  readonly inherited?: Inherited | undefined;
}

export interface Inherited {
  /** The sections taken over unchanged: section id to the guideline that it stands in. */
  readonly from: ReadonlyMap<string, string>;
  /** The sections that stand here in place of another guideline's. */
  readonly replaced: readonly string[];
}

/** A guideline is asked for the same kinds over and over; its sections are sorted out once. */
const sorted = new WeakMap<Guideline, Map<SectionKind, Section[]>>();

/** The sections of one kind, in the pack's order. */
export const sectionsOf = <K extends SectionKind>(pack: Guideline, kind: K): readonly Extract<Section, { kind: K }>[] => {
  let kinds = sorted.get(pack);
  if (!kinds) {
    sorted.set(pack, (kinds = new Map<SectionKind, Section[]>()));
    for (const s of pack.sections) kinds.set(s.kind, [...(kinds.get(s.kind) ?? []), s]);
  }
  return (kinds.get(kind) ?? none) as readonly Extract<Section, { kind: K }>[];
};

const none: readonly Section[] = [];
