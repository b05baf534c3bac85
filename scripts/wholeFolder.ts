import { existsSync, readdirSync, renameSync, rmSync, statSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { finishedPath, isAlive, makeFolder, withPath } from "../src/records/wholeWrite.ts";
import { filesBelow } from "./checkLinks.ts";
import { realPath, UsageError } from "./options.ts";

/**
 * Put a folder in place as a whole: `fill` makes it beside the target, then the two are swapped by renaming. Nobody sees half of
 * it, and a failed run leaves the old one. A link keeps pointing where it did: a web host may serve the folder that it leads to.
 */
export const putInPlace = (given: string, fill: (fresh: string) => void): void => {
  const out = realPath(given);
  const beside = (what: string): string => join(dirname(out), `.${basename(out)}.${what}-${process.pid}`);
  const [fresh, old] = [beside("new"), beside("old")];
  makeFolder(dirname(out));
  clearLeftBeside(out);
  try {
    fill(fresh);
    if (existsSync(out)) renameSync(out, old);
    try {
      renameSync(fresh, out);
    } catch (cause) {
      if (existsSync(old)) renameSync(old, out);
      throw cause;
    }
    rmSync(old, { recursive: true, force: true });
  } catch (cause) {
    throw withPath(cause, out, fresh);
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
};

/** What a run that was killed while it swapped two folders left beside this one: the old one where none stands now comes back, all else goes. */
function clearLeftBeside(out: string): void {
  for (const name of readdirSync(dirname(out))) {
    const [, what, id] = /\.(new|old)-(\d+)$/.exec(name) ?? [];
    if (name !== `.${basename(out)}.${what}-${id}` || isAlive(Number(id))) continue;
    const left = join(dirname(out), name);
    if (what === "old" && !existsSync(out)) renameSync(left, out);
    else rmSync(left, { recursive: true, force: true });
  }
}

/** What a computer leaves in a folder that somebody looked at. */
const ofTheSystem = /^(\.DS_Store|Thumbs\.db|desktop\.ini)$/i;

/** What stands in the folder that a command is about to write: nothing where there is none yet. */
export const entriesOf = (out: string): string[] => {
  if (!existsSync(out)) return [];
  if (!statSync(out).isDirectory()) throw new UsageError(`--out ${out} is not a folder`);
  return readdirSync(out).filter((name) => !ofTheSystem.test(name));
};

/**
 * Refuse to write a reader's files into a folder that holds any other: an older run for the owner may have left there what the reader
 * is not shown, and the folder is handed over.
 */
export const refuseOthers = (out: string, files: readonly string[], audience: string | undefined): void => {
  if (audience === undefined || entriesOf(out).length === 0) return;
  const other = filesBelow(out).find((file) => !files.includes(finishedPath(file)) && !ofTheSystem.test(basename(file)));
  if (other !== undefined)
    throw new UsageError(`--out ${out} holds ${other}, which is none of the files for ${audience}; choose an empty or new folder`);
};
