import type { Amount, RateUnit } from "../interpretation/units.ts";
import { convert } from "../interpretation/units.ts";
import type { Depth } from "../interpretation/measurement.ts";
import type { NutrientRate } from "../interpretation/rules/nutrientRate.ts";
import { plain, show } from "../interpretation/show.ts";
import { costPerArea, money as moneyOf, unitChoices } from "../interpretation/unitChoices.ts";
import type { Farm, Field } from "../records/model.ts";

type Units = Farm["units"];

/** Fertilizer rates: whole lb/ac or kg/ha, tenths of lb/1000 sq ft in a garden, whatever unit the guideline speaks. */
export const nutrientRate = (rate: Amount<RateUnit>, units: Units): { value: string; unit: string } => {
  const { rate: unit, decimals } = unitChoices[units];
  return { value: show(convert(rate.value, rate.unit, unit), decimals), unit };
};

/** The last figure shown of a limit that is not to be passed. A sum of tenths may lie a hair below the whole number that it is. */
export const roundedDown = (value: number, decimals: number): string => {
  const whole = 10 ** decimals;
  return show(Math.floor(value * whole + 1e-9) / whole, decimals);
};

/** A rate of nitrogen. What a law allows at most is rounded down: 176 where it allows 175.8 would break it. */
export const nitrogenRate = (
  { rate, to, atMost }: Pick<NutrientRate, "rate" | "to" | "atMost">,
  units: Units,
): { value: string; unit: string } => {
  if (!atMost) {
    const least = nutrientRate(rate, units);
    const most = to === undefined ? least : nutrientRate({ value: to, unit: rate.unit }, units);
    return least.value === most.value ? least : { value: `${least.value} to ${most.value}`, unit: least.unit };
  }
  const { rate: unit, decimals } = unitChoices[units];
  return { value: roundedDown(convert(rate.value, rate.unit, unit), decimals), unit };
};

const known = new WeakMap<Farm, Map<Units, Farm>>();

/** The farm as a page of this field shows it: in the field's own units, where it has chosen some. */
export const inUnitsOf = (farm: Farm, { units }: Pick<Field, "units">): Farm => {
  if (units === undefined || units === farm.units) return farm;
  const choices = known.get(farm) ?? new Map<Units, Farm>();
  known.set(farm, choices);
  const shown = choices.get(units) ?? { ...farm, units };
  choices.set(units, shown);
  return shown;
};

/** Nothing, as a page would show it. */
export const isNothing = (shown: string): boolean => /^-?0(\.0+)?$/.test(shown);

/**
 * Decimals that leave a small rate two figures that count: half a pound of zinc is not nothing, and 1 lb/ac of boron, 0.02 lb on
 * 1,000 sq ft, would do harm as the 0.1 lb that a tenth makes of it.
 */
export const rateDecimals = (rate: number): number => (rate >= 10 || rate === 0 ? 0 : rate >= 1 ? 1 : rate >= 0.1 ? 2 : 3);

/** A rate of a nutrient or a product, a small one with two figures that count. */
export const fineRate = (rate: Amount<RateUnit>, units: Units): { value: string; unit: string } => {
  const { rate: unit, decimals } = unitChoices[units];
  const exact = convert(rate.value, rate.unit, unit);
  return rateDecimals(exact) > decimals ? { value: plain(exact, rateDecimals(exact)), unit } : nutrientRate(rate, units);
};

/** "20 to 40" where the guideline prints a range. */
export const nutrientSpan = (
  { rate, to, atMost }: Pick<NutrientRate, "rate" | "to" | "atMost">,
  units: Units,
): { value: string; unit: string } => {
  if (atMost) return nitrogenRate({ rate, atMost }, units);
  const least = fineRate(rate, units);
  const most = to === undefined ? least : fineRate({ value: to, unit: rate.unit }, units);
  return least.value === most.value ? least : { value: `${least.value} to ${most.value}`, unit: least.unit };
};

/** Lime: tons or tonnes with one decimal, whole pounds in a garden; what would be rounded to nothing as the small thing it is. */
export const limeRate = (rate: Amount<RateUnit>, units: Units): { value: string; unit: string } => {
  const { lime: unit, limeDecimals } = unitChoices[units];
  const exact = convert(rate.value, rate.unit, unit);
  const shown = show(exact, limeDecimals);
  return { value: isNothing(shown) && exact > 0 ? plain(exact) : shown, unit };
};

/** "2.2 tons per acre", "4.9 t per hectare": how a person says it. */
export const limeWords = (rate: Amount<RateUnit>, units: Units): string => `${limeRate(rate, units).value} ${unitChoices[units].limeWords}`;

export const nutrientWords = (rate: Amount<RateUnit>, units: Units): string =>
  `${nutrientRate(rate, units).value} ${unitChoices[units].rateWords}`;

/** A patch that would be rounded to nothing is shown as the small thing it is. */
export const area = (squareMeters: number, units: Units): string => {
  const size = convert(squareMeters, "sq m", unitChoices[units].area);
  const shown = show(size, unitChoices[units].areaDecimals);
  return isNothing(shown) && size > 0 ? plain(size, 3) : shown;
};

/** A number as it is shown, in thousandths: whole ones, so that a sum of them is exact. */
const thousandths = (shown: string): number => Math.round(Number(shown.replaceAll(",", "").replace("−", "-")) * 1000);

/** What to say after figures that as shown do not add up to their sum as shown: a careful reader would take it for a slip. */
export const roundedApart = (parts: readonly string[], sum: string): string =>
  parts.reduce((total, p) => total + thousandths(p), 0) === thousandths(sum) ? "" : ", each rounded";

/** The same of areas, in square meters. */
export const eachRounded = (parts: readonly number[], units: Units): string =>
  roundedApart(
    parts.map((p) => area(p, units)),
    area(
      parts.reduce((sum, p) => sum + p, 0),
      units,
    ),
  );

export const areaUnit = (units: Units): string => unitChoices[units].areaWords;

export const depth = (d: Depth, units: Units): string => {
  const unit = unitChoices[units].length;
  return `${plain(convert(d.from, d.unit, unit), 1)} to ${plain(convert(d.to, d.unit, unit), 1)} ${unit}`;
};

/** Whole units of the farm's currency: no price on a plan is known to the cent. */
export const money = (value: number, currency: string): string => moneyOf(value, currency, 0);

/** A price as it is listed, or so many times a laboratory's fee: "$41", "$0.85". */
export const listedPrice = (value: number, currency: string): string =>
  moneyOf(value, currency, Number.isInteger(Math.round(value * 100) / 100) ? 0 : 2);

/** "$68 an acre"; to the cent for 1,000 sq ft, where it is cents that count. */
export const moneyPerArea = (costPerAcre: number, { units, currency }: Pick<Farm, "units" | "currency">): string =>
  `${moneyOf(costPerArea(costPerAcre, units), currency, units === "garden" ? 2 : 0)} ${unitChoices[units].per}`;

/** "1,719 lb", "780 kg". */
export const mass = (pounds: number, units: Units): string =>
  `${show(convert(pounds, "lb", unitChoices[units].mass), unitChoices[units].massDecimals)} ${unitChoices[units].mass}`;

/** "6.2 tons", "5.6 t", "140 lb" of lime. */
export const limeMass = (tons: number, units: Units): string =>
  `${show(convert(tons, "ton", unitChoices[units].limeMass), unitChoices[units].limeDecimals)} ${unitChoices[units].limeMassWords}`;
