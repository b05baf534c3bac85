import {
  closeSync,
  existsSync,
  fsyncSync,
  linkSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
import { basename, dirname, join, sep } from "node:path";
import { isFolder } from "./folder.ts";

/** Called after each step of a writing, so that a test can stop it there. */
export type AfterStep = (step: "opened" | "half written" | "written" | "in place") => void;

const unfinished = ".unfinished-";

/** The path of the file that was to be, for one that a killed run may have left beside it; any other path as it is. */
export const finishedPath = (path: string): string => path.replace(/(^|\/)\.([^/]+)\.unfinished-\d+$/, "$1$2");

/**
 * Write a new file as a whole or not at all, and never in place of another: the text is written beside it, brought to the
 * disk, and only then given its name. `false`: a file of that name is there already, and it is left alone.
 * A run that is killed leaves at most `.<name>.unfinished-<process>`, which no reader of records looks at and the next
 * writing of the same file clears away.
 */
export const createFile = (path: string, text: string, afterStep: AfterStep = () => undefined): boolean => {
  makeFolder(dirname(path));
  clearUnfinished(path);
  if (existsSync(path)) return false;
  return placed(prepareBeside(path, text, afterStep, giveName));
};

/**
 * Write a file as a whole, in place of an older one of its name: until the new text is on the disk, the old file stands.
 * A run that is killed leaves the old file or the new one, and at most what `createFile` leaves.
 */
export const replaceFile = (path: string, text: string | Uint8Array, afterStep: AfterStep = () => undefined): void => {
  makeFolder(dirname(path));
  clearUnfinished(path);
  const takePlace = (beside: string): boolean => {
    renameSync(beside, path);
    return true;
  };
  placed(prepareBeside(path, text, afterStep, takePlace));
};

/**
 * A folder, and those above it. Node's own way of making several never comes to its end where the system refuses one as if the folder
 * above it were missing, as it does below /proc.
 */
export const makeFolder = (path: string): void => {
  if (existsSync(path)) return;
  makeFolder(dirname(path));
  try {
    mkdirSync(path);
  } catch (cause) {
    // Another run may have made it meanwhile.
    if (!isFolder(path)) throw cause;
  }
};

/** Take back a file that was just written below `root` and turned out wrong, and the folders that are empty without it. */
export const removeFile = (path: string, root: string): void => {
  rmSync(path, { force: true });
  for (let at = dirname(path); at.startsWith(root + sep) && readdirSync(at).length === 0; at = dirname(at)) rmdirSync(at);
};

/** A new text of a file, on the disk beside it: nothing is left to do but to give it the file's name. */
export interface Prepared {
  /** `false`: what the file was to be written over, or not over, is otherwise by now, and it is left alone. */
  readonly takePlace: () => boolean;
  /** Clear away what did not take its place. */
  readonly drop: () => void;
}

/** Prepare to put `text` in the place of a file, as long as that still holds `old`, like `replaceFile`. A link keeps pointing where it did. */
export const prepareUnchanged = (path: string, old: string, text: string, afterStep: AfterStep = () => undefined): Prepared => {
  const real = realpathSync(path);
  clearUnfinished(real);
  const takePlace = (beside: string): boolean => {
    if (exactText(real) !== old) return false;
    renameSync(beside, real);
    return true;
  };
  return prepareBeside(real, text, afterStep, takePlace, statSync(real).mode);
};

/** Do both at once. */
export const replaceUnchanged = (path: string, old: string, text: string): boolean => placed(prepareUnchanged(path, old, text));

/** The text of a UTF-8 file with everything in it, a byte order mark included. */
export const exactText = (path: string): string => new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(readFileSync(path));

/** Bring the text to the disk beside its place; `giveIt` its name then, and say whether it took it. */
const prepareBeside = (
  path: string,
  text: string | Uint8Array,
  afterStep: AfterStep,
  giveIt: (beside: string, path: string) => boolean,
  mode = 0o666,
): Prepared => {
  const beside = join(dirname(path), `.${basename(path)}${unfinished}${process.pid}`);
  const drop = (): void => rmSync(beside, { force: true });
  try {
    const file = openSync(beside, "wx", mode);
    try {
      afterStep("opened");
      const bytes = typeof text === "string" ? Buffer.from(text, "utf8") : text;
      const half = bytes.length >> 1;
      writeAll(file, bytes.subarray(0, half));
      afterStep("half written");
      writeAll(file, bytes.subarray(half));
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    afterStep("written");
  } catch (cause) {
    drop();
    throw withPath(cause, path, beside);
  }
  const takePlace = (): boolean => {
    try {
      if (!giveIt(beside, path)) return false;
      afterStep("in place");
      return true;
    } catch (cause) {
      throw withPath(cause, path, beside);
    }
  };
  return { takePlace, drop };
};

const placed = ({ takePlace, drop }: Prepared): boolean => {
  try {
    return takePlace();
  } finally {
    drop();
  }
};

/**
 * An error of the disk, with the path that was written: of a full disk the system does not say which, and what stands `beside` that
 * path while it is written nobody knows by its name.
 */
export const withPath = (cause: unknown, path: string, beside?: string): unknown => {
  const { code, path: told } = cause as { code?: string; path?: string };
  const known = told !== undefined && (beside === undefined || !told.startsWith(beside));
  return code === undefined || known ? cause : Object.assign(cause as Error, { path });
};

const writeAll = (file: number, bytes: Uint8Array): void => {
  for (let done = 0; done < bytes.length;) done += writeSync(file, bytes, done);
};

/** A second name for one file is refused where the first is taken; a disk without such names takes an empty file's place instead. */
const giveName = (beside: string, path: string): boolean => {
  try {
    linkSync(beside, path);
    return true;
  } catch (cause) {
    if (codeOf(cause) === "EEXIST") return false;
  }
  try {
    closeSync(openSync(path, "wx"));
  } catch (cause) {
    if (codeOf(cause) === "EEXIST") return false;
    throw cause;
  }
  renameSync(beside, path);
  return true;
};

const codeOf = (cause: unknown): string | undefined => (cause as { code?: string }).code;

/** What killed runs left of this file; a run that is still alive keeps its own. */
const clearUnfinished = (path: string): void => {
  const beginning = `.${basename(path)}${unfinished}`;
  for (const name of readdirSync(dirname(path)))
    if (name.startsWith(beginning) && !isAlive(Number(name.slice(beginning.length)))) rmSync(join(dirname(path), name), { force: true });
};

/** Whether another process of this number runs, whosever it is. */
export const isAlive = (id: number): boolean => {
  if (id === process.pid) return false;
  try {
    process.kill(id, 0);
    return true;
  } catch (cause) {
    return codeOf(cause) === "EPERM";
  }
};
