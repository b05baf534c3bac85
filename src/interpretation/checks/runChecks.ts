import * as z from "zod";
import type { Guideline, Section } from "../guideline.ts";
import type { Evidence } from "../outcome.ts";
import type { CheckKind, Published, Verdict } from "./check.ts";
import { ownRules, published, shelfOf } from "./check.ts";
import { checkKinds } from "./kinds.ts";

/** A file of cases as plain data. */
export interface RawChecks {
  readonly name: string;
  readonly raw: Readonly<Record<string, unknown>>;
}

export interface Checked {
  readonly name: string;
  readonly from: Published["from"];
  readonly evidence: Evidence;
  readonly note: string | undefined;
  /** How far the sum may be from the printed number, where that was rounded. */
  readonly tolerance: number | undefined;
  /** The rule it is about, `guideline/section`, or a name within the file of cases; empty where it is about none. */
  readonly rule: string;
  /** Absent where the site cannot work it out itself: then only the test run does. */
  readonly verdicts: readonly Verdict[] | undefined;
}

export interface CheckedList {
  readonly file: string;
  readonly list: string;
  readonly title: string;
  readonly kind: CheckKind | undefined;
  readonly checks: readonly Checked[];
}

/** A check value that was worked out, as coverage asks it again. */
export interface Ran {
  readonly kind: CheckKind;
  readonly check: Published;
  /** The rules that stand in its own file. */
  readonly own: Readonly<Record<string, Section>>;
  readonly verdicts: readonly Verdict[];
}

const header = z.looseObject({ ...published.shape, rule: z.string().optional() });

const listsOf = (raw: RawChecks["raw"]): [string, unknown[]][] =>
  Object.entries(raw).flatMap(([key, value]): [string, unknown[]][] =>
    Array.isArray(value) && key !== "sources" && header.safeParse(value[0]).success ? [[key, value]] : [],
  );

/**
 * Work out every published check value by the functions that advice is worked out by. One entry for every list of every file.
 * `ran` hears of each value as soon as it is worked out.
 */
export const runChecks = (
  files: readonly RawChecks[],
  packs: { get(id: string): Guideline | undefined },
  ran?: (each: Ran) => void,
): CheckedList[] =>
  files.flatMap(({ name, raw }) => {
    const own = ownRules(raw);
    const shelf = shelfOf(packs, own);
    return listsOf(raw).map(([list, cases]): CheckedList => {
      const kind = checkKinds.find((k) => k.file === name && k.list === list);
      const checks = cases.map((each): Checked => {
        const check = (kind?.shape ?? header).parse(each);
        const verdicts = kind?.run(check, shelf);
        if (kind && verdicts) ran?.({ kind, check, own, verdicts });
        return {
          name: check.case,
          from: check.from,
          evidence: check.evidence,
          note: check.note,
          tolerance: check.tolerance,
          rule: "rule" in check && typeof check.rule === "string" ? check.rule : "",
          verdicts,
        };
      });
      return { file: name, list, title: kind?.title ?? name, kind, checks };
    });
  });
