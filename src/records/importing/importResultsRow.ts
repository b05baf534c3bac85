import { writtenDate, writtenValue } from "../../exchange/results/resultFileValue.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { cationMass, convertWritten, oxidePerElement } from "../../interpretation/units.ts";
import type { WrittenUnit } from "../../interpretation/units.ts";
import { unitsFor, type AnalyteId, type SoilTestUnit } from "../../interpretation/vocabulary.ts";
import type { ColumnMeaning } from "./importResultsColumns.ts";
import type { Stated, StatementId } from "./importStatements.ts";
import type { Composite, Field, Sampling } from "../model.ts";
import type { Place } from "../place.ts";
import type { Problems } from "../problem.ts";
import { warnIfImplausible } from "../reading/readSampling.ts";
import type { ResultFileRecord } from "../schemas/lab.ts";

/** A bag of the farm that a row may be about; `index` is its place in its sampling, from 0. */
export interface Candidate {
  readonly field: Field;
  readonly sampling: Sampling;
  readonly composite: Composite;
  readonly index: number;
}

/** A result to be written, in the unit of the bag's package. */
export interface NewResult {
  readonly analyte: AnalyteId;
  readonly value: number;
  /** The number as it is written: with the laboratory's own digits, unless it was converted. */
  readonly digits: string;
  readonly qualifier: "<" | ">" | undefined;
  readonly unit: SoilTestUnit;
}

/** A result of the records that a file says otherwise, and by which number it is to be corrected. */
export interface CorrectedResult extends NewResult {
  readonly was: number;
}

export interface Row {
  readonly row: readonly string[];
  readonly headers: readonly string[];
  readonly meanings: readonly (ColumnMeaning | undefined)[];
  readonly mapping: ResultFileRecord;
  readonly file: string;
  readonly place: (column: number) => Place;
  readonly headerPlace: (column: number) => Place;
}

export interface RowRead {
  readonly stated: readonly Stated[];
  readonly added: readonly NewResult[];
  readonly corrected: readonly CorrectedResult[];
  /** How many of its results the records hold already. */
  readonly known: number;
}

/**
 * What a row adds to its bag, in the order of the package, and with `correct` what it corrects; else a result that the records have
 * otherwise is a problem.
 */
export const readRow = (row: Row, bag: Candidate, correct: boolean, problems: Problems): RowRead => {
  const { mapping, file, meanings } = row;
  const missing = new Set(["", ...mapping.missing.map((word) => word.toLowerCase())]);
  const added: NewResult[] = [];
  const corrected: CorrectedResult[] = [];
  const stated: Stated[] = [];
  let known = 0;
  row.row.forEach((text, column) => {
    const meaning = meanings[column];
    const error = (message: string): void => problems.error(file, row.place(column), row.headers[column]!, message);
    if (missing.has(text.toLowerCase())) return;
    const state = (id: StatementId, said: string): void => {
      stated.push({ field: bag.field, sampling: bag.sampling, id, text: said, header: row.headers[column]!, place: row.place(column) });
    };
    if (meaning?.kind === "report") state("number", text);
    if (meaning?.kind === "date") {
      const day = readDate(text, meaning.order, error);
      if (day === undefined) return;
      if (meaning.of === "sampling") checkDate(day, bag.sampling, error);
      else state(meaning.of === "receipt" ? "receivedOn" : "reportedOn", day);
    }
    if (meaning?.kind !== "analyte") return;
    const result = readResult(text, column, meaning, row, bag, problems);
    if (!result) return;
    const old = bag.composite.measurements.find((m) => m.analyte === result.analyte);
    if (old && same(old, result)) known += 1;
    else if (old && !(correct && canCorrect(old, result))) error(differs(old, result, bag.composite.label));
    else {
      warnIfImplausible({ ...result, origin: { file, ...row.place(column) } }, [row.headers[column]!], problems);
      if (old) corrected.push({ ...result, was: old.value });
      else added.push(result);
    }
  });
  const order = Object.keys(bag.sampling.measures);
  const ordered = <T extends NewResult>(results: T[]): T[] => results.sort((a, b) => order.indexOf(a.analyte) - order.indexOf(b.analyte));
  return { stated, added: ordered(added), corrected: ordered(corrected), known };
};

