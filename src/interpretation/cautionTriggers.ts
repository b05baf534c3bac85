import type { LimeAdvice } from "./lime/lime.ts";
import type { NitrogenAdvice } from "./nitrogen/nitrogen.ts";
import type { RateAdvice } from "./nutrientRates.ts";
import type { Outcome } from "./outcome.ts";
import type { RatingAdvice } from "./rating.ts";
import type { Cations } from "./rules/cationSum.ts";
import type { NutrientRate } from "./rules/nutrientRate.ts";
import { isWithheld } from "./firstAnswer.ts";
import { methodMatches } from "./rules/environmentalLimit.ts";
import { growsOnAcidSoil } from "./rules/acidCrop.ts";
import { freeLimeAbove, isOrganic } from "./rules/soilDoubts.ts";
import type { Sample } from "./sample.ts";
import type { AnalyteId, CropId, MethodId, NutrientId, TextureId } from "./vocabulary.ts";

/** What a trigger looks at: the sample, and all that was said of it. */
export interface Said extends Partial<NitrogenAdvice> {
  readonly sample: Sample;
  readonly ratings: readonly RatingAdvice[];
  readonly rates: readonly RateAdvice[];
  readonly lime: LimeAdvice;
  readonly cations: Outcome<Cations>;
}

/** A rate by the acre, as guidelines of North America print them. */
export const poundsOf = ({ rates }: Said, nutrient: NutrientId): number => {
  let pounds = 0;
  for (const { nutrient: of, outcome } of rates)
    if (of === nutrient && outcome.kind === "answer" && outcome.value.rate.unit === "lb/ac") pounds = Math.max(pounds, most(outcome));
  return pounds;
};
const most = (outcome: Outcome<NutrientRate> | undefined): number =>
  outcome?.kind === "answer" ? (outcome.value.to ?? outcome.value.rate.value) : 0;
export const applies = ({ rates }: Said, ...nutrients: NutrientId[]): boolean =>
  rates.some((r) => nutrients.includes(r.nutrient) && most(r.outcome) > 0);
export const nitrogenRate = ({ nitrogen }: Said): number => most(nitrogen);
export const ruledByHectare = ({ nitrogen }: Said): boolean => nitrogen?.kind === "answer" && nitrogen.value.rate.unit === "kg/ha";
export const limed = ({ lime }: Said): boolean => lime.needed.kind === "answer" && lime.needed.value !== "none";
const potatoes: readonly (CropId | undefined)[] = ["potatoes", "earlyPotatoes"];
/** Grown on acid soil for their skins: scab comes with lime. */
export const isPotato = (crop: CropId | undefined): boolean => potatoes.includes(crop);
/** A soil pH below which Oklahoma counts on loss by acidity (PSS-2240), and no lime rate beside it. Not for what is grown on acid soil, nor for organic soil. */
export const acidWithoutLime = ({ sample, lime }: Said): boolean => {
  const { soilPh, crop } = sample.facts;
  return (
    (soilPh ?? 7) < 5.5 &&
    lime.needed.kind === "noAnswer" &&
    !isWithheld(lime.needed) &&
    !growsOnAcidSoil(crop) &&
    !isPotato(crop) &&
    isOrganic(sample.facts) !== true
  );
};
/**
 * Most crops suffer from 4 dS/m of a saturated paste up (K-State), which in thinner extracts is 2.2 at most, by the lowest factor between the two that
 * is listed for them (PLOS ONE 2018, 1.85). Above pH 8.5 a soil often holds much sodium: common practice.
 */
const saltLimits: Partial<Record<MethodId, number>> = { saturatedPaste: 4, water1to1: 2.2, water1to2: 2.2 };
export const saltOrSodium = ({ sample }: Said): boolean =>
  (sample.facts.soilPh ?? 7) > 8.5 ||
  sample.measurements.some((m) => m.analyte === "salts" && m.value >= (saltLimits[m.method] ?? Infinity));
/** Manure or compost was spread for this crop or for the one before: it is likely to be spread again. */
const manuresOf = ({ sample: { nitrogen } }: Said) => (nitrogen?.manure ?? nitrogen?.manureFound ?? []).filter((m) => m.yearsAgo <= 1);
export const manured = (said: Said): boolean => manuresOf(said).length > 0;
export const littered = (said: Said): boolean => manuresOf(said).some((m) => m.species === "poultry");
export const rated = ({ ratings }: Said, analyte: AnalyteId, position: "below" | "above"): boolean =>
  ratings.some((r) => r.measurement.analyte === analyte && r.outcome.kind === "answer" && r.outcome.value.position === position);

