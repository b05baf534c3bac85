import type { Evidence, Source } from "../../../interpretation/outcome.ts";
import type { EvidenceMark, Link } from "../../steps.ts";

/** One line of a rule's table, with where it comes from. */
export interface RuleRow {
  readonly cells: readonly string[];
  readonly source: Link | undefined;
  readonly evidence: EvidenceMark | undefined;
  readonly note: string | undefined;
}

export interface RuleTable {
  readonly caption: string;
  readonly head: readonly string[];
  /** The columns that hold numbers, to be set right-aligned. */
  readonly numeric: readonly number[];
  readonly rows: readonly RuleRow[];
}

export interface RuleView {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  readonly holdsFor: string;
  readonly tables: readonly RuleTable[];
}

/** What the tables of a kind in `rules/` are built with and give back. */
export interface RuleParts {
  readonly row: (cells: readonly string[], from: Provenance) => RuleRow;
  readonly view: RuleView;
}

/** Where a value comes from, and how well it is known. */
export interface Provenance {
  readonly source: Source;
  readonly evidence?: Evidence | undefined;
  readonly note?: string | undefined;
}
