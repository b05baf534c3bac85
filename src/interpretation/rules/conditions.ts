import * as z from "zod";
import { list } from "../list.ts";
import type { Step } from "../outcome.ts";
import type { SoilClassId, TextureId } from "../vocabulary.ts";
import { crops, cropIds, soilClasses, soilClassIds, strawIds, textureIds, textures } from "../vocabulary.ts";
import { pH, plain } from "../show.ts";
import { classDoubt, organicDoubt, organicMatterDoubt } from "./soilDoubts.ts";
import type { Facts, NumericFact } from "./facts.ts";
import { numericFacts } from "./facts.ts";

/** A range of a fact: `from` and `upTo` include their number, `above` and `below` exclude it. */
export const range = z
  .strictObject({ from: z.number().optional(), above: z.number().optional(), upTo: z.number().optional(), below: z.number().optional() })
  .refine((r) => Object.keys(r).length > 0, "needs from or above, upTo or below, or one of each")
  .refine((r) => r.from === undefined || r.above === undefined, "has both from and above; keep one")
  .refine((r) => r.upTo === undefined || r.below === undefined, "has both upTo and below; keep one")
  .refine((r) => {
    const least = r.from ?? r.above ?? -Infinity;
    const most = r.upTo ?? r.below ?? Infinity;
    return least < most || (least === most && r.from !== undefined && r.upTo !== undefined);
  }, "holds no number: it ends before it begins");

export const when = z.strictObject({
  crops: z.array(z.enum(cropIds)).min(1).optional(),
  rotation: z.array(z.enum(cropIds)).min(1).optional().describe("any of them is grown in turn with the crop"),
  textures: z.array(z.enum(textureIds)).min(1).optional(),
  cec: range.optional(),
  organicMatter: range.optional(),
  subsoilPh: range.optional(),
  soilPh: range.optional(),
  sodium: range.optional(),
  sodiumByVolume: range.optional(),
  calciumSaturation: range.optional(),
  straw: z.enum(strawIds).optional(),
  soilClass: z.enum(soilClassIds).optional(),
});
export type When = z.infer<typeof when>;

export type Match = { readonly matches: true } | { readonly matches: false; readonly missing?: string | undefined };

const inRange = (value: number, r: z.infer<typeof range>): boolean =>
  (r.from === undefined || value >= r.from) &&
  (r.above === undefined || value > r.above) &&
  (r.upTo === undefined || value <= r.upTo) &&
  (r.below === undefined || value < r.below);

/**
 * Does the place meet the condition? A fact the condition asks for and the records lack is named in `missing`,
 * but only when everything that is known fits: a rule for wheat never asks a corn field for its texture.
 * Where texture, organic matter and soil class contradict each other, none of them is known.
 */
export const meets = (condition: When | undefined, facts: Facts): Match => {
  if (!condition) return { matches: true };
  let missing: string | undefined;
  const doubt = organicDoubt(facts);
  if (condition.crops) {
    if (facts.crop === undefined) missing ??= "crop";
    else if (!condition.crops.includes(facts.crop)) return { matches: false };
  }
  // A rotation that is not stated is none: the crop is read by itself.
  if (condition.rotation && !facts.rotation?.some((crop) => condition.rotation!.includes(crop))) return { matches: false };
  if (condition.textures) {
    if (doubt) missing ??= doubt;
    else if (facts.texture === undefined) missing ??= "texture";
    else if (!condition.textures.includes(facts.texture)) return { matches: false };
  }
  if (condition.straw) {
    if (facts.straw === undefined) missing ??= "straw";
    else if (condition.straw !== facts.straw) return { matches: false };
  }
  if (condition.soilClass) {
    if (doubt) missing ??= doubt;
    else if (facts.soilClass === undefined) missing ??= "soilClass";
    else if (condition.soilClass !== facts.soilClass) return { matches: false };
  }
  for (const fact of numericFacts) {
    const limits = condition[fact];
    if (!limits) continue;
    const value = facts[fact];
    if (fact === "organicMatter" && doubt) missing ??= doubt;
    else if (value === undefined) missing ??= fact;
    else if (!inRange(value, limits)) return { matches: false };
  }
  return missing === undefined ? { matches: true } : { matches: false, missing };
};

const factLabels = {
  cec: "CEC",
  organicMatter: "organic matter",
  subsoilPh: "subsoil pH",
  soilPh: "soil pH",
  sodium: "sodium",
  sodiumByVolume: "sodium",
  calciumSaturation: "calcium saturation",
} as const;
const factHeads = {
  cec: "Cation exchange capacity (CEC)",
  organicMatter: "Organic matter",
  subsoilPh: "Subsoil pH",
  soilPh: "Soil pH",
  sodium: "Sodium",
  sodiumByVolume: "Sodium",
  calciumSaturation: "Calcium saturation",
} as const;
const factUnits = {
  cec: " meq/100 g",
  organicMatter: " %",
  subsoilPh: "",
  soilPh: "",
  sodium: " ppm",
  sodiumByVolume: " mg/l",
  calciumSaturation: " %",
} as const;
const isPh = (fact: NumericFact): boolean => fact === "subsoilPh" || fact === "soilPh";

