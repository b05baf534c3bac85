import type { Measurement } from "../../interpretation/measurement.ts";

import { unitChoices } from "../../interpretation/unitChoices.ts";
import type { LengthUnit } from "../../interpretation/units.ts";
import { convert } from "../../interpretation/units.ts";
import { finishes, methods, preparations } from "../../interpretation/vocabulary.ts";
import type { Cell } from "../../exchange/csv.ts";
import { toCsv } from "../../exchange/csv.ts";
import type { Composite, Farm, Field, Sampling, Zone } from "../../records/model.ts";
import { seriesName } from "./series.ts";
import { everyZone } from "../zonesThen.ts";

/** One result of one bag: the row behind a point in a chart, a line in a table and a line in a CSV. */
export interface ResultRow {
  readonly field: Field;
  readonly zone: Zone;
  readonly sampling: Sampling;
  readonly composite: Composite;
  readonly measurement: Measurement;
}

/** Every result of a field, oldest event first, then in the order of zones and bags. */
export const fieldRows = (field: Field): ResultRow[] =>
  field.samplings.flatMap((sampling) =>
    everyZone(field).flatMap((zone) =>
      sampling.composites
        .filter((composite) => composite.zone === zone.id)
        .flatMap((composite) => composite.measurements.map((measurement) => ({ field, zone, sampling, composite, measurement }))),
    ),
  );

const columnsFor = (units: Farm["units"]) => [
  "field",
  "zone",
  "date",
  "purpose",
  "analyte",
  "qualifier",
  "value",
  "unit",
  "method",
  "finish",
  "preparation",
  `depth_from_${unitChoices[units].length}`,
  `depth_to_${unitChoices[units].length}`,
  "laboratory",
  "bag",
  "cores",
  "series",
  "corrected_from",
  "correction_reason",
  "correction_date",
  "report",
  "record",
];

const depthCell = (value: number, unit: LengthUnit, units: Farm["units"]): number =>
  Number(convert(value, unit, unitChoices[units].length).toFixed(2));

const csvRow = ({ field, zone, sampling, composite, measurement: m }: ResultRow, units: Farm["units"]): Cell[] => [
  field.id,
  zone.id,
  sampling.date,
  sampling.purpose,
  m.analyte,
  m.qualifier,
  m.value,
  m.unit,
  methods[m.method].label,
  m.finish && finishes[m.finish],
  m.preparation && preparations[m.preparation],
  depthCell(m.depth.from, m.depth.unit, units),
  depthCell(m.depth.to, m.depth.unit, units),
  sampling.lab.id,
  composite.label,
  composite.cores,
  seriesName(field, zone.id, m),
  m.correction && `${m.correction.qualifier ?? ""}${m.correction.was}`,
  m.correction?.reason,
  m.correction?.date,
  sampling.report?.number,
  `${m.origin.file}:${m.origin.line}`,
];

export const resultsCsv = (rows: readonly ResultRow[], units: Farm["units"]): string =>
  toCsv(
    columnsFor(units),
    rows.map((row) => csvRow(row, units)),
  );

const csvOfField = new WeakMap<Field, string>();

/** A field's results as CSV; the page tells its weight and the download holds it, so it is made once. */
export const fieldCsv = (field: Field, units: Farm["units"]): string => {
  let text = csvOfField.get(field);
  if (text === undefined) csvOfField.set(field, (text = resultsCsv(fieldRows(field), units)));
  return text;
};

/** "2 kB": what a download weighs, so that a reader on a slow line knows. */
export const weight = (content: string | Uint8Array): string =>
  bytesWords(typeof content === "string" ? new TextEncoder().encode(content).length : content.length);
export const bytesWords = (bytes: number): string => (bytes < 1024 ? `${bytes} bytes` : `${Math.round(bytes / 1024)} kB`);
