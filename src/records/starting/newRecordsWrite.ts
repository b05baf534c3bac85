import { join } from "node:path";
import { createFile, removeFile } from "../wholeWrite.ts";
import type { NewFile } from "./newRecordsText.ts";
import type { Problem } from "../problem.ts";
import { formatProblems } from "../problem.ts";
import { readFarm } from "../reading/readFarm.ts";

/** What came of writing: why nothing was written, or what the farm is told after it. */
export interface Written {
  readonly refused?: string;
  readonly problems: readonly Problem[];
}

/**
 * Write all of the files or none, over no other, and read the farm again: a file that is wrong itself is taken back, with all
 * that was written beside it. Of a single file, other files' mistakes are not its own.
 */
export const writeNew = (files: readonly NewFile[], content: string, library: string): Written => {
  const written: string[] = [];
  const refuse = (refused: string): Written => {
    for (const path of written.toReversed()) removeFile(path, content);
    return { refused, problems: [] };
  };
  for (const file of files) {
    const path = join(content, ...file.path.split("/"));
    if (!createFile(path, file.text)) return refuse(`${file.path} is there already and is never overwritten`);
    written.push(path);
  }
  const { problems } = readFarm({ content, library });
  const own = problems.filter((p) => p.severity === "error" && (files.length > 1 || files.some((f) => f.path === p.file)));
  return own.length > 0 ? refuse(`${formatProblems(own)}\nNothing was written.`) : { problems };
};
