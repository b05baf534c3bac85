import { hash } from "node:crypto";
import { closeSync, existsSync, lstatSync, openSync, readdirSync, readFileSync, readSync, realpathSync, statSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { decode } from "./decode.ts";
import type { Judge } from "./judges.ts";
import { start } from "./place.ts";
import type { Problems } from "./problem.ts";

/** Records are written by hand; a megabyte in one of them is a mistake. */
const mostBytes = 1_000_000;

/** A content folder: the only place from which records are read. Names handed out are relative, with forward slashes. */
export class Folder {
  readonly root: string;
  readonly #realRoot: string;
  readonly #problems: Problems;
  /** Put before every file name, so that two folders can be told apart in messages. */
  readonly #prefix: string;
  /** Subfolders by whether they truly lie within this one; asking the disk for each file would take a tenth of the run. */
  readonly #subfolders = new Map<string, boolean>();
  /** Texts to be read in place of what is on the disk, by path. */
  readonly #instead: ReadonlyMap<string, string>;
  filesRead = 0;
  /** SHA-256 of the bytes of every file that was read, in hexadecimal, by its path. */
  readonly hashes = new Map<string, string>();
  readonly #hashesOf = new Map<string, Map<string, string>>();

  constructor(root: string, problems: Problems, prefix = "", instead: ReadonlyMap<string, string> = new Map()) {
    this.root = root;
    this.#realRoot = realpathSync(root);
    this.#problems = problems;
    this.#prefix = prefix;
    this.#instead = instead;
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

  /** The hashes of the files read below a field's folder ("fields/knoll"): looked for among all of a large farm's, each field would take longer than the last. */
  hashesOf(home: string): ReadonlyMap<string, string> {
    return this.#hashesOf.get(home) ?? new Map<string, string>();
  }

  /** The text of a file, or `undefined` with the reason reported. */
  read(path: string): string | undefined {
    const full = join(this.root, path);
    if (!this.#isWithin(path)) return undefined;
    let bytes: Uint8Array;
    try {
      const entry = statSync(full);
      // Reading a pipe or a device would never end.
      if (!entry.isFile()) return this.#refuse(path, "must be a file");
      if (entry.size > mostBytes) return this.#refuse(path, "is larger than 1 MB, too large for a record");
      const instead = this.#instead.get(path);
      bytes = instead === undefined ? readFileSync(full) : Buffer.from(instead);
    } catch (cause) {
      return this.#refuse(path, unreadable(cause));
    }
    this.filesRead += 1;
    const sum = hash("sha256", bytes, "hex");
    this.hashes.set(path, sum);
    const near = this.#hashesOf.get(homeOf(path));
    if (near) near.set(path, sum);
    else this.#hashesOf.set(homeOf(path), new Map([[path, sum]]));
    return decode(bytes, this.name(path), this.#problems);
  }

  /** How large a file is and how it begins, each byte a character (Latin-1); or `undefined` with the reason reported. */
  look(path: string, most: number): { bytes: number; beginning: string } | undefined {
    const at = join(this.root, path);
    if (!this.#isWithin(path)) return undefined;
    try {
      const entry = lstatSync(at);
      // A site holds what is looked at so: a link could put a record into it.
      if (entry.isSymbolicLink()) return this.#refuse(path, "is a link; put the file itself here");
      if (!entry.isFile()) return this.#refuse(path, "must be a file");
      const file = openSync(at, "r");
      try {
        const beginning = Buffer.alloc(most);
        return { bytes: entry.size, beginning: beginning.toString("latin1", 0, readSync(file, beginning)) };
      } finally {
        closeSync(file);
      }
    } catch (cause) {
      return this.#refuse(path, unreadable(cause));
    }
  }

  /**
   * The entries of a subfolder that `judge` accepts, in order of name. Others are reported and left out. Dot files, what Windows
   * puts into folders unseen, and files for people (README, txt) are passed over.
   */
  list(path: string, judge: Judge): string[] {
    const full = join(this.root, path);
    if (!this.has(path) || !this.#isWithin(path)) return [];
    const accepted: string[] = [];
    const refused = new Map<string, string>();
    try {
      if (!statSync(full).isDirectory()) {
        this.#refuse(path, "must be a folder");
        return [];
      }
      const entries = readdirSync(full, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
      for (const entry of entries) {
        const { name } = entry;
        if (savedAsText.test(name)) {
          refused.set(name, "ends in .txt, which hides it: take that ending away");
          continue;
        }
        if (name.startsWith(".") || forPeople.test(name)) continue;
        const isLink = entry.isSymbolicLink();
        if (isLink && !this.#isWithin(inner(path, name))) continue;
        const why = judge(name, isLink ? statSync(join(full, name)).isDirectory() : entry.isDirectory());
        if (why !== undefined) {
          const meant = name.replace(otherEnding, ".yaml");
          const fits = meant !== name && judge(meant, entry.isDirectory()) === undefined;
          const report = path !== "reports" && !entry.isDirectory() && scanned.test(name);
          const hint = fits
            ? `did you mean ${meant}?`
            : report
              ? "a laboratory's report lies in the folder reports, beside farm.yaml"
              : undefined;
          refused.set(name, hint === undefined ? why : `is not a record known here; ${hint}`);
          continue;
        }
        accepted.push(name);
        if (devices.test(name))
          this.#problems.warn(
            this.name(inner(path, name)),
            start,
            "",
            "is a name that Windows keeps for a device: on such a computer neither the records nor their site can be copied or opened; choose another",
          );
      }
    } catch (cause) {
      this.#refuse(path, unreadable(cause));
    }
    for (const [entry, why] of refused) {
      const twin = accepted.find((other) => addressOf(other) === addressOf(entry.replace(otherEnding, ".yaml")));
      this.#refuse(inner(path, entry), twin === undefined ? why : `has the same address as ${this.name(inner(path, twin))}; keep one`);
    }
    return accepted;
  }

  #refuse(path: string, message: string): undefined {
    this.#problems.error(this.name(path), start, "", message);
  }

  /** A link may point within the folder, not out of it: the folder is all there is to a farm's records. */
  #isWithin(path: string): boolean {
    const folder = path.slice(0, Math.max(0, path.lastIndexOf("/")));
    let within = this.#subfolders.get(folder);
    if (within === undefined) this.#subfolders.set(folder, (within = this.#leadsWithin(folder)));
    return within && (!isLink(join(this.root, path)) || this.#leadsWithin(path));
  }

  #leadsWithin(path: string): boolean {
    let real: string;
    try {
      real = realpathSync(join(this.root, path));
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

const forPeople = /^readme(\.|$)|\.txt$|^(thumbs\.db|desktop\.ini)$/i;
/** What a laboratory's report may be and no record is. */
const scanned = /\.(pdf|png|jpe?g)$/i;
/** What Windows names devices, whatever ending follows. */
const devices = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;
/** An editor of texts gives a record its own ending, and Windows does not show it. */
const savedAsText = /\.(ya?ml|geojson)\.txt$/i;

export const isFolder = (path: string): boolean => existsSync(path) && statSync(path).isDirectory();

export const sameFolder = (a: string, b: string): boolean => realpathSync(a) === realpathSync(b);

const isLink = (full: string): boolean => lstatSync(full, { throwIfNoEntry: false })?.isSymbolicLink() ?? false;

const inner = (path: string, entry: string): string => (path === "" ? entry : `${path}/${entry}`);

/** "fields/knoll/samplings/2025-10-18.yaml" lies in "fields/knoll". */
const homeOf = (path: string): string => path.split("/", 2).join("/");

const addressOf = (entry: string): string => entry.toLowerCase();

/** Endings that YAML is saved by, too. */
const otherEnding = /\.ya?ml$/i;

/** "cannot be read: EACCES: permission denied", without the machine's path. */
const unreadable = (cause: unknown): string => `cannot be read: ${(cause as Error).message.replace(/, .*$/, "")}`;
