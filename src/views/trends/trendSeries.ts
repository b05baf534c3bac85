import { isSeasonal } from "../../interpretation/comparable.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { seasonOf } from "../../interpretation/season.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { ComparableHistory } from "./history.ts";
import { newestOf } from "./trendBreaks.ts";

/** The season most of the routine samplings fall in: that is the line, the other season's readings stand beside it. */
const mainSeason = (measurements: readonly Measurement[]): ReturnType<typeof seasonOf> => {
  const routine = measurements.filter((m) => m.purpose === "routine");
  // Where nothing but checks was taken, they are the line.
  const counted = routine.length > 0 ? routine : measurements;
  const spring = counted.filter((m) => seasonOf(m.date) === "spring").length;
  return spring * 2 > counted.length ? "spring" : "autumnToWinter";
};

/** A zone's series of one analyte: those the line is drawn of, and those of the other season, which stand beside it. */
export const seasonSeries = (
  histories: readonly ComparableHistory[],
  analyte: AnalyteId,
): { line: ComparableHistory[]; beside: ComparableHistory[] } => {
  if (!isSeasonal(analyte)) return { line: [...histories], beside: [] };
  const season = mainSeason(histories.flatMap((h) => h.measurements));
  const inLine = (h: ComparableHistory): boolean => seasonOf(h.measurements[0]!.date) === season;
  return { line: histories.filter(inLine), beside: histories.filter((h) => !inLine(h)) };
};

/** The one of a zone's series that says where it is going: the newest of its line, or of the other season where it has no line. */
export const judgedSeries = (histories: readonly ComparableHistory[], analyte: AnalyteId): ComparableHistory | undefined => {
  const { line, beside } = seasonSeries(histories, analyte);
  const judged = line.length > 0 ? line : beside;
  const newest = newestOf(judged.map((s) => s.measurements));
  return judged.find((h) => h.measurements === newest);
};
