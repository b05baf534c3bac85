import { numberLabel } from "../../interpretation/measurement.ts";
import { changeBetween } from "../../interpretation/statistics/change.ts";
import type { Application, Field, Zone } from "../../records/model.ts";
import type { ComparableHistory } from "./history.ts";
import { leastBeside } from "./trendWords.ts";
import { monthYear } from "../words.ts";

/** What was spread of lime on a zone, oldest first. */
export const limings = (field: Field, zone: Zone): Application[] =>
  field.seasons
    .flatMap((s) => s.applications)
    .filter((a) => a.product.lime && a.zones.includes(zone.id))
    .sort((a, b) => (a.date < b.date ? -1 : 1));

/** The day of the last lime between two of these results: what they did before it and since is not one course. */
export const limedBetween = ({ measurements }: ComparableHistory, limes: readonly Pick<Application, "date">[]): string | undefined =>
  limes.findLast((lime) => measurements[0]!.date <= lime.date && lime.date < measurements.at(-1)!.date)?.date;

/** "Limed in April 2019; since then soil pH went from 6.3 in October 2020 to 5.7 in October 2025, more than noise (0.26)."; nothing where it was not. */
export const sinceLime = (history: ComparableHistory, limes: readonly Pick<Application, "date">[]): string => {
  const limed = limedBetween(history, limes);
  if (limed === undefined) return "";
  const after = history.measurements.filter((m) => m.date > limed);
  const [first, last] = [after[0]!, after.at(-1)!];
  const spread = `Limed in ${monthYear(limed)}`;
  if (first === last) return `${spread}, and sampled once since.`;
  const went = `${spread}; since then soil pH went from ${numberLabel(first)} in ${monthYear(first.date)} to ${numberLabel(last)} in ${monthYear(last.date)}`;
  const noise = history.between(first, last);
  const change = first.qualifier || last.qualifier ? undefined : changeBetween(first, last, noise);
  return change?.kind === "answer"
    ? `${went}, ${change.value.beyondNoise ? "more than" : "within"} noise (${leastBeside(change.value, last)}).`
    : `${went}.`;
};
