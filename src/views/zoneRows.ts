import type { RatingAdvice } from "../interpretation/rating.ts";
import { numberLabel } from "../interpretation/measurement.ts";
import type { Position } from "../interpretation/rules/bands.ts";
import type { AnalyteId } from "../interpretation/vocabulary.ts";
import type { ZoneAdvice } from "./sample.ts";

/** A result with its class in words; `position` decides how it is set. */
export interface RatedCell {
  readonly value: string;
  readonly band: string | undefined;
  readonly position: Position | undefined;
  /** Why there is no value, or no class. */
  readonly why: string | undefined;
}

export const ratingOf = (zone: ZoneAdvice | undefined, analyte: AnalyteId): RatingAdvice | undefined =>
  zone?.advice.ratings.find((r) => r.measurement.analyte === analyte);

export const ratedCell = (zone: ZoneAdvice | undefined, analyte: AnalyteId): RatedCell => {
  const rating = ratingOf(zone, analyte);
  if (!rating) return { value: "", band: undefined, position: undefined, why: zone ? "not tested" : "not sampled" };
  const { outcome } = rating;
  return outcome.kind === "answer"
    ? { value: numberLabel(rating.measurement), band: outcome.value.band, position: outcome.value.position, why: undefined }
    : { value: numberLabel(rating.measurement), band: undefined, position: undefined, why: outcome.because };
};

/** The zones of one map class share a color: below, within or above the range, or without a class. */
export const mapCss = (cell: RatedCell, analyte: AnalyteId): string => {
  if (cell.value === "") return "c-nd";
  if (cell.position === undefined) return "c-none";
  const diverging = { below: "c-v2", within: "c-v3", above: "c-v4" } as const;
  const sequential = { below: "c-s1", within: "c-s2", above: "c-s4" } as const;
  return (analyte === "pH" ? diverging : sequential)[cell.position];
};
