import { join } from "node:path";
import type { AfterStep } from "../wholeWrite.ts";
import { exactText, replaceUnchanged } from "../wholeWrite.ts";
import type { BagImport } from "./importResults.ts";
import { withResults } from "./importResultsText.ts";
import { start } from "../place.ts";
import type { Problem } from "../problem.ts";
import { Problems } from "../problem.ts";

/** A sampling file as it stands and as it will. */
export interface Change {
  /** Below the content folder, with forward slashes. */
  readonly file: string;
  readonly old: string;
  readonly text: string;
}

export type Changes = { readonly changes: readonly Change[] } | { readonly problems: readonly Problem[] };

/** The new text of every sampling file that gets results, worked out before any is written. */
export const changesOf = (content: string, bags: readonly BagImport[]): Changes => {
  const problems = new Problems();
  const files = [...new Set(bags.map((b) => b.sampling.file))];
  const changes = files.flatMap((file): Change[] => {
    const old = exactText(join(content, ...file.split("/")));
    const text = withResults(
      old,
      bags.filter((b) => b.sampling.file === file),
    );
    if (text !== undefined) return [{ file, old, text }];
    problems.error(
      file,
      start,
      "composites",
      "is written in a way that results cannot be added to without changing more; write the bags one key a line",
    );
    return [];
  });
  return problems.all.length > 0 ? { problems: problems.all } : { changes };
};

/**
 * Write every change, each file as a whole, and have the farm read again by `check`. Where a file was changed meanwhile, or
 * the farm no longer reads, all that was written is put back as it was, and the reason is returned; none: all is in place.
 */
export const writeChanges = (
  content: string,
  changes: readonly Change[],
  check: () => readonly Problem[],
  afterStep?: AfterStep,
): readonly Problem[] => {
  const path = (file: string): string => join(content, ...file.split("/"));
  const done: Change[] = [];
  const putBack = (): Problem[] =>
    done.flatMap(({ file, old, text }) => {
      try {
        if (exactText(path(file)) === old || replaceUnchanged(path(file), text, old)) return [];
        return [problem(file, "was changed by another program after results were written to it, so it is left as it is now")];
      } catch (cause) {
        // The others are put back all the same.
        return [problem(file, `could not be put back as it was: ${(cause as Error).message}`)];
      }
    });
  try {
    for (const change of changes) {
      done.push(change);
      if (replaceUnchanged(path(change.file), change.old, change.text, afterStep)) continue;
      done.pop();
      return [problem(change.file, "was changed by another program meanwhile; run the import again"), ...putBack()];
    }
    const wrong = check();
    return wrong.length === 0 ? [] : [...wrong, ...putBack()];
  } catch (cause) {
    const { file } = done.at(-1)!;
    const left = putBack().filter((p) => p.file !== file);
    if (left.length === 0) throw cause;
    return [problem(file, `could not be written: ${(cause as Error).message}`), ...left];
  }
};

const problem = (file: string, message: string): Problem => ({ file, ...start, field: "", message, severity: "error" });
