import type { NoAnswer, Outcome, Source, Step } from "./outcome.ts";
import { answer, noAnswer } from "./outcome.ts";
import type { RemovalRule } from "./rules/removal.ts";
import { cropRemoval, removalRowFor } from "./rules/removal.ts";
import { plain } from "./show.ts";
import type { Amount, YieldUnit } from "./units.ts";
import type { CropId, NutrientId, StrawId } from "./vocabulary.ts";
import { crops, nutrients } from "./vocabulary.ts";

/** A publication's removal coefficients, with the short name used in sentences. */
export interface CoefficientSet {
  readonly pack: string;
  readonly rule: RemovalRule;
}

/** One harvest of one place: a cut of hay is one, grain is one, baled straw is another. */
export interface Harvest {
  readonly season: number;
  readonly crop: CropId;
  readonly date?: string | undefined;
  readonly yield?: Amount<YieldUnit> | undefined;
  /** Percent of water in the yield as it was weighed. */
  readonly moisture?: number | undefined;
  readonly straw?: StrawId | undefined;
  readonly source: Source;
}

/** Crops whose straw can be baled, and what it is called where it is a harvest of its own. */
const strawOf: Partial<Record<CropId, CropId>> = { wheat: "wheatStraw", winterWheat: "wheatStraw", springWheat: "wheatStraw" };

/** The first set that says something of the crop and nutrient: each question is put to the sets in their order. */
export const coefficientFor = (sets: readonly CoefficientSet[], crop: CropId, nutrient: NutrientId): { set: CoefficientSet; row: RemovalRule["rows"][number] } | undefined => {
  for (const set of sets) {
    const row = removalRowFor(set.rule, crop, nutrient);
    if (row) return { set, row };
  }
  return undefined;
};

/**
 * lb/ac that one harvest takes away. `among` are the place's harvests: straw that was taken off must stand among them with
 * its weight. No answer without a yield or a coefficient; a yield recorded as 0 takes nothing away, by any coefficient.
 */
export const removedByHarvest = (harvest: Harvest, among: readonly Harvest[], nutrient: NutrientId, sets: readonly CoefficientSet[]): Outcome<number> => {
  const { crop, season, source } = harvest;
  const { label } = crops[crop];
  if (harvest.yield === undefined) return noAnswer(`the yield of ${label} in ${season} is not recorded`, [`the yield of ${label} in ${season}`]);
  if (harvest.yield.value === 0) return answer(0, [{ what: `Nothing harvested of ${label}`, result: "0 lb/ac", source }]);
  const straw = strawNeeded(harvest, among);
  if (straw) return straw;
  const found = coefficientFor(sets, crop, nutrient);
  if (!found) return noCoefficient(label, nutrient, sets);
  const weighed = atCoefficientMoisture(harvest.yield, harvest.moisture, found.row, label);
  if (weighed.kind === "noAnswer") return weighed;
  const outcome = cropRemoval(found.set.rule, crop, nutrient, weighed.value, found.set.pack, source, "Yield");
  if (outcome.kind === "noAnswer") return outcome;
  const unsure = strawOf[crop] !== undefined && harvest.straw === undefined && !among.some((h) => h.season === season && h.crop === strawOf[crop]);
  return answer(outcome.value, [...weighed.steps, ...outcome.steps], [
    ...weighed.cautions,
    ...(unsure ? [`What became of the straw of ${label} is not recorded; only the grain is counted, so more may have left.`] : []),
  ]);
};

const noCoefficient = (label: string, nutrient: NutrientId, sets: readonly CoefficientSet[]): NoAnswer => {
  const { symbol } = nutrients[nutrient];
  const missing = [`${symbol} removal of ${label}`];
  if (sets.length === 0) return noAnswer("none of the chosen guidelines says what a harvest takes away", missing);
  return noAnswer(`${sets.map((s) => s.pack).join(" and ")} ${sets.length === 1 ? "gives" : "give"} no ${symbol} removal for ${label}`, missing);
};

/** Straw that left the field counts by its own weight: grain says nothing of it. */
const strawNeeded = ({ crop, season, straw }: Harvest, among: readonly Harvest[]): NoAnswer | undefined => {
  if (straw !== "removed") return undefined;
  const as = strawOf[crop];
  const baled = among.some((h) => h.season === season && h.crop === as && h.yield !== undefined);
  return as !== undefined && baled ? undefined : noAnswer(`the straw of ${crops[crop].label} was taken off in ${season} and its weight is not recorded`, [`the yield of straw in ${season}`]);
};

/**
 * The yield as the coefficient counts it: times (100 - moisture weighed) / (100 - moisture of the coefficient). Where the
 * moisture of the yield is not recorded it is taken as weighed at the coefficient's own, and said so; for a coefficient of dry
 * matter that would be far off, so there is no answer.
 */
const atCoefficientMoisture = (weighed: Amount<YieldUnit>, moisture: number | undefined, row: RemovalRule["rows"][number], label: string): Outcome<Amount<YieldUnit>> => {
  const stated = row.moisturePercent;
  if (stated === undefined) return answer(weighed, []);
  if (moisture === undefined)
    return stated === 0
      ? noAnswer(`the removal of ${label} is stated for dry matter and the moisture of the yield is not recorded`, ["the moisture of the yield"])
      : answer(weighed, [], [`Yields of ${label} are taken as weighed at ${plain(stated)}% of water, which the coefficient is stated for.`]);
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
