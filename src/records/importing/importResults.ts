import { list } from "../../interpretation/list.ts";
import { resultTable } from "../../exchange/results/resultFile.ts";
import { resultText } from "../../exchange/results/resultFileText.ts";
import { columnMeanings, knownHeader } from "./importResultsColumns.ts";
import type { Candidate, CorrectedResult, NewResult } from "./importResultsRow.ts";
import { readRow } from "./importResultsRow.ts";
import type { Stated, StatementImport } from "./importStatements.ts";
import { statementsOf } from "./importStatements.ts";
import type { Composite, Farm, Field, Lab, Sampling } from "../model.ts";
import { allowedWords } from "../nearMiss.ts";
import { start } from "../place.ts";
import type { Problem } from "../problem.ts";
import { Problems } from "../problem.ts";

/** What an import would add to one bag. */
export interface BagImport extends Candidate {
  readonly added: readonly NewResult[];
  readonly corrected: readonly CorrectedResult[];
}

export interface ImportPlan {
  /** What the file says of the laboratory's own work that the records do not. */
  readonly statements: readonly StatementImport[];
  /** Bags that get results, in the order of the farm's records; empty: there is nothing to do. */
  readonly bags: readonly BagImport[];
  /** Results of the file that the records hold already. */
  readonly known: number;
  /** Bags of these samplings that will still wait for a result. */
  readonly awaited: readonly Candidate[];
}

export interface PlannedImport {
  /** Absent when there is any error: a file is brought in as a whole or not at all. */
  readonly plan: ImportPlan | undefined;
  readonly problems: readonly Problem[];
}

export interface ResultFile {
  /** The name that stands in messages. */
  readonly file: string;
  readonly bytes: Uint8Array;
}

export interface ImportWish {
  /** Among the bags of this sampling alone. */
  readonly only?: { readonly field: Field; readonly sampling: Sampling } | undefined;
  /** Results that the records have otherwise are corrected; else they are refused. */
  readonly correct?: boolean;
}

/**
 * Read a laboratory's result file by the mapping in its record, and find each row's bag by its label among the samplings
 * the laboratory had, or in `only` one of them. Writes nothing and never throws for a mistake in the file.
 */
export const planImport = (
  farm: Farm,
  lab: Lab,
  { file, bytes }: ResultFile,
  { only, correct = false }: ImportWish = {},
): PlannedImport => {
  const problems = new Problems();
  const refused = (): PlannedImport => ({ plan: undefined, problems: problems.all });
  const mapping = lab.resultFile;
  if (!mapping) {
    problems.error(`labs/${lab.id}.yaml`, start, "resultFile", "is missing; it says what each column of the laboratory's file holds");
    return refused();
  }
  const read = resultText(bytes, mapping.encoding);
  if ("fault" in read) {
    problems.error(file, read.fault, "", read.fault.because);
    return refused();
  }
  const shaped = resultTable(read.text, { ...mapping, knows: knownHeader(mapping.columns) });
  if ("faults" in shaped) {
    for (const fault of shaped.faults) problems.error(file, fault, "", fault.because);
    return refused();
  }
  const { table } = shaped;
  const meanings = columnMeanings(table, mapping.columns, file, lab.id, problems);
  const labelColumn = meanings.findIndex((m) => m?.kind === "label");
  if (labelColumn < 0) return refused();

  const candidates = candidatesOf(farm, lab, only);
  const byLabel = new Map<string, Candidate[]>();
  for (const each of candidates) byLabel.set(each.composite.label, [...(byLabel.get(each.composite.label) ?? []), each]);
  const seen = new Map<string, number>();
  const bags = new Map<Composite, BagImport>();
  const stated: Stated[] = [];
  let known = 0;
  const labels = new Set(table.rows.map((row) => row[labelColumn]));
  // A bag that has a row of its own is not the one meant: its results would be another soil's.
  const bagsMeant = (label: string): string => {
    const open = [...byLabel.keys()].filter((each) => !labels.has(each));
    const zeros = open.filter((each) => each.replace(/^0+/, "") === label);
    if (zeros.length === 1)
      return `did you mean ${zeros[0]!}? A spreadsheet takes off the zeros that a label begins with: bring in the file as the laboratory sent it`;
    return open.length === 0 && byLabel.size > 0 ? "every bag that there is has a row of its own" : allowedWords(label, open);
  };
  table.rows.forEach((row, at) => {
    const place = table.place.bind(undefined, at);
    const label = row[labelColumn]!;
    const error = (message: string): void => problems.error(file, place(labelColumn), table.headers[labelColumn]!, message);
    if (label === "") return error("is empty in this row; a row finds its bag by its label");
    const before = seen.get(label);
    if (before !== undefined)
      return error(
        `label "${label}" stands twice in the file, first in line ${table.place(before, labelColumn).line}; a label names one bag`,
      );
    seen.set(label, at);
    const [bag, ...others] = byLabel.get(label) ?? [];
    const where = only ? `${only.field.id}/${only.sampling.id}` : `a sampling that ${lab.id} had`;
    if (!bag) return error(`no bag of ${where} is labeled "${label}"; ${bagsMeant(label)}`);
    if (others.length > 0)
      return error(
        `bags of ${list([bag, ...others].map((c) => `${c.field.id}/${c.sampling.id}`))} are labeled "${label}"; say which with --sampling`,
      );
    const result = readRow(
      { row, place, headers: table.headers, meanings, mapping, file, headerPlace: table.place.bind(undefined, -1) },
      bag,
      correct,
      problems,
    );
    known += result.known;
    stated.push(...result.stated);
    const { added, corrected } = result;
    if (added.length > 0 || corrected.length > 0) bags.set(bag.composite, { ...bag, added, corrected });
  });
  const statements = statementsOf(stated, file, problems);
  if (table.rows.length === 0) problems.error(file, start, "", "has headers and no row below them");
  if (problems.errors.length > 0) return refused();
  const touched = new Set(candidates.filter((c) => seen.has(c.composite.label)).map((c) => c.sampling));
  return {
    plan: {
      statements,
      bags: candidates.flatMap((c) => bags.get(c.composite) ?? []),
      known,
      awaited: candidates.filter((c) => touched.has(c.sampling) && c.composite.measurements.length === 0 && !bags.has(c.composite)),
    },
    problems: problems.all,
  };
};

/** Every bag that the laboratory had, in the order of the records. */
const candidatesOf = (farm: Farm, lab: Lab, only: ImportWish["only"]): Candidate[] =>
  farm.fields.flatMap((field) =>
    field.samplings.flatMap((sampling) =>
      sampling.lab.id === lab.id && (!only || only.sampling === sampling)
        ? sampling.composites.map((composite, index) => ({ field, sampling, composite, index }))
        : [],
    ),
  );
