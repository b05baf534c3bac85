import type { Verdict } from "../../interpretation/checks/check.ts";
import { coverage } from "../../interpretation/checks/coverage.ts";
import type { Checked, CheckedList } from "../../interpretation/checks/runChecks.ts";
import { evidenceGrades } from "../../interpretation/outcome.ts";
import { plain } from "../../interpretation/show.ts";
import type { Checks } from "../../records/reading/readChecks.ts";
import type { EvidenceMark } from "../steps.ts";
import { evidenceMark } from "../steps.ts";
import type { Unchecked } from "./uncheckedValues.ts";
import { uncheckedValues } from "./uncheckedValues.ts";
import { capital, count } from "../words.ts";

/** One published value beside what the program makes of it. */
export interface CheckRow {
  readonly name: string;
  readonly published: string;
  readonly worked: string;
  /** "agrees within 0.5", where the publication rounded or slipped, and what is known of that. */
  readonly result: string;
  readonly note: string | undefined;
  /** Absent where it is checked in the test run only. */
  readonly agrees: boolean | undefined;
}

/** The check values of one kind that rest on one place of one publication. */
export interface CheckGroup {
  readonly publication: string;
  readonly place: string;
  readonly evidence: EvidenceMark;
  readonly result: string;
  readonly rows: readonly CheckRow[];
}

export interface CheckTable {
  readonly id: string;
  readonly title: string;
  readonly lede: string;
  readonly about: string;
  readonly groups: readonly CheckGroup[];
}

export interface CheckTotal {
  readonly title: string;
  readonly id: string;
  /** One a grade of evidence, in their order. */
  readonly counts: readonly number[];
  readonly all: number;
  readonly result: string;
}

export interface ChecksView {
  readonly lede: string;
  readonly grades: readonly EvidenceMark[];
  readonly totals: readonly CheckTotal[];
  readonly tables: readonly CheckTable[];
  readonly unchecked: readonly Unchecked[];
  readonly uncheckedNote: string;
}

/** All that the page shows on which the program is held to published values. */
export const checksView = (checks: Checks): ChecksView => {
  const { lists, values } = coverage(checks.files, checks.packs);
  const all = lists.flatMap((l) => l.checks);
  const worked = all.filter((c) => c.verdicts);
  const failed = worked.filter((c) => !agrees(c));
  const free = values.filter((v) => v.state === "free");
  const unrun = values.filter((v) => v.state === "unrun");
  const again = `${worked.length === all.length ? "All" : plain(worked.length)} were worked out again by its very code and guidelines`;
  const agreed = failed.length === 0 ? "all of these agree" : `${plain(failed.length)} of these do not agree`;
  return {
    lede:
      all.length === 0
        ? "The check values are not at hand: they ship with the tests of the installation, and this one has none."
        : `${plain(all.length)} published values are held against this program. ${again}, and ${agreed}.`,
    grades: evidenceGrades.map((g) => evidenceMark(g)!),
    totals: lists.map(total),
    tables: lists.map(table),
    unchecked: uncheckedValues(values, checks.packs),
    uncheckedNote: `${plain(values.length)} numbers stand in the rules of ${checks.packs.size} guidelines. ${plain(values.length - free.length - unrun.length)} are held by a check value: were the number a tenth higher or lower, a check would fail. ${free.length} are held by none${unrun.length > 0 ? `, and ${unrun.length} belong to kinds of rule that are checked in the test run only` : ""}.`,
  };
};

const agrees = ({ verdicts }: Checked): boolean => verdicts !== undefined && verdicts.length > 0 && verdicts.every((v) => v.ok);

/** "index-offtake": the name of its page. */
const idOf = (l: CheckedList): string =>
  `${l.file}${l.list === "cases" ? "" : `-${l.list}`}`.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`);

/** A camelCase kind as words, for a kind that brings no title: "quadraticIndex" is "Quadratic index". */
const titleOf = (l: CheckedList): string =>
  l.kind ? l.title : `${capital(l.file.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`))}${l.list === "cases" ? "" : `, ${l.list}`}`;

const total = (l: CheckedList): CheckTotal => {
  const bad = l.checks.filter((c) => c.verdicts && !agrees(c)).length;
  return {
    title: titleOf(l),
    id: idOf(l),
    counts: evidenceGrades.map((g) => l.checks.filter((c) => c.evidence === g).length),
    all: l.checks.length,
    result: l.kind ? (bad === 0 ? "all agree" : `${bad} do not agree`) : "checked in the test run only",
  };
};

const table = (l: CheckedList): CheckTable => {
  const groups = new Map<string, Checked[]>();
  for (const c of l.checks) {
    const key = [c.rule, c.from.source, c.from.at, c.evidence].join("\n");
    groups.set(key, [...(groups.get(key) ?? []), c]);
  }
  return {
    id: idOf(l),
    title: titleOf(l),
    lede: `${capital(count(l.checks.length, "published value"))}: ${total(l).result}.`,
    about: l.kind
      ? "Worked out by the same code that works out the advice."
      : "Checked in the test run only; the page lists the values and does not work them out.",
    groups: [...groups.values()].map(group),
  };
};

/** Names of the program as words: "noAnswer" is "no answer". Units and pH stay as they are. */
const asWords = (text: string): string =>
  text.replace(/\b(?!pH\b|dS\b)[a-z]+(?:[A-Z][a-z]*)+\b/g, (name) => name.replace(/[A-Z]/g, (c) => ` ${c.toLowerCase()}`));

const shown = (value: Verdict["got"]): string => (typeof value === "number" ? plain(value, 4) : asWords(value ?? "nothing"));

/** "rate 120; unit lb/ac": every part of a value that is compared. */
const parts = (verdicts: readonly Verdict[] | undefined, side: "got" | "wanted"): string =>
  (verdicts ?? []).map((v) => (verdicts!.length > 1 ? `${asWords(v.what)} ${shown(v[side])}` : shown(v[side]))).join("; ");

const row = (c: Checked): CheckRow => {
  const [published, worked] = [parts(c.verdicts, "wanted"), parts(c.verdicts, "got")];
  const agreed =
    published === worked ? "agrees" : c.tolerance === undefined ? "counts as agreeing" : `agrees within ${plain(c.tolerance, 6)}`;
  return {
    name: asWords(c.name),
    published,
    worked,
    result: !c.verdicts ? "in the test run" : agrees(c) ? agreed : "does not agree",
    note: c.note,
    agrees: c.verdicts && agrees(c),
  };
};

const group = (checks: readonly Checked[]): CheckGroup => {
  const [first] = checks;
  const failed = checks.filter((c) => c.verdicts && !agrees(c));
  return {
    publication: first!.from.source,
    place: first!.from.at,
    evidence: evidenceMark(first!.evidence)!,
    result: !first!.verdicts
      ? `${checks.length}, in the test run`
      : failed.length === 0
        ? checks.length === 1
          ? "agrees"
          : `all ${checks.length} agree`
        : `${failed.length} of ${checks.length} do not agree`,
    rows: checks.map(row),
  };
};