/** "corn or soybean, CEC above 5 meq/100 g" */
export const conditionLabel = (condition: When | undefined): string => {
  if (!condition) return "";
  let label = labels.get(condition);
  if (label === undefined) labels.set(condition, (label = labelOf(condition)));
  return label;
};

/** A rule's condition is asked for its words with every sample. */
const labels = new WeakMap<When, string>();

const labelOf = (condition: When): string => {
  const parts: string[] = [];
  if (condition.crops) parts.push(condition.crops.map((c) => crops[c].label).join(" or "));
  if (condition.rotation) parts.push(`in a rotation with ${condition.rotation.map((c) => crops[c].label).join(" or ")}`);
  if (condition.textures) parts.push(texturesLabel(condition.textures));
  if (condition.straw) parts.push(`straw ${condition.straw}`);
  if (condition.soilClass) parts.push(`${soilClasses[condition.soilClass]} soil`);
  for (const fact of numericFacts) {
    const r = condition[fact];
    if (!r) continue;
    const shown = isPh(fact) ? pH : plain;
    const bounds = [
      r.from !== undefined && `at least ${shown(r.from)}`,
      r.above !== undefined && `above ${shown(r.above)}`,
      r.upTo !== undefined && `up to ${shown(r.upTo)}`,
      r.below !== undefined && `below ${shown(r.below)}`,
    ];
    parts.push(`${factLabels[fact]} ${bounds.filter(Boolean).join(", ")}${factUnits[fact]}`);
  }
  return parts.join(", ");
};

/** "clay loam or clay", and of nearly all of them those that are not among them: "any texture but muck or peat". */
const texturesLabel = (held: readonly TextureId[]): string => {
  const others = textureIds.filter((t) => !held.includes(t));
  return others.length > 0 && others.length < 3
    ? `any texture but ${others.map((t) => textures[t]).join(" or ")}`
    : held.map((t) => textures[t]).join(" or ");
};

/** More crops or textures than these are no part of a sentence: of a longer list only the one that is here is named. */
const mostListed = 3;

/** The words of a condition that a place meets: "winter wheat, clay loam", whatever else it holds for. */
export const metLabel = (condition: When | undefined, { crop, texture }: Facts): string => {
  const crops = crop !== undefined && (condition?.crops?.length ?? 0) > mostListed ? [crop] : condition?.crops;
  const textures = texture !== undefined && (condition?.textures?.length ?? 0) > mostListed ? [texture] : condition?.textures;
  return crops === condition?.crops && textures === condition?.textures
    ? conditionLabel(condition)
    : labelOf({ ...condition, crops, textures });
};

/** What a person must add to the records, in their words. */
export const missingFactLabel = (fact: string): string =>
  ({
    crop: "the crop",
    texture: "the soil texture",
    cec: "the cation exchange capacity",
    organicMatter: "the organic matter",
    subsoilPh: "the subsoil pH",
    soilPh: "the soil pH",
    calciumSaturation: "the calcium saturation",
    sodium: "the soil's sodium",
    sodiumByVolume: "the soil's sodium",
    straw: "what becomes of the straw",
    soilClass: "the soil class",
    [organicMatterDoubt]: "whether the soil is organic or mineral (its texture and organic matter contradict each other)",
    [classDoubt]: "whether the soil is organic or mineral (its texture and class contradict each other)",
  })[fact] ?? fact;

export type Choice<T> = { readonly found: T } | { readonly found?: undefined; readonly missing: string | undefined };

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

/** What a fact is called in a line of the sum. */
export const factLabel = (fact: NumericFact): string => factHeads[fact];

/** A line of the sum for a fact of the place that the rule asks for. */
export const factStep = (fact: NumericFact, facts: Facts): Step => ({
  what: factLabel(fact),
  result: isPh(fact) ? `pH ${pH(facts[fact]!)}` : `${plain(facts[fact]!, 2)}${factUnits[fact]}`,
  source: facts.origins?.[fact],
});

/** A line of the sum for the class of soil. */
const soilClassStep = (soilClass: SoilClassId, facts: Facts): Step => ({
  what: "Soil class",
  result: soilClasses[soilClass],
  source: facts.origins?.soilClass,
});

/** The facts a condition asks for, as lines of the sum. */
export const conditionSteps = (condition: When | undefined, facts: Facts): Step[] => {
  const steps: Step[] = [];
  if (!condition) return steps;
  if (condition.rotation && facts.rotation)
    steps.push({ what: "Rotation", result: list(facts.rotation.map((c) => crops[c].label)), source: facts.origins?.rotation });
  for (const fact of numericFacts) if (condition[fact] && facts[fact] !== undefined) steps.push(factStep(fact, facts));
  if (condition.straw && facts.straw) steps.push({ what: "Straw", result: facts.straw, source: facts.origins?.straw });
  if (condition.soilClass && facts.soilClass) steps.push(soilClassStep(facts.soilClass, facts));
  return steps;
};
