import type { NoAnswer, Outcome, Source, Step } from "../outcome.ts";
import { list } from "../list.ts";
import { answer, noAnswer } from "../outcome.ts";
import { offtakeFor } from "../rules/indexRemoval.ts";
import type { RemovalRule } from "../rules/removal.ts";
import { removalRowFor } from "../rules/removal.ts";
import type { Coefficient, RangeEnd } from "../rules/removalCoefficient.ts";
import { takenAway } from "../rules/removalCoefficient.ts";
import { plain } from "../show.ts";
import type { Amount, YieldUnit } from "../units.ts";
import type { CropId, NutrientId, StrawId } from "../vocabulary.ts";
import { cereals, crops, nutrients } from "../vocabulary.ts";
import type { IndexOfftakeRule } from "../rules/indexRule.ts";

/** A publication's removal coefficients, or the offtakes its rates rest on, with the short name used in sentences. */
export interface CoefficientSet {
  readonly pack: string;
  readonly rule: RemovalRule | IndexOfftakeRule;
}

/** One harvest of one place: a cut of hay is one, grain is one, baled straw is another. */
export interface Harvest {
  readonly season: number;
  readonly crop: CropId;
  readonly date?: string | undefined;
  readonly yield?: Amount<YieldUnit> | undefined;
  /** It is on record, and the reader is not shown it. */
  readonly yieldWithheld?: boolean | undefined;
  /** Percent of water in the yield as it was weighed. */
  readonly moisture?: number | undefined;
  readonly straw?: StrawId | undefined;
  readonly source: Source;
}

/** Crops whose straw can be baled, and what it is called where it is a harvest of its own. */
const strawOf: Partial<Record<CropId, CropId>> = {
  wheat: "wheatStraw",
  winterWheat: "wheatStraw",
  winterWheatElite: "wheatStraw",
  winterWheatFeed: "wheatStraw",
  durumWheat: "wheatStraw",
  springWheat: "wheatStraw",
};

/** The first set that says something of the crop and nutrient: each question is put to the sets in their order. */
export const coefficientFor = (
  sets: readonly CoefficientSet[],
  { crop, straw, season }: Pick<Harvest, "crop" | "straw" | "season">,
  nutrient: NutrientId,
): Outcome<Coefficient> => {
  const { symbol } = nutrients[nutrient];
  const { label } = crops[crop];
  const missing = [`${symbol} removal of ${label}`];
  for (const { pack, rule } of sets) {
    const found =
      rule.kind === "removal"
        ? removalRowFor(rule, crop, nutrient)
        : rule.nutrient === nutrient
          ? offtakeFor(rule, crop, straw)
          : undefined;
    if (found === undefined) continue;
    if ("missing" in found)
      return noAnswer(`${found.missing} is not recorded for ${label} in ${season}, and the offtake of ${pack} depends on it`, [
        `${found.missing} in ${season}`,
      ]);
    return answer(found, []);
  }
  if (sets.length === 0) return noAnswer("none of the chosen guidelines says what a harvest takes away", missing);
  const packs = [...new Set(sets.map((s) => s.pack))];
  return noAnswer(`${list(packs)} ${packs.length === 1 ? "gives" : "give"} no ${symbol} removal for ${label}`, missing);
};

/**
 * lb/ac that one harvest takes away. `among` are the place's harvests: straw that was taken off must stand among them with
 * its weight, unless the grain's coefficient holds it. No answer without a yield or a coefficient; a yield recorded as 0 takes
 * nothing away, by any coefficient.
 */
