import type { SoilCategoryId, TextureId } from "../vocabulary.ts";
import { soilCategories, textures } from "../vocabulary.ts";
import type { Facts } from "./facts.ts";

/**
 * Organic matter, percent, that cannot be squared with a texture: muck or peat holds a fifth or more, and a soil that holds a
 * third is called by no mineral texture (common practice; between the two both are heard).
 */
export const muckFrom = 20;
const mineralBelow = 33;

/** What a record must state anew where two facts about the organic part of a soil contradict each other. */
export const classDoubt = "texture and soilClass that agree";
export const organicMatterDoubt = "texture and organicMatter that agree";

/** The doubt where texture, organic matter and soil class say both that the soil is organic and that it is mineral: then none of them is known. */
export const organicDoubt = ({ texture, organicMatter, soilClass }: Facts): string | undefined => {
  if (texture === undefined) return undefined;
  const muck = texture === "muck";
  if (muck && soilClass === "mineral") return classDoubt;
  return organicMatter !== undefined && (muck ? organicMatter < muckFrom : organicMatter >= mineralBelow) ? organicMatterDoubt : undefined;
};

/** Soil pH in water above which free lime is to be expected: common practice, and where Minnesota reads Olsen in place of Bray P1 (its glossary). */
export const freeLimeAbove = 7.4;

/**
 * Is the soil organic? Muck or peat, an organic class, or more than a fifth organic matter (E-2567, 1995, draws the line
 * there). `undefined`: nothing that would tell is recorded, or what is contradicts itself.
 */
export const isOrganic = (facts: Facts): boolean | undefined => {
  const { texture, organicMatter, soilClass } = facts;
  if (organicDoubt(facts)) return undefined;
  if (texture === "muck" || soilClass === "organic" || (organicMatter ?? 0) > muckFrom) return true;
  return texture === undefined && soilClass === undefined && organicMatter === undefined ? undefined : false;
};

/** Textures of the topsoil that lie outside an agronomic category, whatever the rest of it is made of. */
const impossible: Readonly<Partial<Record<SoilCategoryId, readonly TextureId[]>>> = {
  veryLight: ["clayLoam", "siltyClayLoam", "clay"],
  light: ["clayLoam", "siltyClayLoam", "clay"],
  medium: ["clay"],
  heavy: ["sand", "loamySand"],
  lightSand: ["loam", "siltLoam", "clayLoam", "siltyClayLoam", "clay"],
  deepClayey: ["sand", "loamySand", "sandyLoam"],
  deepSilty: ["sand", "loamySand", "clay"],
};

/** "the soil's category is heavy and its texture sand, which cannot both be", where so; else `undefined`. */
export const categoryDoubt = ({ soilCategory, texture }: Facts): string | undefined =>
  soilCategory !== undefined && texture !== undefined && impossible[soilCategory]?.includes(texture)
    ? `the soil's category is ${soilCategories[soilCategory]} and its texture ${textures[texture]}, which cannot both be`
    : undefined;
