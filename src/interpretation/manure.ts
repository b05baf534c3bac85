import type { Analysis } from "./products.ts";
import { shareOf } from "./products.ts";
import { plain } from "./show.ts";
import type { Amount, RateUnit, VolumeRateUnit } from "./units.ts";
import { convert, oxidePerElement, sameDimension, unitWords } from "./units.ts";

/**
 * The measures by which laboratories print what a manure holds: `mass` of a nutrient in one `amount` of it. Manure spread at a
 * rate of `spread` brings that rate times its analysis, in `brings`.
 */
export const manureMeasures = {
  perTon: { unit: "lb/ton", mass: "lb", amount: "ton", spread: "ton/ac", brings: "lb/ac" },
  perThousandGal: { unit: "lb/1000 gal", mass: "lb", amount: "thousand gal", spread: "1000 gal/ac", brings: "lb/ac" },
  perTonne: { unit: "kg/t", mass: "kg", amount: "t", spread: "t/ha", brings: "kg/ha" },
  perCubicMeter: { unit: "kg/m3", mass: "kg", amount: "m³", spread: "m3/ha", brings: "kg/ha" },
} as const;
export type ManureMeasure = keyof typeof manureMeasures;
export const manureMeasureIds = Object.keys(manureMeasures) as ManureMeasure[];

export const isByVolume = (measure: ManureMeasure): boolean => sameDimension(manureMeasures[measure].spread, "m3/ha");

/** Phosphorus and potassium as oxides, or as elements where the sheet states those. */
export type Held = Analysis & Readonly<{ N: number; ammoniumN?: number | undefined }>;

/** What a manure holds as it is spread. */
export interface Manure {
  readonly measure: ManureMeasure;
  /** As the laboratory printed it, in the measure's unit. */
  readonly held: Held;
  /** The same in lb per short ton and as oxides, for rules that read tons; of an analysis by volume, by the density. */
  readonly perTon: Readonly<Record<"N" | "P2O5" | "K2O", number> & { ammoniumN?: number | undefined }>;
  /** Of a liquid; an analysis by volume has it. */
  readonly poundsPerGallon?: number | undefined;
}

export const manureOf = (measure: ManureMeasure, held: Held, poundsPerGallon: number | undefined): Manure => {
  const { unit } = manureMeasures[measure];
  const inTons = (value: number): number =>
    isByVolume(measure) ? convert(value, unit, "lb/1000 gal") / ((1000 * poundsPerGallon!) / 2000) : convert(value, unit, "lb/ton");
  const { N, ammoniumN } = held;
  return {
    measure,
    held,
    perTon: {
      N: inTons(N),
      P2O5: inTons(shareOf(held, "P2O5")),
      K2O: inTons(shareOf(held, "K2O")),
      ...(ammoniumN !== undefined && { ammoniumN: inTons(ammoniumN) }),
    },
    poundsPerGallon,
  };
};

/** A rate of manure, and the volume it was recorded by. */
interface Spread {
  readonly rate: Amount<RateUnit>;
  readonly volume?: Amount<VolumeRateUnit> | undefined;
}

/** How much was spread, in the unit that the analysis is multiplied by; by the density where one is by weight and the other by volume. */
export const amountSpread = ({ rate, volume }: Spread, { measure, poundsPerGallon }: Manure): number => {
  const { spread } = manureMeasures[measure];
  if (!isByVolume(measure)) return convert(rate.value, rate.unit, spread);
  return volume
    ? convert(volume.value, volume.unit, spread)
    : convert(convert(rate.value, rate.unit, "lb/ac") / poundsPerGallon!, "gal/ac", spread);
};

/** "30 m³/ha", or "31.5 t/ha, by its density 30 m³/ha," of what was recorded by weight and analyzed by volume. */
export const spreadWords = (spread: Spread, manure: Manure): string => {
  const recorded = spread.volume ?? spread.rate;
  const { spread: unit } = manureMeasures[manure.measure];
  const said = (value: number, of: string): string => `${plain(value, 2)} ${unitWords(of)}`;
  return `${said(recorded.value, recorded.unit)}${sameDimension(recorded.unit, unit) ? "" : `, by its density ${said(amountSpread(spread, manure), unit)},`}`;
};

/** All of a nutrient that a spreading brings, lb/ac, and the sum in the units of the analysis. */
export const broughtByManure = (
  spread: Spread,
  manure: Manure,
  nutrient: "N" | "P2O5" | "K2O",
): { value: number; expression: string; result: Amount<"lb/ac" | "kg/ha"> } => {
  const { brings, amount, mass } = manureMeasures[manure.measure];
  const spreadOf = amountSpread(spread, manure);
  const value = spreadOf * shareOf(manure.held, nutrient);
  const element = nutrient === "P2O5" ? "P" : nutrient === "K2O" ? "K" : undefined;
  const asElement = element && manure.held[element];
  const printed =
    asElement === undefined || nutrient === "N"
      ? `${plain(shareOf(manure.held, nutrient), 2)} ${mass}`
      : `${plain(asElement, 2)} ${mass} of ${element} × ${plain(oxidePerElement[nutrient])}`;
  return {
    value: convert(value, brings, "lb/ac"),
    expression: `${plain(spreadOf, 2)} ${amount} × ${printed}`,
    result: { value, unit: brings },
  };
};

/** How organic nitrogen as it was printed becomes lb per ton; nothing where it was printed so. A kg/t is 2 lb/ton, since both are shares of a weight. */
export const organicWords = ({ measure, held, poundsPerGallon }: Manure): string | undefined => {
  const organic = plain(Math.max(0, held.N - (held.ammoniumN ?? 0)));
  switch (measure) {
    case "perTon":
      return undefined;
    case "perThousandGal":
      return `${organic} lb per 1,000 gal × 2 ÷ ${plain(poundsPerGallon!, 2)} lb/gal`;
    case "perTonne":
      return `${organic} kg/t × 2`;
    case "perCubicMeter":
      return `${organic} kg/m³ × 2 ÷ ${plain(convert(poundsPerGallon!, "lb/gal", "kg/l"), 3)} kg/l`;
  }
};
