import { existsSync, readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { allowedWords } from "./nearMiss.ts";
import type { Problems } from "./problem.ts";
import { decode, start } from "./yamlFile.ts";

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

  has(path: string): boolean {
    return existsSync(join(this.root, path));
  }

  /** The text of a file, or `undefined` with the reason reported. */
  read(path: string): string | undefined {
    const full = join(this.root, path);
    if (!this.#inside(full, path)) return undefined;
    let bytes: Uint8Array;
    try {
      bytes = readFileSync(full);
    } catch (cause) {
      this.#problems.error(this.name(path), start, "", `cannot be read: ${(cause as Error).message.replace(/, .*$/, "")}`);
      return undefined;
    }
    this.filesRead += 1;
    return decode(bytes, this.name(path), this.#problems);
  }

  /**
   * The entries of a subfolder in order of name. `expected` judges each: `undefined` accepts it, a list of names says
   * what was looked for, and the entry is reported and left out. Dot files, and files for people (README, txt), are passed over.
   */
  list(path: string, expected: (name: string, isFolder: boolean) => readonly string[] | undefined): string[] {
    const full = join(this.root, path);
    if (!existsSync(full)) return [];
    if (!statSync(full).isDirectory()) {
      this.#problems.error(this.name(path), start, "", "must be a folder");
      return [];
    }
    const found: string[] = [];
    const addresses = new Map<string, string>();
    for (const entry of readdirSync(full).sort()) {
      if (entry.startsWith(".") || /^readme(\.|$)/i.test(entry) || entry.endsWith(".txt")) continue;
      const inner = path === "" ? entry : `${path}/${entry}`;
      if (!this.#inside(join(full, entry), inner)) continue;
      const address = entry.replace(/\.[a-z]+$/i, "").toLowerCase();
      const twin = addresses.get(address);
      if (twin !== undefined) {
        this.#problems.error(this.name(inner), start, "", `has the same address as ${this.name(path === "" ? twin : `${path}/${twin}`)}; keep one`);
        continue;
      }
      addresses.set(address, entry);
      const isFolder = statSync(join(full, entry)).isDirectory();
      const wanted = expected(entry, isFolder);
      if (wanted === undefined) found.push(entry);
      else this.#problems.error(this.name(inner), start, "", `is not a record known here; ${allowedWords(entry, wanted)}`);
    }
    return found;
  }

  /** A link may point within the folder, not out of it: the folder is all there is to a farm's records. */
  #inside(full: string, path: string): boolean {
    let real: string;
    try {
      real = realpathSync(full);
    } catch {
      this.#problems.error(this.name(path), start, "", "is a link to nothing");
      return false;
    }
    const way = relative(this.#realRoot, real);
    if (way === "" || (way !== ".." && !way.startsWith(`..${sep}`) && !/^[a-z]:/i.test(way))) return true;
    this.#problems.error(this.name(path), start, "", "is a link that leaves the folder of records");
    return false;
  }
}

const idName = /^[a-z0-9]+(-[a-z0-9]+)*$/;

/** Accepts `<id>.yaml`. */
export const yamlRecord = (name: string, isFolder: boolean): readonly string[] | undefined => {
  const stem = name.replace(/\.yaml$/, "");
  return !isFolder && name.endsWith(".yaml") && idName.test(stem) ? undefined : ["a file named <id>.yaml in lower-case letters, digits and hyphens"];
};

/** Accepts a folder named by an id. */
export const idFolder = (name: string, isFolder: boolean): readonly string[] | undefined =>
  isFolder && idName.test(name) ? undefined : ["a folder named in lower-case letters, digits and hyphens"];

export const exactly =
  (files: readonly string[], folders: readonly string[]) =>
  (name: string, isFolder: boolean): readonly string[] | undefined =>
    (isFolder ? folders : files).includes(name) ? undefined : [...files, ...folders];
