import { counted } from "../../interpretation/show.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { ImportPlan } from "../../records/importing/importResults.ts";
import type { Statement } from "../../records/importing/importStatements.ts";
import type { CorrectedResult, NewResult } from "../../records/importing/importResultsRow.ts";

type Bag = ImportPlan["bags"][number];

/** A plain table of what an import would write: one line a bag, with what its record holds now and what comes to it. */
export const importTable = (bags: readonly Bag[]): string => {
  const rows = [["Field", "Sampled", "Zone", "Label", "Results now", "", "Added"], ...bags.map(row)];
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((r) => r[column]!.length)));
  return rows
    .map((r) =>
      r
        .map((cell, column) => cell.padEnd(widths[column]!))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
};

const row = ({ field, sampling, composite, added, corrected }: Bag): string[] =>
  [
    field.id,
    sampling.id,
    composite.zone,
    composite.label,
    old(composite),
    "->",
    [...added.map(result), ...corrected.map(correction)].join(", "),
  ].map(oneLine);

const correction = ({ analyte, was, digits }: CorrectedResult): string => `${analyte} ${was} corrected to ${digits}`;

const old = ({ measurements }: Bag["composite"]): string =>
  measurements.length === 0 ? "awaited" : measurements.map((m) => m.analyte).join(", ");

const result = ({ analyte, digits, qualifier, unit }: NewResult): string =>
  `${analyte} ${qualifier ?? ""}${digits}${unit === "pH" || unit === "index" || unit === analytes[analyte].unit ? "" : ` ${unit}`}`;

/** A label may hold anything; in a terminal, line ends and marks that turn the writing direction would shuffle the table. */
const oneLine = (text: string): string => text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]+/g, " ");

/** What follows the table: how much, and what is still awaited. */
export const importSummary = ({ bags, statements, known, awaited }: ImportPlan): string[] => {
  const told = (of: (bag: Bag) => number, what: string): string[] => {
    const touched = bags.filter((b) => of(b) > 0);
    const samplings = new Set(touched.map((b) => b.sampling.file)).size;
    const count = touched.reduce((sum, b) => sum + of(b), 0);
    return count > 0 ? [`${counted(count, what)} for ${counted(touched.length, "bag")} in ${counted(samplings, "sampling file")}.`] : [];
  };
  return [
    ...told((b) => b.added.length, "result"),
    ...told((b) => b.corrected.length, "correction"),
    ...statements.map(({ field, sampling, said }) => `${field.id}/${sampling.id}: ${oneLine(statementWords(said))}.`),
    ...(known > 0 ? [`${counted(known, "result")} of the file ${known === 1 ? "is" : "are"} in the records already.`] : []),
    ...(awaited.length > 0
      ? [`Still awaited: ${awaited.map((a) => `${oneLine(a.composite.label)} (${a.field.id}/${a.sampling.id})`).join(", ")}.`]
      : []),
  ];
};

/** "received 2025-10-21, reported 2025-10-28, report F25-10418" */
const statementWords = ({ receivedOn, reportedOn, number }: Statement): string =>
  [receivedOn && `received ${receivedOn}`, reportedOn && `reported ${reportedOn}`, number && `report ${number}`].filter(Boolean).join(", ");
