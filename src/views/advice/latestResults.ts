import type { Farm } from "../../records/model.ts";
import type { ResultRow } from "../results/rows.ts";
import { fieldRows, resultsCsv } from "../results/rows.ts";

/** The newest result of each analyte in each zone, for the download beside the table of fields. */
export const latestRows = (farm: Farm): ResultRow[] =>
  farm.fields.flatMap((field) => {
    const newest = new Map<string, string>();
    const rows = fieldRows(field);
    const key = (r: ResultRow): string => `${r.zone.id} ${r.measurement.analyte}`;
    // The rows come oldest first.
    for (const row of rows) newest.set(key(row), row.sampling.date);
    return rows.filter((row) => newest.get(key(row)) === row.sampling.date);
  });

const csvOfFarm = new WeakMap<Farm, string>();

/** The newest results as CSV, made once: the page tells its weight and the download holds it. */
export const latestCsv = (farm: Farm): string => {
  let text = csvOfFarm.get(farm);
  if (text === undefined) csvOfFarm.set(farm, (text = resultsCsv(latestRows(farm), farm.units)));
  return text;
};