const readDate = (text: string, order: Parameters<typeof writtenDate>[1], error: (message: string) => void): string | undefined => {
  const day = writtenDate(text, order);
  if (day === undefined) error(`"${text.slice(0, 40)}" is not a calendar day written as ${order}, the year in four digits`);
  return day;
};

const checkDate = (day: string, { date }: Sampling, error: (message: string) => void): void => {
  if (day !== date)
    error(
      `is ${day}, and this bag's sampling is of ${date}; of a date that is not of the sampling, resultFile.columns says of: receipt or report, or ignore`,
    );
};

const readResult = (
  text: string,
  column: number,
  meaning: Extract<ColumnMeaning, { kind: "analyte" }>,
  row: Row,
  { sampling }: Candidate,
  problems: Problems,
): NewResult | undefined => {
  const { analyte } = meaning;
  const header = row.headers[column]!;
  const unit = sampling.measures[analyte]?.unit;
  if (unit === undefined) {
    const message = `${analyte} is not in package "${sampling.packageId}", which ${sampling.file} names; correct the package, or say how it was measured under measured:`;
    return problems.error(row.file, row.place(column), header, message) as undefined;
  }
  const read = writtenValue(text, row.mapping.decimal);
  if ("because" in read) return problems.error(row.file, row.place(column), header, read.because) as undefined;
  const from = meaning.unit ?? unit;
  const value = convertWritten(read.value, from, unit) ?? cationMass(analyte, read.value, from, unit);
  if (value === undefined) {
    // Told once a file and package, at the header.
    const message = `is in ${from}, and package "${sampling.packageId}" reports ${analyte} in ${unit}; the two are not one by definition, so nothing is converted${otherUnit(analyte, from, unit)}`;
    return problems.error(row.file, row.headerPlace(column), header, message) as undefined;
  }
  if (meaning.oxide) {
    // Four figures are more than any extract is good for, and keep a limit printed as oxide where it stands.
    const element = Number((value / oxidePerElement[meaning.oxide]).toPrecision(4));
    return { analyte, value: element, digits: String(element), qualifier: read.qualifier, unit };
  }
  return { analyte, value, digits: value === read.value ? read.digits : String(value), qualifier: read.qualifier, unit };
};

/** What to do where the laboratory reports in that unit, which records may state, or has pounds or ppm that it calls an index. */
const otherUnit = (analyte: AnalyteId, written: WrittenUnit, reported: SoilTestUnit): string => {
  if (!(unitsFor(analyte) as readonly string[]).includes(written)) return "";
  const first =
    written === "index"
      ? `If its figures are in ${reported} all the same, say { analyte: ${analyte}, unit: ${reported} } of the column; else let`
      : "If that is the laboratory's unit, let";
  return `. ${first} the package say unit: ${written}, or the sampling, under measured:`;
};

/** A result that was corrected is known by what the laboratory wrote first, and by what was put right. */
const same = (old: Measurement, { value, qualifier }: NewResult): boolean =>
  (old.value === value && old.qualifier === qualifier) ||
  (old.correction !== undefined && old.correction.was === value && old.correction.qualifier === qualifier);

/** A correction puts one number in another's place, once; it cannot say "less than". */
const canCorrect = (old: Measurement, result: NewResult): boolean =>
  old.correction === undefined && result.qualifier === undefined && old.value !== result.value;

const differs = (old: Measurement, result: NewResult, label: string): string => {
  const was = old.correction?.was ?? old.value;
  const bound = old.correction ? old.correction.qualifier : old.qualifier;
  const first = `${bound ?? ""}${was}`;
  const now = old.correction ? `, corrected to ${old.value} in line ${old.correction.origin.line}` : "";
  const says = `says ${result.qualifier ?? ""}${result.digits}, and ${old.origin.file}:${old.origin.line} says ${first}${now}; a result is never edited`;
  if (was === result.value || result.qualifier !== undefined)
    return `${says}, and no correction can tell these two apart: ask the laboratory which it is, and keep it in the note:`;
  const correction = `{ composite: ${JSON.stringify(label)}, analyte: ${result.analyte}, was: ${was}, now: ${result.digits}, reason: ..., date: ... }`;
  return old.correction
    ? `${says}: if the correction is wrong too, put ${correction} in its place`
    : `${says}: if the record is wrong, add ${correction} to its corrections:, or let --correct do so`;
};
