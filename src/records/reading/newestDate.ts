import { noDay } from "../../interpretation/noDay.ts";
import type { Field } from "../model.ts";

/** The newest day anything in the records happened. A farm with nothing recorded yet speaks from its oldest possible day. */
export const newestDate = (fields: readonly Field[]): string => {
  let newest: string = noDay;
  const see = (date: string | undefined): void => {
    if (date !== undefined && date > newest) newest = date;
  };
  for (const field of fields) {
    for (const s of field.samplings) {
      [s.date, s.handling.receivedOn, s.handling.reportedOn].forEach(see);
      // A result is shown and advised from as it was put right, which was not known before.
      s.composites.forEach((c) => c.measurements.forEach((m) => see(m.correction?.date)));
    }
    for (const season of field.seasons) {
      season.applications.forEach((a) => see(a.date));
      season.crops.forEach((c) => [c.planted, c.harvested].forEach(see));
    }
    field.recommendations.forEach((r) => see(r.id));
  }
  return newest;
};