export const removedByHarvest = (
  harvest: Harvest,
  among: readonly Harvest[],
  nutrient: NutrientId,
  sets: readonly CoefficientSet[],
  end: RangeEnd = "middle",
): Outcome<number> => {
  const { crop, season, source } = harvest;
  const { label } = crops[crop];
  if (harvest.yieldWithheld) return noAnswer("the yields are left out for this reader");
  if (harvest.yield === undefined)
    return noAnswer(
      `the yield of ${label} in ${season} is not recorded${crop === "coverCrop" ? ", which is 0 where all of it stayed on the field" : ""}`,
      [`the yield of ${label} in ${season}`],
    );
  if (harvest.yield.value === 0) return answer(0, [{ what: `Nothing harvested of ${label}`, result: "0 lb/ac", source }]);
  if (countedWithGrain(harvest, among, nutrient, sets))
    return answer(0, [{ what: `${label[0]!.toUpperCase()}${label.slice(1)} counts with its grain`, result: "0 lb/ac", source }]);
  const found = coefficientFor(sets, harvest, nutrient);
  if (found.kind === "noAnswer") return found;
  const coefficient = found.value;
  const straw = coefficient.withStraw ? undefined : strawNeeded(harvest, among, nutrient);
  if (straw) return straw;
  const weighed = atCoefficientMoisture(harvest.yield, harvest.moisture, coefficient, label);
  if (weighed.kind === "noAnswer") return weighed;
  const outcome = takenAway(coefficient, crop, nutrient, weighed.value, "Yield", source, end);
  if (outcome.kind === "noAnswer") return outcome;
  const unsure = cereals.has(crop) && harvest.straw === undefined && !among.some((h) => h.season === season && h.crop === strawOf[crop]);
  return answer(
    outcome.value,
    [...weighed.steps, ...outcome.steps],
    [
      ...weighed.cautions,
      ...(unsure ? [`What became of the straw of ${label} is not recorded; only the grain is counted, so more may have left.`] : []),
    ],
  );
};

/** Straw whose grain is counted by a coefficient that holds the straw too. */
const countedWithGrain = (harvest: Harvest, among: readonly Harvest[], nutrient: NutrientId, sets: readonly CoefficientSet[]): boolean =>
  among.some((grain) => {
    if (grain.season !== harvest.season || strawOf[grain.crop] !== harvest.crop) return false;
    const by = coefficientFor(sets, grain, nutrient);
    return by.kind === "answer" && by.value.withStraw === true;
  });

/** Straw that left the field counts by its own weight: grain says nothing of it. */
const strawNeeded = ({ crop, season, straw }: Harvest, among: readonly Harvest[], nutrient: NutrientId): NoAnswer | undefined => {
  if (straw !== "removed") return undefined;
  const as = strawOf[crop];
  const gone = `the straw of ${crops[crop].label} was taken off in ${season}`;
  if (as === undefined)
    return noAnswer(`${gone}, and what it takes away is not known here`, [
      `${nutrients[nutrient].symbol} removal of the straw of ${crops[crop].label}`,
    ]);
  return among.some((h) => h.season === season && h.crop === as && h.yield !== undefined)
    ? undefined
    : noAnswer(`${gone} and its weight is not recorded`, [`the yield of straw in ${season}`]);
};

/**
 * The yield as the coefficient counts it: times (100 - moisture weighed) / (100 - moisture of the coefficient). Where the
 * moisture of the yield is not recorded it is taken as weighed at the coefficient's own, and said so; for a coefficient of dry
 * matter that would be far off, so there is no answer.
 */
const atCoefficientMoisture = (
  weighed: Amount<YieldUnit>,
  moisture: number | undefined,
  row: Coefficient,
  label: string,
): Outcome<Amount<YieldUnit>> => {
  const stated = row.moisturePercent;
  if (stated === undefined) return answer(weighed, []);
  if (moisture === undefined)
    return stated === 0
      ? noAnswer(`the removal of ${label} is stated for dry matter and the moisture of the yield is not recorded`, [
          "the moisture of the yield",
        ])
      : answer(
          weighed,
          [],
          [`Yields of ${label} are taken as weighed at ${plain(stated)}% of water, which the coefficient is stated for.`],
        );
  if (moisture === stated) return answer(weighed, []);
  const value = (weighed.value * (100 - moisture)) / (100 - stated);
  const step: Step = {
    what: stated === 0 ? "Yield as dry matter" : `Yield at ${plain(stated)}% of water, as the coefficient counts it`,
    expression: `${plain(weighed.value)} × (100 − ${plain(moisture)}) ÷ (100 − ${plain(stated)})`,
    result: `${plain(value)} ${weighed.unit}`,
    source: row.source,
    evidence: row.evidence === "read" ? "derived" : row.evidence,
  };
  return answer({ value, unit: weighed.unit }, [step]);
};
