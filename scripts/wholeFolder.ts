import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import { withPath } from "../src/records/wholeWrite.ts";
import { realPath, UsageError } from "./options.ts";

/**
 * Put a folder in place as a whole: `fill` makes it beside the target, then the two are swapped by renaming. Nobody sees half of
 * it, and a failed run leaves the old one. A link keeps pointing where it did: a web host may serve the folder that it leads to.
 */
export const putInPlace = (given: string, fill: (fresh: string) => void): void => {
  const out = realPath(given);
  const beside = (what: string): string => join(dirname(out), `.${basename(out)}.${what}-${process.pid}`);
  const [fresh, old] = [beside("new"), beside("old")];
  mkdirSync(dirname(out), { recursive: true });
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
    throw withPath(cause, out);
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
};

/** What stands in the folder that a command is about to write: nothing where there is none yet. */
export const entriesOf = (out: string): string[] => {
  if (!existsSync(out)) return [];
  if (!statSync(out).isDirectory()) throw new UsageError(`--out ${out} is not a folder`);
  return readdirSync(out);
};
