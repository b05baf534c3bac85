import type { Amount, RateUnit } from "../interpretation/units.ts";
import { convert } from "../interpretation/units.ts";
import type { Depth } from "../interpretation/measurement.ts";
import type { NutrientRate } from "../interpretation/rules/nutrientRate.ts";
import { plain, show } from "../interpretation/show.ts";
import type { Farm } from "../records/model.ts";

type Units = Farm["units"];

/** Fertilizer rates: whole lb/ac or kg/ha, whatever unit the guideline speaks. */
export const nutrientRate = (rate: Amount<RateUnit>, units: Units): { value: string; unit: string } => {
  const unit = units === "us" ? "lb/ac" : "kg/ha";
  return { value: show(convert(rate.value, rate.unit, unit), 0), unit };
};

/** "20 to 40" where the guideline prints a range. */
export const nutrientSpan = ({ rate, to }: Pick<NutrientRate, "rate" | "to">, units: Units): { value: string; unit: string } => {
  const least = nutrientRate(rate, units);
  const most = to === undefined ? least : nutrientRate({ value: to, unit: rate.unit }, units);
  return least.value === most.value ? least : { value: `${least.value} to ${most.value}`, unit: least.unit };
};

/** Lime: tons or tonnes, one decimal. */
export const limeRate = (rate: Amount<RateUnit>, units: Units): { value: string; unit: string } => {
  const unit = units === "us" ? "ton/ac" : "t/ha";
  return { value: show(convert(rate.value, rate.unit, unit), 1), unit };
};

/** "2.2 tons per acre", "4.9 t per hectare": how a person says it. */
export const limeWords = (rate: Amount<RateUnit>, units: Units): string =>
  `${limeRate(rate, units).value} ${units === "us" ? "tons per acre" : "t per hectare"}`;

export const nutrientWords = (rate: Amount<RateUnit>, units: Units): string =>
  `${nutrientRate(rate, units).value} ${units === "us" ? "lb per acre" : "kg per hectare"}`;

export const area = (squareMeters: number, units: Units): string =>
  show(convert(squareMeters, "sq m", units === "us" ? "acre" : "ha"), 1);

export const areaUnit = (units: Units): string => (units === "us" ? "acres" : "ha");

export const depth = (d: Depth, units: Units): string => {
  const unit = units === "us" ? "in" : "cm";
  return `${plain(convert(d.from, d.unit, unit), 1)} to ${plain(convert(d.to, d.unit, unit), 1)} ${unit}`;
};

const symbols: Record<string, string> = { USD: "$", CAD: "$", AUD: "$", NZD: "$", GBP: "£", EUR: "€" };

/** Whole units of the farm's currency: no price on a plan is known to the cent. */
export const money = (value: number, currency: string): string =>
  symbols[currency] ? `${symbols[currency]}${show(value, 0)}` : `${show(value, 0)} ${currency}`;
