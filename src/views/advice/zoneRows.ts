import type { RatingAdvice } from "../../interpretation/rating.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { numberLabel } from "../../interpretation/measurement.ts";
import type { Position } from "../../interpretation/rules/bands.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { CorrectionWords } from "../results/correction.ts";
import { correctionsOf } from "../results/correction.ts";
import type { ZoneAdvice } from "./sample.ts";

/** A result with its class in words; `position` decides how it is set. */
export interface RatedCell {
  readonly value: string;
  /** The unit the laboratory reported, nothing for pH. */
  readonly unit: string;
  readonly band: string | undefined;
  readonly position: Position | undefined;
  /** Why there is no value, or no class. */
  readonly why: string | undefined;
  readonly corrections: readonly CorrectionWords[];
  readonly measurement: Measurement | undefined;
  /** How it was taken otherwise than most of the cells it is shown with, so that it is not compared with them unseen. */
  readonly apart: string | undefined;
}

/** A zone with what the guidelines say of its results. */
export type RatedZone = Pick<ZoneAdvice, "sampling"> & { readonly advice: Pick<ZoneAdvice["advice"], "ratings"> };

export const ratingOf = (zone: RatedZone | undefined, analyte: AnalyteId): RatingAdvice | undefined =>
  zone?.advice.ratings.find((r) => r.measurement.analyte === analyte);

export const ratedCell = (zone: RatedZone | undefined, analyte: AnalyteId): RatedCell => {
  const rating = ratingOf(zone, analyte);
  if (!rating)
    return {
      value: "",
      unit: "",
      band: undefined,
      position: undefined,
      why: zone ? "not tested" : "not sampled",
      corrections: [],
      measurement: undefined,
      apart: undefined,
    };
  const { outcome, measurement } = rating;
  const shown = {
    value: numberLabel(measurement),
    unit: measurement.unit === "pH" ? "" : measurement.unit,
    corrections: correctionsOf(measurement),
    measurement,
    apart: undefined,
  };
  return outcome.kind === "answer"
    ? { ...shown, band: outcome.value.band, position: outcome.value.position, why: undefined }
    : { ...shown, band: undefined, position: undefined, why: outcome.because };
};

/** "Potassium, mg/l": the unit of the results that stand in a column, which differ by laboratory and country. */
export const columnHead = (analyte: AnalyteId, cells: readonly RatedCell[]): string => {
  const units = [...new Set(cells.filter((cell) => cell.value !== "").map((cell) => cell.unit))];
  // A column where nothing was tested is headed by the usual unit.
  const usual = analytes[analyte].unit === "pH" ? "" : analytes[analyte].unit;
  const unit = units.length === 0 ? usual : units.length === 1 ? units[0]! : "";
  return `${analytes[analyte].label}${unit === "" ? "" : `, ${unit}`}`;
};

/** Cells of one column. Where they hold several units, each says its own. */
export const sayUnits = (cells: readonly RatedCell[]): RatedCell[] => {
  const units = new Set(cells.filter((cell) => cell.value !== "").map((cell) => cell.unit));
  return cells.map((cell) => (units.size > 1 && cell.value !== "" ? { ...cell, value: `${cell.value} ${cell.unit}`.trim() } : cell));
};

/** The zones of one map class share a color: below, within or above the range, or without a class. */
export const mapCss = (cell: RatedCell, analyte: AnalyteId): string => {
  if (cell.value === "") return "c-nd";
  if (cell.position === undefined) return "c-none";
  const diverging = { below: "c-v2", within: "c-v3", above: "c-v4" } as const;
  const sequential = { below: "c-s1", within: "c-s2", above: "c-s4" } as const;
  return (analyte === "pH" ? diverging : sequential)[cell.position];
};
