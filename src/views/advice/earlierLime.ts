import { daysBetween } from "../../interpretation/days.ts";
import type { EarlierLime } from "../../interpretation/rules/bufferAcidity.ts";
import { convert } from "../../interpretation/units.ts";
import type { Field } from "../../records/model.ts";
import { onGroundBefore, onSomeGroundBefore } from "../zonesThen.ts";

/** The mean length of a month in the Gregorian calendar: 365.2425 days over 12. */
const daysInMonth = 30.436875;

/** Months between two days written as `YYYY-MM-DD`. */
export const monthsBetween = (from: string, to: string): number => daysBetween(from, to) / daysInMonth;

/**
 * Lime that the records say was spread on a zone on or before a day, ton/ac as spread, newest last.
 * `undefined` where the field has no records of seasons: that no lime was spread is then not known. Nor is it where a part of the zone's
 * ground alone was limed, before it was drawn anew.
 */
export const earlierLime = (field: Field, zone: string, date: string): EarlierLime[] | undefined => {
  if (field.seasons.length === 0) return undefined;
  const limed = field.seasons
    .flatMap((s) => s.applications)
    .filter((a) => a.product.lime !== undefined && onSomeGroundBefore(field, zone, a.zones) && a.date <= date);
  if (!limed.every((a) => onGroundBefore(field, zone, a.zones))) return undefined;
  return limed
    .sort((a, b) => (a.date < b.date ? -1 : 1))
    .map((a) => ({
      rate: convert(a.rate.value, a.rate.unit, "ton/ac"),
      months: monthsBetween(a.date, date),
      source: { record: a.origin },
    }));
};
