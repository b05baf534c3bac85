import { join } from "node:path";
import { start } from "./place.ts";
import type { Problem } from "./problem.ts";
import type { AfterStep, Prepared } from "./wholeWrite.ts";
import { exactText, prepareUnchanged, replaceUnchanged } from "./wholeWrite.ts";

/** A record as it stands and as it will. */
export interface Change {
  /** Below the content folder, with forward slashes. */
  readonly file: string;
  readonly old: string;
  readonly text: string;
}

/**
 * Write every change, each file as a whole. Where a file was changed meanwhile, all that was written is put back as it was,
 * and the reason is returned; none: all is in place.
 * All are on the disk before the first takes its place: a run that is killed leaves some files old and some new only between two renamings.
 */
export const writeChanges = (content: string, changes: readonly Change[], afterStep?: AfterStep): readonly Problem[] => {
  const path = (file: string): string => join(content, ...file.split("/"));
  const done: Change[] = [];
  const putBack = (): Problem[] =>
    done.flatMap(({ file, old, text }) => {
      try {
        if (exactText(path(file)) === old || replaceUnchanged(path(file), text, old)) return [];
        return [problem(file, "was changed by another program after it was written, so it is left as it is now")];
      } catch (cause) {
        // The others are put back all the same.
        return [problem(file, `could not be put back as it was: ${(cause as Error).message}`)];
      }
    });
  const prepared: Prepared[] = [];
  try {
    for (const { file, old, text } of changes) prepared.push(prepareUnchanged(path(file), old, text, afterStep));
    for (const [i, change] of changes.entries()) {
      done.push(change);
      if (prepared[i]!.takePlace()) continue;
      done.pop();
      return [problem(change.file, "was changed by another program meanwhile; run the command again"), ...putBack()];
    }
    return [];
  } catch (cause) {
    const file = done.at(-1)?.file;
    const left = putBack();
    if (left.length === 0) throw cause;
    return [problem(file!, `could not be written: ${(cause as Error).message}`), ...left];
  } finally {
    for (const { drop } of prepared) drop();
  }
};

const problem = (file: string, message: string): Problem => ({ file, ...start, field: "", message, severity: "error" });
