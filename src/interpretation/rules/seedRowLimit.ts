import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { UnitChoice } from "../unitChoices.ts";
import { unitChoices } from "../unitChoices.ts";
import { convert } from "../units.ts";
import type { TextureId } from "../vocabulary.ts";
import { cropIds, crops, textureIds, textures } from "../vocabulary.ts";
import { missingFactLabel } from "./conditions.ts";
import { graded, provenance } from "./sourced.ts";
import type { Facts } from "./facts.ts";

/** How much salt, as pounds of N and K2O together, may touch the seed, by the distance between rows and the soil. */
export const seedRowLimitRule = z
  .strictObject({
    kind: z.literal("seedRowLimit"),
    id: z.string(),
    crops: z.array(z.enum(cropIds)).min(1),
    soils: z.array(z.strictObject({ name: z.string(), textures: z.array(z.enum(textureIds)).min(1) })).min(1),
    rows: z
      .array(z.array(z.number().positive()).min(2))
      .min(1)
      .describe("inches between rows, then lb N + K2O an acre for each soil in order; from wide to narrow"),
    ...provenance,
  })
  .check(graded)
  .check(({ value, issues }) => {
    value.rows.forEach((row, i) => {
      const refuse = (message: string): void => void issues.push({ code: "custom", input: row, path: ["rows", i], message });
      if (row.length !== value.soils.length + 1)
        refuse(`has ${row.length} numbers; must have the row spacing and ${value.soils.length} limits`);
      else if (i > 0 && row[0]! >= value.rows[i - 1]![0]!) refuse("must be of narrower rows than the one before");
    });
  });
export type SeedRowLimitRule = z.infer<typeof seedRowLimitRule>;

export interface SeedRow {
  /** Inches. */
  readonly spacing: number;
  /** lb/ac in contact with the seed. */
  readonly nitrogen: number;
  readonly potash: number;
  /** Urea, or a solution that holds it, is never to touch the seed. */
  readonly holdsUrea: boolean;
}

export interface SeedRowVerdict {
  /** lb N + K2O an acre. */
  readonly limit: number;
  readonly salt: number;
  readonly safe: boolean;
}

const soilOf = (rule: SeedRowLimitRule, texture: TextureId): number => rule.soils.findIndex((s) => s.textures.includes(texture));

/**
 * Is a fertilizer that touches the seed within the printed limit? lb N + K2O an acre.
 * Between two printed row spacings the wider one's limit holds, which is the lower: fewer feet of row share the salt.
 * Below the narrowest printed spacing its own limit holds. Urea is never safe. No answer for a crop or a soil the table
 * lacks, for rows wider than any printed, or where the texture is not known. The lines of the sum are in `units`.
 */
export const checkSeedRow = (
  rule: SeedRowLimitRule,
  row: SeedRow,
  facts: Facts,
  pack: string,
  units: UnitChoice = "us",
): Outcome<SeedRowVerdict> => {
  if (facts.crop === undefined) return noAnswer("no crop is planned", ["crop"]);
  if (!rule.crops.includes(facts.crop))
    return noAnswer(`${pack} gives no seed-row limit for ${crops[facts.crop].label}`, [`a guideline for ${crops[facts.crop].label}`]);
  if (facts.texture === undefined)
    return noAnswer(`${missingFactLabel("texture")} is not known, and ${pack} sets the limit by it`, ["texture"]);
  const soil = soilOf(rule, facts.texture);
  if (soil < 0) return noAnswer(`${pack} gives no seed-row limit for ${textures[facts.texture]}`, ["a guideline for this soil"]);
  const wide = rule.rows.findLast((r) => r[0]! >= row.spacing - 1e-9);
  if (!wide)
    return noAnswer(
      `the rows are ${plain(convert(row.spacing, "in", unitChoices[units].length), 1)} ${unitChoices[units].length} apart and ${pack} prints no limit for rows wider than ${plain(convert(rule.rows[0]![0]!, "in", unitChoices[units].length), 1)} ${unitChoices[units].length}`,
      ["a limit for this row spacing"],
    );
  const limit = wide[soil + 1]!;
  const salt = row.nitrogen + row.potash;
  const from = { source: rule.source, evidence: rule.evidence };
  const { rate: unit, length } = unitChoices[units];
  const said = (pounds: number, decimals = 1): string => `${plain(convert(pounds, "lb/ac", unit), decimals)} ${unit}`;
  const added = (pounds: number): string => plain(convert(pounds, "lb/ac", unit), 1);
  const apart = plain(convert(wide[0]!, "in", length), 0);
  const steps: Step[] = [
    {
      what: `Most N and K₂O that may touch the seed in ${apart} ${length} rows, ${rule.soils[soil]!.name}`,
      result: said(limit),
      ...from,
      note: rule.note,
    },
    { what: "N and K₂O with the seed", expression: `${added(row.nitrogen)} + ${added(row.potash)}`, result: said(salt) },
  ];
  if (row.holdsUrea) steps.push({ what: "The product holds urea, which must not touch the seed", result: "not with the seed", ...from });
  return answer({ limit, salt, safe: salt <= limit + 1e-9 && !row.holdsUrea }, steps);
};
