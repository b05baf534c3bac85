import { existsSync, lstatSync, readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { decode } from "./decode.ts";
import { allowedWords } from "./nearMiss.ts";
import { start } from "./place.ts";
import type { Problems } from "./problem.ts";

/** Records are written by hand; a megabyte in one of them is a mistake. */
const mostBytes = 1_000_000;

/** Why an entry of a folder is refused, or `undefined` for one to be read. */
export type Judge = (name: string, isFolder: boolean) => string | undefined;

/** A content folder: the only place from which records are read. Names handed out are relative, with forward slashes. */
export class Folder {
  readonly root: string;
  readonly #realRoot: string;
  readonly #problems: Problems;
  /** Put before every file name, so that two folders can be told apart in messages. */
  readonly #prefix: string;
  filesRead = 0;

  constructor(root: string, problems: Problems, prefix = "") {
    this.root = root;
    this.#realRoot = realpathSync(root);
    this.#problems = problems;
    this.#prefix = prefix;
  }

  name(path: string): string {
    return this.#prefix + path;
  }

  /** True for anything of that name, a link to nothing included: `read` says what is wrong with it. */
  has(path: string): boolean {
    try {
      return lstatSync(join(this.root, path), { throwIfNoEntry: false }) !== undefined;
    } catch {
      return false;
    }
  }

  /** The text of a file, or `undefined` with the reason reported. */
  read(path: string): string | undefined {
    const full = join(this.root, path);
    if (!this.#inside(full, path)) return undefined;
    let bytes: Uint8Array;
    try {
      const entry = statSync(full);
      // Reading a pipe or a device would never end.
      if (!entry.isFile()) return this.#refuse(path, "must be a file");
      if (entry.size > mostBytes) return this.#refuse(path, "is larger than 1 MB, too large for a record");
      bytes = readFileSync(full);
    } catch (cause) {
      return this.#refuse(path, unreadable(cause));
    }
    this.filesRead += 1;
    return decode(bytes, this.name(path), this.#problems);
  }

  /**
   * The entries of a subfolder that `judge` accepts, in order of name. Others are reported and left out. Dot files, and
   * files for people (README, txt), are passed over.
   */
  list(path: string, judge: Judge): string[] {
    const full = join(this.root, path);
    if (path !== "" && (!this.has(path) || !this.#inside(full, path))) return [];
    const accepted: string[] = [];
    const refused = new Map<string, string>();
    try {
      if (!statSync(full).isDirectory()) {
        this.#refuse(path, "must be a folder");
        return [];
      }
      for (const entry of readdirSync(full).sort()) {
        if (entry.startsWith(".") || /^readme(\.|$)/i.test(entry) || entry.endsWith(".txt")) continue;
        if (!this.#inside(join(full, entry), inner(path, entry))) continue;
        const why = judge(entry, statSync(join(full, entry)).isDirectory());
        if (why === undefined) accepted.push(entry);
        else refused.set(entry, why);
      }
    } catch (cause) {
      this.#refuse(path, unreadable(cause));
    }
    for (const [entry, why] of refused) {
      const twin = accepted.find((other) => addressOf(other) === addressOf(entry));
      this.#refuse(inner(path, entry), twin === undefined ? why : `has the same address as ${this.name(inner(path, twin))}; keep one`);
    }
    return accepted;
  }

  #refuse(path: string, message: string): undefined {
    this.#problems.error(this.name(path), start, "", message);
  }

  /** A link may point within the folder, not out of it: the folder is all there is to a farm's records. */
  #inside(full: string, path: string): boolean {
    let real: string;
    try {
      real = realpathSync(full);
    } catch {
      this.#refuse(path, "is a link to nothing");
      return false;
    }
    const way = relative(this.#realRoot, real);
    if (way === "" || (way !== ".." && !way.startsWith(`..${sep}`) && !/^[a-z]:/i.test(way))) return true;
    this.#refuse(path, "is a link that leaves the folder of records");
    return false;
  }
}

export const isFolder = (path: string): boolean => existsSync(path) && statSync(path).isDirectory();

export const sameFolder = (a: string, b: string): boolean => realpathSync(a) === realpathSync(b);

const inner = (path: string, entry: string): string => (path === "" ? entry : `${path}/${entry}`);

const addressOf = (entry: string): string => entry.replace(/\.[a-z]+$/i, "").toLowerCase();

/** "cannot be read: EACCES: permission denied", without the machine's path. */
const unreadable = (cause: unknown): string => `cannot be read: ${(cause as Error).message.replace(/, .*$/, "")}`;

const idName = /^[a-z0-9]+(-[a-z0-9]+)*$/;

const unknown = (name: string, wanted: readonly string[]): string => `is not a record known here; ${allowedWords(name, wanted)}`;

/** Accepts a file whose name fits; `wanted` says in words which do. */
export const fileNamed =
  (fits: (name: string) => boolean, wanted: string): Judge =>
  (name, folder) => {
    if (!fits(name)) return unknown("", [wanted]);
    return folder ? "must be a file" : undefined;
  };

/** Accepts `<id>.yaml`. */
export const yamlRecord = fileNamed(
  (name) => name.endsWith(".yaml") && idName.test(name.slice(0, -".yaml".length)),
  "a file named <id>.yaml in lower-case letters, digits and hyphens",
);

/** Accepts a folder named by an id. */
export const idFolder: Judge = (name, folder) =>
  folder && idName.test(name) ? undefined : unknown("", ["a folder named in lower-case letters, digits and hyphens"]);

export const exactly =
  (files: readonly string[], folders: readonly string[]): Judge =>
  (name, folder) => {
    if ((folder ? folders : files).includes(name)) return undefined;
    if (files.includes(name)) return "must be a file";
    return folders.includes(name) ? "must be a folder" : unknown(name, [...files, ...folders]);
  };
