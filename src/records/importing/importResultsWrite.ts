import { join } from "node:path";
import { exactText } from "../wholeWrite.ts";
import type { ImportPlan } from "./importResults.ts";
import type { Correcting } from "./importResultsText.ts";
import { withResults } from "./importResultsText.ts";
import { start } from "../place.ts";
import type { Problem } from "../problem.ts";
import { Problems } from "../problem.ts";
import type { Change } from "../writeChanges.ts";

export type Changes = { readonly changes: readonly Change[] } | { readonly problems: readonly Problem[] };

/** The new text of every sampling file that gets results, worked out before any is written. `why` is for what is corrected. */
export const changesOf = (content: string, { bags, statements }: Pick<ImportPlan, "bags" | "statements">, why?: Correcting): Changes => {
  const problems = new Problems();
  const files = [...new Set([...bags, ...statements].map((b) => b.sampling.file))];
  const changes = files.flatMap((file): Change[] => {
    const old = exactText(join(content, ...file.split("/")));
    const text = withResults(
      old,
      bags.filter((b) => b.sampling.file === file).map((b) => ({ ...b, label: b.composite.label })),
      why,
      statements.find((s) => s.sampling.file === file)?.said,
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
