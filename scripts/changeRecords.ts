import { join } from "node:path";
import type { Problem } from "../src/records/problem.ts";
import { formatProblems } from "../src/records/problem.ts";
import type { ReadResult } from "../src/records/reading/readFarm.ts";
import { readFarm } from "../src/records/reading/readFarm.ts";
import type { Change } from "../src/records/writeChanges.ts";
import { writeChanges } from "../src/records/writeChanges.ts";
import { counted } from "../src/interpretation/show.ts";
import { installation } from "./options.ts";

/** The farm with every guideline at hand, as a command that changes its records reads it; with `instead`, as it would be. */
export const readWhole = (content: string, instead?: ReadonlyMap<string, string>): ReadResult =>
  readFarm({ content, library: join(installation, "content"), instead });

/** Say why nothing is done; the exit code. */
export const refused = (why: readonly Problem[], end = "Nothing was written."): number => {
  console.error(`${formatProblems(why)}\n\n${end}`);
  return 1;
};

/**
 * Prove that the farm reads with the changes, tell what is doubted of the records as they would be, was not `before`, and was not `said`
 * already, and with `write` write them; without, say that nothing was written. The exit code.
 */
export const changeRecords = (
  content: string,
  changes: readonly Change[],
  { write, before, said = [] }: { readonly write: boolean; readonly before: readonly Problem[]; readonly said?: readonly Problem[] },
): number => {
  const { farm, problems } = readWhole(content, new Map(changes.map((c) => [c.file, c.text])));
  if (!farm) return refused(problems, "Nothing was written. Lines are counted with the change in place.");
  const known = (p: Problem): boolean =>
    before.some((b) => b.file === p.file && b.message === p.message) || said.some((s) => s.message === p.message);
  const fresh = problems.filter((p) => !known(p));
  if (fresh.length > 0) console.error(formatProblems(fresh));
  if (!write) {
    console.log("Nothing was written. The same command with --write writes it.");
    return 0;
  }
  const wrong = writeChanges(content, changes);
  if (wrong.length > 0) return refused(wrong, "What had been written was put back, except where it says otherwise.");
  console.log(`Written to ${counted(changes.length, "file")}: ${changes.map((c) => c.file).join(", ")}.`);
  return 0;
};
