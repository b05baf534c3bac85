import * as z from "zod";
import type { Source, Step } from "../outcome.ts";
import type { CropId, TextureId } from "../vocabulary.ts";
import { crops, cropIds, textureIds, textures } from "../vocabulary.ts";
import { pH, plain } from "../show.ts";

/** What a guideline may ask about the place, beside the soil test itself. */
export interface Facts {
  readonly crop?: CropId | undefined;
  readonly texture?: TextureId | undefined;
  readonly cec?: number | undefined;
  readonly organicMatter?: number | undefined;
  readonly subsoilPh?: number | undefined;
  /** Where the record states each of them. */
  readonly origins?: Readonly<Partial<Record<"cec" | "organicMatter" | "subsoilPh" | "yieldGoal", Source>>> | undefined;
}

/** A range of a fact: `above` excludes its number, `upTo` includes it. */
const range = z
  .strictObject({ above: z.number().optional(), upTo: z.number().optional() })
  .refine((r) => r.above !== undefined || r.upTo !== undefined, "needs above, upTo or both");

export const when = z.strictObject({
  crops: z.array(z.enum(cropIds)).min(1).optional(),
  textures: z.array(z.enum(textureIds)).min(1).optional(),
  cec: range.optional(),
  organicMatter: range.optional(),
  subsoilPh: range.optional(),
});
export type When = z.infer<typeof when>;

export type Match = { readonly matches: true } | { readonly matches: false; readonly missing?: string | undefined };

const inRange = (value: number, r: z.infer<typeof range>): boolean =>
  (r.above === undefined || value > r.above) && (r.upTo === undefined || value <= r.upTo);

/**
 * Does the place meet the condition? A fact the condition asks for and the records lack is named in `missing`,
 * but only when everything that is known fits: a rule for wheat never asks a corn field for its texture.
 */
export const meets = (condition: When | undefined, facts: Facts): Match => {
  if (!condition) return { matches: true };
  let missing: string | undefined;
  if (condition.crops) {
    if (facts.crop === undefined) missing ??= "crop";
    else if (!condition.crops.includes(facts.crop)) return { matches: false };
  }
  if (condition.textures) {
    if (facts.texture === undefined) missing ??= "texture";
    else if (!condition.textures.includes(facts.texture)) return { matches: false };
  }
  for (const fact of ["cec", "organicMatter", "subsoilPh"] as const) {
    const limits = condition[fact];
    if (!limits) continue;
    const value = facts[fact];
    if (value === undefined) missing ??= fact;
    else if (!inRange(value, limits)) return { matches: false };
  }
  return missing === undefined ? { matches: true } : { matches: false, missing };
};

const factLabels = { cec: "CEC", organicMatter: "organic matter", subsoilPh: "subsoil pH" } as const;
const factUnits = { cec: " meq/100 g", organicMatter: " %", subsoilPh: "" } as const;

/** "corn or soybean, CEC above 5 meq/100 g" */
export const conditionLabel = (condition: When | undefined): string => {
  if (!condition) return "";
  const parts: string[] = [];
  if (condition.crops) parts.push(condition.crops.map((c) => crops[c].label).join(" or "));
  if (condition.textures) parts.push(condition.textures.map((t) => textures[t]).join(" or "));
  for (const fact of ["cec", "organicMatter", "subsoilPh"] as const) {
    const r = condition[fact];
    if (!r) continue;
    const shown = fact === "subsoilPh" ? pH : plain;
    const bounds = [r.above !== undefined && `above ${shown(r.above)}`, r.upTo !== undefined && `up to ${shown(r.upTo)}`];
    parts.push(`${factLabels[fact]} ${bounds.filter(Boolean).join(", ")}${factUnits[fact]}`);
  }
  return parts.join(", ");
};

/** What a person must add to the records, in their words. */
export const missingFactLabel = (fact: string): string =>
  ({
    crop: "the crop",
    texture: "the soil texture",
    cec: "the cation exchange capacity",
    organicMatter: "the organic matter",
    subsoilPh: "the subsoil pH",
  })[fact] ?? fact;

export type Choice<T> =
  | { readonly found: T }
  | { readonly found?: undefined; readonly missing: string | undefined };

/**
 * The first row whose condition the place meets. When none does, `missing` names the fact that kept a row which fits
 * otherwise from being decided; `undefined` means that no row covers the place.
 */
export const firstMatch = <T extends { when?: When | undefined }>(rows: readonly T[], facts: Facts): Choice<T> => {
  let missing: string | undefined;
  for (const row of rows) {
    const match = meets(row.when, facts);
    if (match.matches) return missing === undefined ? { found: row } : { missing };
    missing ??= match.missing;
  }
  return { missing };
};

/** A line of the sum for a fact of the place that the rule asks for. */
export const factStep = (fact: "cec" | "organicMatter" | "subsoilPh", facts: Facts): Step => ({
  what: factLabels[fact] === "CEC" ? "Cation exchange capacity (CEC)" : `${factLabels[fact][0]!.toUpperCase()}${factLabels[fact].slice(1)}`,
  result: fact === "subsoilPh" ? `pH ${pH(facts[fact]!)}` : `${plain(facts[fact]!, 2)}${factUnits[fact]}`,
  ...(facts.origins?.[fact] && { source: facts.origins[fact] }),
});

/** The facts a condition asks for, as lines of the sum. */
export const conditionSteps = (condition: When | undefined, facts: Facts): Step[] =>
  (["cec", "organicMatter", "subsoilPh"] as const).filter((fact) => condition?.[fact] && facts[fact] !== undefined).map((fact) => factStep(fact, facts));