/** Crops that are fed whole: nitrate in them can poison cattle. */
export const fedWhole: readonly CropId[] = [
  "cornSilage",
  "grassHay",
  "grassPasture",
  "forageMaize",
  "grassSilageOneCut",
  "grassSilageTwoCuts",
  "grassSilageThreeCuts",
  "grassSilageFourCuts",
  "grassSilageSecondCut",
];
/** Vegetables and fruit, which people eat as they are harvested. */
const fresh: ReadonlySet<CropId> = new Set<CropId>([
  "sweetCorn",
  "snapBean",
  "pea",
  "tomato",
  "pepper",
  "broccoli",
  "cabbage",
  "carrot",
  "cauliflower",
  "celery",
  "cucumber",
  "kale",
  "lettuce",
  "muskmelon",
  "onion",
  "pumpkin",
  "potatoes",
  "earlyPotatoes",
  "apple",
  "peach",
  "blueberry",
  "strawberry",
  "raspberry",
  "grape",
]);
export const eatenFresh = ({ sample }: Said): boolean => sample.facts.crop !== undefined && fresh.has(sample.facts.crop);
/** Is one of the guidelines of that country? Their ids begin with it. */
export const readIn = ({ sample }: Said, country: "us-" | "ie-"): boolean => sample.packs.some(({ id }) => id.startsWith(country));
/** Crops of grass or hay that cattle graze or are fed. */
const forage: readonly CropId[] = [...fedWhole.filter((c) => c !== "cornSilage" && c !== "forageMaize"), "alfalfa"];

export const feedsAnimals = ({ sample }: Said): boolean => sample.facts.crop !== undefined && forage.includes(sample.facts.crop);

export const cerealsOfBritain: readonly CropId[] = [
  "winterWheat",
  "springWheat",
  "winterBarley",
  "springBarley",
  "oats",
  "rye",
  "winterRye",
  "winterTriticale",
];
/** CEC, meq/100 g, up to which Purdue's column counts a soil to the sands (Tri-State draws its line there as well). */
export const sandyCec = 5;
/** K₂O, lb/ac, above which spring potash cost corn yield (North Dakota's trials, as Purdue prints them). */
export const cornPotash = 120;
export const sandy: readonly TextureId[] = ["sand", "loamySand", "sandyLoam"];
/** Is the potash of the sample by that publication? */
export const readBy = ({ rates }: Said, publication: string): boolean =>
  rates.some((r) => r.nutrient === "K2O" && r.pack?.publication === publication);

/** No carbonate is worth more than pure dolomite, 109 % CCE, or holds more than 56 % CaO: what does is burnt or slaked. */
export const burnt = ({ sample }: Said): boolean =>
  sample.materials.some(
    ({ stated, analysis }) =>
      Math.max(analysis?.cce ?? 0, stated.cce?.value ?? 0) > 109 ||
      Math.max(stated.calciumOxide?.value ?? 0, (stated.neutralizingValue?.value ?? 0) - 5) > 56,
  );

export const overLimit = ({ sample }: Said): boolean =>
  sample.packs.some((pack) =>
    (pack.environmentalLimits ?? []).some((limit) =>
      sample.measurements.some((m) => methodMatches(limit, m) && (m.qualifier === ">" ? m.value >= limit.above : m.value > limit.above)),
    ),
  );

export const brayOnLime = ({ sample }: Said): boolean =>
  (sample.facts.soilPh ?? 0) > freeLimeAbove && sample.measurements.some((m) => m.analyte === "P" && m.method === "bray1");

/** A published rule is superseded where a newer edition has taken its place. */
export const superseded = ({ ratings, rates, lime, nitrogen, nitrogenPack }: Said): boolean => {
  const needed = lime.needed.kind === "answer" && lime.needed.value !== "none" ? lime.needed.value.pack : undefined;
  const used = [...ratings, ...rates].map(({ outcome, pack }) => (outcome.kind === "answer" ? pack : undefined));
  return [...used, needed, nitrogen?.kind === "answer" ? nitrogenPack : undefined].some((p) => p?.status === "superseded");
};
