import type { Evidence, Outcome, Source, Step } from "../interpretation/outcome.ts";
import { notYetChecked, weakestEvidence } from "../interpretation/outcome.ts";
import type { Farm, Reference } from "../records/model.ts";
import { capital } from "./words.ts";
import { paths } from "./paths.ts";

export interface Link {
  readonly text: string;
  readonly to?: string | undefined;
  readonly anchor?: string | undefined;
}

export interface StepRow {
  readonly what: string;
  readonly expression?: string | undefined;
  readonly result: string;
  readonly source?: Link | undefined;
  readonly evidence?: EvidenceMark | undefined;
  readonly note?: string | undefined;
}

export interface EvidenceMark {
  readonly grade: Evidence;
  readonly words: string;
}

const evidenceWords: Record<Evidence, string> = {
  read: "read in the publication",
  derived: "worked out from published figures",
  secondary: "read in another text, not yet checked against the publication",
  memory: "from memory, not yet checked against the publication",
};

export const evidenceMark = (grade: Evidence | undefined): EvidenceMark | undefined => grade && { grade, words: evidenceWords[grade] };

/** "Ohio State University Extension, Bulletin 974, 2020" */
export const referenceLabel = (r: Reference): string => [r.publisher.split(",")[0], r.number ?? r.title, r.year].filter(Boolean).join(", ");

/** A publication as the end of a citation: publisher, number, year. */
export const citation = (r: Reference): string =>
  [r.publisher, r.number, r.edition && `${r.edition} edition`, r.year].filter(Boolean).join(", ");

export const sourceLink = (source: Source | undefined, references: Farm["references"]): Link | undefined => {
  if (source === undefined) return undefined;
  if (source === "common-practice") return { text: "common practice" };
  if ("record" in source) return { text: [`${source.record.file}:${source.record.line}`, source.by].filter(Boolean).join(", ") };
  const reference = references.get(source.reference);
  const label = reference ? referenceLabel(reference) : source.reference;
  return { text: source.at ? `${label}, ${source.at}` : label, to: paths.references, anchor: source.reference };
};

export const stepRows = (steps: readonly Step[], references: Farm["references"]): StepRow[] =>
  steps.map((step) => ({
    what: step.what,
    expression: step.expression,
    result: step.result,
    source: sourceLink(step.source, references),
    evidence: evidenceMark(step.evidence),
    note: step.note && capital(step.note),
  }));

/** The mark of a whole answer: that of its weakest step. */
export const outcomeEvidence = (outcome: Outcome<unknown>): EvidenceMark | undefined =>
  outcome.kind === "answer" ? evidenceMark(weakestEvidence(outcome.steps)) : undefined;

/** What a page must say beside advice whose weakest step is only remembered or read elsewhere. */
export const uncheckedWarning = (outcomes: readonly Outcome<unknown>[]): string | undefined =>
  outcomes.some((o) => o.kind === "answer" && notYetChecked(weakestEvidence(o.steps)))
    ? "Some of this advice rests on values not yet checked against the publication; each line says which."
    : undefined;

/** The publications a set of answers rests on, each once, in order of first use. */
export const citedReferences = (outcomes: readonly Outcome<unknown>[], references: Farm["references"]): Reference[] => {
  const ids = new Set<string>();
  for (const outcome of outcomes)
    if (outcome.kind === "answer")
      for (const { source } of outcome.steps) if (typeof source === "object" && "reference" in source) ids.add(source.reference);
  return [...ids].flatMap((id) => references.get(id) ?? []);
};
