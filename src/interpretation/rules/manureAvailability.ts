import * as z from "zod";
import type { Outcome, Source, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { ManureSpeciesId } from "../vocabulary.ts";
import { manureSpecies, manureSpeciesIds } from "../vocabulary.ts";
import { graded, provenance } from "./sourced.ts";

const row = z.strictObject({
  species: z.enum(manureSpeciesIds),
  below: z
    .array(z.number().min(0).max(100))
    .min(1)
    .describe("percent, from the year of spreading on, under the dry matter that divides the table"),
  from: z.array(z.number().min(0).max(100)).min(1).describe("percent, at and above it"),
});

/** The share of a manure's organic nitrogen that crops can use in the year of spreading and in the years after. */
export const manureAvailabilityRule = z
  .strictObject({
    kind: z.literal("manureAvailability"),
    id: z.string(),
    dryMatter: z.number().positive().max(100).describe("percent; divides the table"),
    rows: z.array(row).min(1),
    ...provenance,
  })
  .check(graded);
export type ManureAvailabilityRule = z.infer<typeof manureAvailabilityRule>;

export interface ManureSpread {
  readonly name: string;
  /** 0: for this crop, 1: for the crop of the year before, and so on. */
  readonly yearsAgo: number;
  readonly tonsPerAcre: number;
  /** The rate as it was recorded, where the analysis is metric and the tons are the rule's own. */
  readonly spread?: string | undefined;
  /** lb per ton. */
  readonly organicNitrogen: number | undefined;
  /** All of its nitrogen, lb per ton. */
  readonly nitrogen?: number | undefined;
  /** How that was worked out, where the analysis is by another measure. */
  readonly organicBy?: string | undefined;
  readonly species: ManureSpeciesId | undefined;
  /** Percent. */
  readonly dryMatter: number | undefined;
  readonly source?: Source | undefined;
}

/**
 * Nitrogen, lb/ac, that organic nitrogen of manure releases to this year's crop: tons/ac x lb/ton of organic nitrogen x
 * the percent of its year, summed over the years that the table covers. Manure older than that releases nothing the table
 * counts. Ammonium nitrogen is not counted. No answer where nothing was spread in those years, for a species the table
 * lacks, or where the analysis that decides is not recorded. A manure at the dividing dry matter is
 * read in the column from it on.
 */
export const nitrogenOfManure = (rule: ManureAvailabilityRule, spread: readonly ManureSpread[], pack: string): Outcome<number> => {
  const years = Math.max(...rule.rows.map((r) => Math.max(r.below.length, r.from.length)));
  const counted = spread.filter((s) => s.yearsAgo < years);
  if (counted.length === 0) return noAnswer("no manure was spread in the years that count", []);
  const steps: Step[] = [];
  const parts: number[] = [];
  for (const s of counted) {
    if (s.organicNitrogen === undefined) return noAnswer(`the organic nitrogen of ${s.name} is not recorded`, ["organicNitrogen"]);
    if (s.species === undefined) return noAnswer(`the animal that ${s.name} is from is not recorded`, ["species"]);
    const line = rule.rows.find((r) => r.species === s.species);
    if (!line)
      return noAnswer(`${pack} gives no release for manure of ${manureSpecies[s.species]}`, [
        `a release for manure of ${manureSpecies[s.species]}`,
      ]);
    const alike = line.below[s.yearsAgo] === line.from[s.yearsAgo];
    if (s.dryMatter === undefined && !alike)
      return noAnswer(`the dry matter of ${s.name} is not recorded, and ${pack} sets the release by it`, ["dryMatter"]);
    const column = s.dryMatter !== undefined && s.dryMatter < rule.dryMatter ? line.below : line.from;
    const percent = column[s.yearsAgo];
    if (percent === undefined) continue;
    const value = (s.tonsPerAcre * s.organicNitrogen * percent) / 100;
    parts.push(value);
    const when = s.yearsAgo === 0 ? "this year" : s.yearsAgo === 1 ? "last year" : `${plain(s.yearsAgo)} years ago`;
    if (s.spread !== undefined)
      steps.push({ what: `${s.name}, spread at ${s.spread}`, result: `${plain(s.tonsPerAcre, 2)} ton/ac, as ${pack} reads it` });
    steps.push({
      what: `Organic nitrogen of ${s.name}`,
      ...(s.organicBy && { expression: s.organicBy }),
      result: `${plain(s.organicNitrogen, 2)} lb per ton`,
      ...(s.source && { source: s.source }),
    });
    steps.push({
      what: `Spread ${when}, ${manureSpecies[s.species]}: released to this crop`,
      expression: `${plain(s.tonsPerAcre, 2)} × ${plain(s.organicNitrogen, 2)} × ${plain(percent)} ÷ 100`,
      result: `${plain(value, 2)} lb N/ac`,
      source: rule.source,
      evidence: rule.evidence,
      note: rule.note,
    });
  }
  const value = parts.reduce((sum, part) => sum + part, 0);
  if (parts.length > 1)
    steps.push({ what: "From all of it", expression: parts.map((p) => plain(p, 2)).join(" + "), result: `${plain(value, 1)} lb N/ac` });
  return answer(value, steps, [
    "Ammonium nitrogen of the manure is not in this figure: the release that was read covers organic nitrogen only.",
  ]);
};
