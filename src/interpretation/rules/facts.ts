import type { Source } from "../outcome.ts";
import type { CropId, SoilCategoryId, SoilClassId, StrawId, TextureId } from "../vocabulary.ts";

/** What a guideline may ask about the place, beside the soil test itself. */
export interface Facts {
  readonly crop?: CropId | undefined;
  /** The crops grown in turn on the field, as its record states them. */
  readonly rotation?: readonly CropId[] | undefined;
  readonly texture?: TextureId | undefined;
  readonly cec?: number | undefined;
  readonly organicMatter?: number | undefined;
  readonly subsoilPh?: number | undefined;
  /** Soil pH in water. */
  readonly soilPh?: number | undefined;
  /** Extractable sodium, ppm. */
  readonly sodium?: number | undefined;
  /** The same of a laboratory that measures soil by volume, mg/l: a unit that is not turned into ppm. */
  readonly sodiumByVolume?: number | undefined;
  /** Percent of the cation exchange capacity, acidity included, that calcium holds. */
  readonly calciumSaturation?: number | undefined;
  /** The agronomic category of the soil, where a country maps them. */
  readonly soilCategory?: SoilCategoryId | undefined;
  /** Mineral, mineral-organic or organic, as the laboratory classes the soil. */
  readonly soilClass?: SoilClassId | undefined;
  /** What becomes of the straw of the crop. */
  readonly straw?: StrawId | undefined;
  /** A yield or yield goal is on record, and the reader is not shown it. */
  readonly yieldWithheld?: boolean | undefined;
  /** The crop is of a year that the reader is not shown. */
  readonly cropWithheld?: boolean | undefined;
  /** The reader is not shown samplings for nitrate, nor whether there are any. */
  readonly nitrateTestsWithheld?: boolean | undefined;
  /** Where the record states each of them. */
  readonly origins?: Readonly<Partial<Record<NumericFact | "rotation" | "soilClass" | "straw" | "yieldGoal", Source>>> | undefined;
}

/** The facts that are numbers, in the order they are asked for. */
export const numericFacts = ["cec", "organicMatter", "subsoilPh", "soilPh", "sodium", "sodiumByVolume", "calciumSaturation"] as const;
export type NumericFact = (typeof numericFacts)[number];
