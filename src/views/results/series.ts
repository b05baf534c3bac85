import { splitIntoSeries } from "../../interpretation/comparable.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import type { Field } from "../../records/model.ts";

const numbered = new WeakMap<Field, ReadonlyMap<Measurement, number>>();

/**
 * The number of the series each result of a field stands in, counted from 1 within its zone and analyte. Two results of one
 * zone and analyte may be compared if, and only if, they bear one number: tables and downloads print it beside them.
 */
export const seriesNumbers = (field: Field): ReadonlyMap<Measurement, number> => {
  let found = numbered.get(field);
  if (!found) numbered.set(field, (found = number(field)));
  return found;
};

const number = (field: Field): Map<Measurement, number> => {
  const places = new Map<string, Measurement[]>();
  for (const { composites } of field.samplings)
    for (const { zone, measurements } of composites)
      for (const m of measurements) {
        const key = `${zone} ${m.analyte}`;
        const list = places.get(key);
        if (list) list.push(m);
        else places.set(key, [m]);
      }
  const numbers = new Map<Measurement, number>();
  for (const list of places.values())
    splitIntoSeries(list).forEach(({ measurements }, i) => measurements.forEach((m) => numbers.set(m, i + 1)));
  return numbers;
};

/** "causeway/knoll/K/2": the same text in two lines of a download means that the two may be compared. */
export const seriesName = (field: Field, zone: string, m: Measurement): string =>
  `${field.id}/${zone}/${m.analyte}/${seriesNumbers(field).get(m)!}`;
