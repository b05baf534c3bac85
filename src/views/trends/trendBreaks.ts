import { whyNotComparable } from "../../interpretation/comparable.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { depthLabel, methodLabel } from "../../interpretation/measurement.ts";
import { methodShort } from "../../interpretation/vocabulary.ts";
import { monthYear } from "../words.ts";
import { decimalYear } from "../../interpretation/statistics/series.ts";

/** A place on the time axis where one series ends and another begins. */
export interface TrendBreak {
  readonly x: number;
  readonly left: string;
  readonly right: string;
  readonly because: string;
}

type Results = readonly Measurement[];

/** What two results differ in, in as few words as tell them apart. */
const sideNames = (before: Measurement, after: Measurement): [string, string] => {
  if (before.method !== after.method) return [methodShort(before.method), methodShort(after.method)];
  if (methodLabel(before) !== methodLabel(after)) return [methodLabel(before), methodLabel(after)];
  return before.unit === after.unit ? [depthLabel(before.depth), depthLabel(after.depth)] : [before.unit, after.unit];
};

/** The newest result before a day, and the series it stands in. */
const justBefore = (series: readonly Results[], date: string): { last: Measurement; home: Results } | undefined => {
  const all = series.flatMap((home) => home.filter((m) => m.date < date).map((last) => ({ last, home })));
  return all.reduce<(typeof all)[number] | undefined>((best, each) => (best && best.last.date > each.last.date ? best : each), undefined);
};

/**
 * What parts a zone's series of one analyte, in the order they begin. A series that begins after all others have ended is
 * parted from them by a break; one that begins while another still runs has no such place, and is told of in words.
 */
export const breaksOf = (series: readonly Results[]): { breaks: TrendBreak[]; beside: string[] } => {
  const breaks: TrendBreak[] = [];
  const beside: string[] = [];
  series.forEach((results, i) => {
    const after = results[0]!;
    const earlier = series.slice(0, i);
    const before = justBefore(earlier, after.date);
    const [other] = before ? [before.last] : earlier.map((s) => s.at(-1)!);
    if (!other) return;
    // Depths may drift by less than an inch at a time: then a series parts from an older member, not from its newest.
    const because = [other, ...(before?.home.toReversed() ?? [])].map((m) => whyNotComparable(m, after)).find((why) => why !== undefined);
    if (because === undefined) return;
    const [left, right] = sideNames(other, after);
    if (before && earlier.every((s) => s.at(-1)!.date < after.date))
      breaks.push({ x: (decimalYear(other.date) + decimalYear(after.date)) / 2, left, right, because });
    else
      beside.push(
        `${results.length === 1 ? `the result of ${monthYear(after.date)}` : `the results from ${monthYear(after.date)} on`}, ${right}`,
      );
  });
  return { breaks, beside };
};

/** The series that holds the newest result: what a sentence about now must speak of. */
export const newestOf = (series: readonly Results[]): Results | undefined =>
  series.reduce<Results | undefined>((best, each) => (best && best.at(-1)!.date >= each.at(-1)!.date ? best : each), undefined);
