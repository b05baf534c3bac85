import type { Origin } from "./outcome.ts";
import type { LengthUnit } from "./units.ts";
import { convert } from "./units.ts";
import type { AnalyteId, FinishId, MethodId, PreparationId, PurposeId, SoilTestUnit } from "./vocabulary.ts";
import { analytes, finishes, methods, preparations } from "./vocabulary.ts";
import { plain, show } from "./show.ts";

export interface Depth {
  readonly from: number;
  readonly to: number;
  readonly unit: LengthUnit;
}

export interface Correction {
  readonly was: number;
  /** Of the value before: `<` or `>`, where the laboratory had only bounded it. */
  readonly qualifier?: "<" | ">" | undefined;
  readonly reason: string;
  readonly date: string;
  readonly origin: Origin;
}

/** A laboratory result, never a bare number: what, how much, how measured, how deep, when, and where it is written. */
export interface Measurement {
  readonly analyte: AnalyteId;
  readonly value: number;
  /** `<`: the laboratory says less than `value`; `>`: more than it. */
  readonly qualifier?: "<" | ">" | undefined;
  readonly unit: SoilTestUnit;
  readonly method: MethodId;
  readonly finish?: FinishId | undefined;
  readonly preparation?: PreparationId | undefined;
  readonly depth: Depth;
  readonly date: string;
  readonly purpose: PurposeId;
  readonly lab: string;
  readonly origin: Origin;
  readonly correction?: Correction | undefined;
  /** The bags a mean was taken of; absent for a result as the laboratory gave it. */
  readonly bags?: readonly Measurement[] | undefined;
}

/**
 * The mean of several bags of one zone on one day: the better estimate for advice, with every bag kept inside it.
 * pH is averaged as it stands, not by way of hydrogen ions: a composite of buffered soil behaves that way
 * (European Journal of Soil Science, 2026). Where a bag is only bounded, "< 5" beside 7, so is the mean: it is below 6. Bounds both ways
 * bound no mean; then the first bag stands.
 */
export const meanOfBags = (bags: readonly [Measurement, ...Measurement[]]): Measurement => {
  const [first] = bags;
  const [qualifier, other] = new Set(bags.flatMap((b) => b.qualifier ?? []));
  if (bags.length === 1 || other !== undefined) return first;
  // Three bags of 6.9 sum to 20.700000000000003: without the computer's dust their mean is 6.9 again, and on the edge it belongs on.
  const value = Number((bags.reduce((sum, b) => sum + b.value, 0) / bags.length).toPrecision(12));
  return { ...first, value, qualifier, correction: undefined, bags };
};

/** "Mehlich-3, ICP" */
export const methodLabel = (m: Pick<Measurement, "method" | "finish" | "preparation">): string =>
  [methods[m.method].label, m.finish && finishes[m.finish], m.preparation === "moist" && preparations.moist].filter(Boolean).join(", ");

/**
 * "96", "< 3", "6.3": with the decimals the laboratory wrote; a mean with one more where it has one, because 6.45 shown as 6.5
 * would stand on the wrong side of a bound at 6.5.
 */
export const numberLabel = (m: Pick<Measurement, "analyte" | "value" | "qualifier" | "bags">): string => {
  const written = m.bags ? Math.min(decimalsOf(m.value), 1 + Math.max(...m.bags.map((bag) => decimalsOf(bag.value)))) : decimalsOf(m.value);
  return `${m.qualifier ? `${m.qualifier} ` : ""}${show(m.value, Math.max(analytes[m.analyte].decimals, written))}`;
};

/** The same of a number that is worked out, or is a bound: with one decimal more than usual where it has one, such as 5.1 mg/l of phosphorus. */
export const amountLabel = (analyte: AnalyteId, value: number): string => {
  const own = analytes[analyte].decimals;
  return show(value, Math.max(own, Math.min(decimalsOf(value), own + 1)));
};

/** A number with the unit of its test: "96 ppm", "3.1%", "index 60", "6.3" (pH has no unit to print). */
export const withUnit = (number: string, unit: SoilTestUnit): string =>
  unit === "pH" ? number : unit === "%" ? `${number}%` : unit === "index" ? `index ${number}` : `${number} ${unit}`;

/** The same with its unit: "96 ppm", "6.3". */
export const measurementLabel = (m: Pick<Measurement, "analyte" | "value" | "qualifier" | "unit" | "bags">): string =>
  withUnit(numberLabel(m), m.unit);

/** "the laboratory says < 5 ppm": of a result that is only bounded, who says so. No laboratory says it of a mean. */
export const boundWords = (m: Parameters<typeof measurementLabel>[0], of = ""): string =>
  `${m.bags ? `the mean of ${m.bags.length} bags is` : "the laboratory says"} ${of}${measurementLabel(m)}`;

/** To what results are rounded: a unit of the last place that any of them, or of their bags, is written to, or usually is: 6.0 is 6 in a record. */
export const printedStep = (results: readonly Measurement[]): number =>
  10 ** -Math.max(...results.flatMap((m) => m.bags ?? [m]).map((m) => Math.max(analytes[m.analyte].decimals, decimalsOf(m.value))));

/** The decimals a value was written with, at most three: a laboratory's 6.25 is not shown as 6.3. */
const decimalsOf = (value: number): number => {
  const thousandths = Math.round(value * 1000);
  if (thousandths / 1000 !== value || thousandths % 10 !== 0) return 3;
  return thousandths % 1000 === 0 ? 0 : thousandths % 100 === 0 ? 1 : 2;
};

export const depthLabel = (d: Depth): string => `${plain(d.from)} to ${plain(d.to)} ${d.unit}`;

export const depthIn = (d: Depth, unit: LengthUnit): { from: number; to: number } => ({
  from: convert(d.from, d.unit, unit),
  to: convert(d.to, d.unit, unit),
});
