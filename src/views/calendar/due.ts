import { samplingAdvice } from "../../interpretation/sampling/samplingAdvice.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { inYearsShown, leftOutForReader } from "../leftOut.ts";
import { monthYear } from "../words.ts";

export interface Due {
  /** The oldest of the zones' newest routine samplings; `undefined` when a zone was never sampled. */
  readonly last: string | undefined;
  /** The day it is due, `YYYY-MM-DD`; `undefined` where no guideline says or a zone was never sampled. */
  readonly next: string | undefined;
  readonly overdue: boolean;
  /** None of the zones was ever sampled. */
  readonly never: boolean;
  /** And yet the field was: its zones were drawn anew since. */
  readonly redrawn: boolean;
  readonly words: string;
}

/** When the next routine sampling of a field, or of one of its zones, is due: the longest-waiting zone plus the longest interval of the first guideline that states one. */
export const dueOf = (farm: Farm, field: Field, only?: Zone): Due => {
  const zones = only ? [only] : field.zones;
  const newest = zones.map(
    (zone) => field.samplings.findLast((s) => s.purpose === "routine" && s.composites.some((c) => c.zone === zone.id))?.date,
  );
  const { outcome } = samplingAdvice(field.guidelines, { purpose: "routine", tillage: field.tillage, crop: field.plan[0]?.crop }).interval;
  const years = outcome.kind === "answer" ? outcome.value.most : undefined;
  const never = newest.every((d) => d === undefined);
  const redrawn = never && (only ? only.formerly !== undefined : field.samplings.some((s) => s.purpose === "routine"));
  const unsampled = zones.filter((_, i) => newest[i] === undefined);
  if (unsampled.some((zone) => mayBeInTime(farm, zone, years)))
    return {
      last: undefined,
      next: undefined,
      overdue: false,
      never,
      redrawn,
      words: `not known, because earlier samplings are ${leftOutForReader}`,
    };
  if (unsampled.length > 0)
    return {
      last: undefined,
      next: undefined,
      overdue: true,
      never,
      redrawn,
      words: `now: ${redrawn ? "not sampled since the zones were drawn anew" : `${never ? "never" : "not every zone has been"} sampled${inYearsShown(farm)}`}`,
    };
  const last = newest.reduce((oldest, d) => (d! < oldest! ? d : oldest))!;
  if (years === undefined) return { last, next: undefined, overdue: false, never, redrawn, words: "not set by a guideline" };
  const next = yearsAfter(last, years);
  const overdue = next < farm.today;
  return { last, next, overdue, never, redrawn, words: overdue ? `${monthYear(next)}, overdue` : monthYear(next) };
};

/** A sampling before the first year shown may still hold: what the reader is not shown is not told as due. A zone that began since has none. */
export const mayBeInTime = (farm: Farm, { since }: Pick<Zone, "since">, years: number | undefined): boolean => {
  const from = farm.withheld?.years?.from;
  if (from !== undefined && since !== undefined && Number(since.slice(0, 4)) >= from) return false;
  return from !== undefined && (years === undefined || yearsAfter(`${from - 1}-12-31`, years) >= farm.today);
};

/** The same day of the year, so many years on. */
export const yearsAfter = (date: string, years: number): string => `${Number(date.slice(0, 4)) + years}${date.slice(4)}`;
