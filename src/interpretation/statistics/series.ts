import type { Measurement } from "../measurement.ts";
import { boundWords } from "../measurement.ts";
import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { AnalyteId, MethodId, SoilTestUnit } from "../vocabulary.ts";
import { analyteInSentence } from "../vocabulary.ts";
import type { Dated } from "./dated.ts";

/** Comparable results of one place, oldest first. */
export interface TestSeries {
  readonly analyte: AnalyteId;
  readonly unit: SoilTestUnit;
  readonly method: MethodId;
  /** Different laboratories among them. */
  readonly labs: number;
  readonly points: readonly Dated[];
}

/** Years since year 0 with the share of the year gone by; `date` is `YYYY-MM-DD`. */
export const decimalYear = (date: string): number => {
  const year = Number(date.slice(0, 4));
  const day = (Date.UTC(year, Number(date.slice(5, 7)) - 1, Number(date.slice(8))) - Date.UTC(year, 0, 1)) / 86_400_000;
  const length = (Date.UTC(year + 1, 0, 1) - Date.UTC(year, 0, 1)) / 86_400_000;
  return year + day / length;
};

/**
 * The numbers of one series of `splitIntoSeries`, whose members are comparable already. A result the laboratory only bounds
 * ("< 3") has no number: then there is no series, rather than one bent by leaving it out.
 */
export const testSeries = (measurements: readonly Measurement[]): Outcome<TestSeries> => {
  const [first] = measurements;
  if (!first) return noAnswer("nothing was measured", ["samplings"]);
  const bounded = measurements.find((m) => m.qualifier);
  if (bounded)
    return noAnswer(`${boundWords(bounded)} in ${bounded.date.slice(0, 4)}, and a trend needs numbers`, [`${bounded.analyte} as a number`]);
  const stray = measurements.find((m) => m.analyte !== first.analyte || m.method !== first.method || m.unit !== first.unit);
  if (stray)
    return noAnswer(`the results of ${analyteInSentence(first.analyte)} are not all of one method and unit`, ["comparable samplings"]);
  const points = measurements.map((m) => ({ x: decimalYear(m.date), y: m.value, bags: m.bags })).sort((a, b) => a.x - b.x);
  return answer(
    { analyte: first.analyte, unit: first.unit, method: first.method, labs: new Set(measurements.map((m) => m.lab)).size, points },
    [],
  );
};
