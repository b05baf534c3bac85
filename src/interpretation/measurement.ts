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
}

/** "Mehlich-3, ICP" */
export const methodLabel = (m: Pick<Measurement, "method" | "finish" | "preparation">): string =>
  [methods[m.method].label, m.finish && finishes[m.finish], m.preparation === "moist" && preparations.moist]
    .filter(Boolean)
    .join(", ");

/** "96 ppm", "< 3 ppm", "6.3" (pH has no unit to print). */
export const measurementLabel = (m: Pick<Measurement, "analyte" | "value" | "qualifier" | "unit">): string => {
  const unit = m.unit === "pH" ? "" : m.unit === "%" ? "%" : ` ${m.unit}`;
  return `${m.qualifier ? `${m.qualifier} ` : ""}${show(m.value, Math.max(analytes[m.analyte].decimals, decimalsOf(m.value)))}${unit}`;
};

/** The decimals a value was written with, at most three: a laboratory's 6.25 is not shown as 6.3. */
const decimalsOf = (value: number): number => {
  const text = String(value);
  const point = text.indexOf(".");
  return point < 0 ? 0 : Math.min(3, text.length - point - 1);
};

export const depthLabel = (d: Depth): string => `${plain(d.from)} to ${plain(d.to)} ${d.unit}`;

export const depthIn = (d: Depth, unit: LengthUnit): { from: number; to: number } => ({
  from: convert(d.from, d.unit, unit),
  to: convert(d.to, d.unit, unit),
});
