import { show } from "./show.ts";
import { convert } from "./units.ts";

/**
 * The units a farm, or one field of it, is shown in. A garden counts by 1,000 sq ft, as its publications do, and in pounds
 * of lime, since nobody spreads tons on a bed. `decimals` are those of a rate on a page.
 */
export const unitChoices = {
  us: {
    rate: "lb/ac",
    rateWords: "lb per acre",
    decimals: 0,
    lime: "ton/ac",
    limeWords: "tons per acre",
    limeDecimals: 1,
    limeMass: "ton",
    limeMassWords: "tons",
    area: "acre",
    areaWords: "acres",
    areaDecimals: 1,
    length: "in",
    map: "ft",
    mass: "lb",
    massDecimals: 0,
    per: "an acre",
    priceMass: "ton",
    volume: "gal",
    volumeRate: "gal/ac",
    density: "lb/gal",
  },
  metric: {
    rate: "kg/ha",
    rateWords: "kg per hectare",
    decimals: 0,
    lime: "t/ha",
    limeWords: "t per hectare",
    limeDecimals: 1,
    limeMass: "t",
    limeMassWords: "t",
    area: "ha",
    areaWords: "ha",
    areaDecimals: 1,
    length: "cm",
    map: "m",
    mass: "kg",
    massDecimals: 0,
    per: "a hectare",
    priceMass: "t",
    volume: "l",
    volumeRate: "l/ha",
    density: "kg/l",
  },
  garden: {
    rate: "lb/1000 sq ft",
    rateWords: "lb per 1,000 sq ft",
    decimals: 1,
    lime: "lb/1000 sq ft",
    limeWords: "lb per 1,000 sq ft",
    limeDecimals: 0,
    limeMass: "lb",
    limeMassWords: "lb",
    area: "sq ft",
    areaWords: "sq ft",
    areaDecimals: 0,
    length: "in",
    map: "ft",
    mass: "lb",
    massDecimals: 1,
    per: "for 1,000 sq ft",
    priceMass: "ton",
    volume: "gal",
    volumeRate: "gal/1000 sq ft",
    density: "lb/gal",
  },
} as const;
export type UnitChoice = keyof typeof unitChoices;
export const unitChoiceIds = Object.keys(unitChoices) as [UnitChoice, ...UnitChoice[]];

/** What a sum is written out in: the units, and the farm's currency where it has one. */
export interface Written {
  readonly units: UnitChoice;
  /** ISO 4217. */
  readonly currency?: string | undefined;
}

/** A cost an acre as a cost for the area that rates are told for: an acre, a hectare, 1,000 sq ft. */
export const costPerArea = (costPerAcre: number, units: UnitChoice): number =>
  units === "garden" ? costPerAcre / convert(1, "acre", "1000 sq ft") : costPerAcre / convert(1, "acre", unitChoices[units].area);

const symbols: Readonly<Record<string, string>> = { USD: "$", CAD: "$", AUD: "$", NZD: "$", GBP: "£", EUR: "€" };

/** "$68", "£4.50", "120 NOK"; without a currency the number alone. */
export const money = (value: number, currency: string | undefined, decimals: number): string => {
  const amount = show(value, decimals);
  if (currency === undefined) return amount;
  return symbols[currency] ? `${symbols[currency]}${amount}` : `${amount} ${currency}`;
};
