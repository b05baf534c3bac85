import type { Measurement } from "./measurement.ts";
import { depthIn, depthLabel, methodLabel } from "./measurement.ts";
import { seasonName, seasonOf } from "./season.ts";
import type { AnalyteId } from "./vocabulary.ts";

/** Depths further apart than this are different samples: an inch, common practice for plow-layer samples. */
export const depthTolerance = 1;

/** Analytes that move with the season by as much as a class width (reference: seasonal pH and K surveys). */
const seasonal: readonly AnalyteId[] = ["pH", "K"];

/** Does a spring result of it differ from an autumn one by more than noise? */
export const isSeasonal = (analyte: AnalyteId): boolean => seasonal.includes(analyte);

const movedByLime: readonly AnalyteId[] = ["pH", "bufferPh", "exchangeableAcidity", "Al", "Ca", "Mg"];

/** Does lime move it by itself, whatever else happened between two samplings? */
export const isMovedByLime = (analyte: AnalyteId): boolean => movedByLime.includes(analyte);

/**
 * Why two measurements of one place must not be joined or subtracted, or `undefined` when they may.
 * Same analyte, method, finish, preparation, unit and depth within an inch; for pH and K also the same season.
 */
export const whyNotComparable = (a: Measurement, b: Measurement): string | undefined => {
  if (a.analyte !== b.analyte) return "they measure different things";
  if (a.method !== b.method || a.finish !== b.finish || a.preparation !== b.preparation)
    return `the method changed from ${methodLabel(a)} to ${methodLabel(b)}`;
  if (a.unit !== b.unit) return `the unit changed from ${a.unit} to ${b.unit}`;
  const from = depthIn(a.depth, "in");
  const to = depthIn(b.depth, "in");
  // The sum of two converted centimeters can miss an inch by a hair; a thousandth of an inch is no depth.
  if (Math.abs(from.from - to.from) > depthTolerance + 1e-3 || Math.abs(from.to - to.to) > depthTolerance + 1e-3)
    return `the depth changed from ${depthLabel(a.depth)} to ${depthLabel(b.depth)}`;
  if (seasonal.includes(a.analyte) && seasonOf(a.date) !== seasonOf(b.date))
    return `one was taken in ${seasonName(a.date)}, the other in ${seasonName(b.date)}`;
  return undefined;
};

export interface Series {
  readonly measurements: readonly Measurement[];
}

/** By date, and within a day by the place in the records, so that the order a caller happens to hold them in decides nothing. */
const earlier = (a: Measurement, b: Measurement): number => {
  if (a.date !== b.date) return a.date < b.date ? -1 : 1;
  if (a.origin.file !== b.origin.file) return a.origin.file < b.origin.file ? -1 : 1;
  return a.origin.line - b.origin.line || a.origin.column - b.origin.column;
};

/**
 * Split one zone's measurements of one analyte, in order of date, into series within which every pair is comparable.
 * A measurement joins the newest series whose every member it may be compared with; so a spring reading between two
 * autumn ones starts a series of its own and does not cut the autumn line.
 */
export const splitIntoSeries = (measurements: readonly Measurement[]): Series[] => {
  const series: Measurement[][] = [];
  for (const m of [...measurements].sort(earlier)) {
    const home = series.findLast((members) => members.every((member) => whyNotComparable(member, m) === undefined));
    if (home) home.push(m);
    else series.push([m]);
  }
  return series.map((members) => ({ measurements: members }));
};
