import { randomUUID } from "node:crypto";
import { existsSync, mkdtempSync, readdirSync, realpathSync, rmdirSync, rmSync, statSync } from "node:fs";
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs, type ParseArgsOptionsConfig } from "node:util";
import { nearMiss } from "../src/records/nearMiss.ts";
import { date } from "../src/records/schemas/primitives.ts";
import { makeFolder } from "../src/records/wholeWrite.ts";

/** The installation: where this project's own code and its content folder are. */
export const installation = dirname(dirname(fileURLToPath(import.meta.url)));

/** A mistake in how a command was called: printed in one line, without a stack. */
export class UsageError extends Error {}

interface Option {
  readonly type: "string" | "boolean";
  readonly about: string;
  readonly value?: string;
}

const shared = {
  content: { type: "string", value: "DIR", about: "the farm's folder of records (also FIELD_CONTENT; default: the demo farm)" },
  out: { type: "string", value: "DIR", about: "where the site is written (also FIELD_OUT; default: dist)" },
  today: { type: "string", value: "YYYY-MM-DD", about: "the day to speak from (default: the newest date in the records)" },
  audience: { type: "string", value: "NAME", about: "for one reader of farm.yaml's audiences, without what he is not shown" },
  help: { type: "boolean", about: "print this and stop" },
} as const satisfies Record<string, Option>;
type Shared = keyof typeof shared;

export interface Options {
  readonly content: string;
  readonly out: string;
  readonly today: string | undefined;
  readonly audience: string | undefined;
}

/** What a command with these options prints for --help. */
export const optionsHelp = (command: string, about: string, wanted: readonly Shared[]): string => {
  const lines = [...wanted, "help" as const].map((name): string => {
    const option: Option = shared[name];
    return `  ${`--${name}${option.value ? ` ${option.value}` : ""}`.padEnd(22)}${option.about}`;
  });
  return `npm run ${command} -- [options]\n\n${about}\n\n${lines.join("\n")}`;
};

/** The folder the person stood in, also under `npm run`, which moves to the project's root: relative paths are taken from it. */
export const standing = (): string => process.env["INIT_CWD"] ?? process.cwd();

/** Read a command's options. */
export const readOptions = (argv: readonly string[], wanted: readonly Shared[]): Options => {
  const config: ParseArgsOptionsConfig = Object.fromEntries(wanted.map((name) => [name, { type: shared[name].type }]));
  const given = parsedArguments(argv, config).values as Partial<Record<Shared, string>>;
  return {
    content: farmFolderOf(given.content),
    // Of no concern to a command that writes no site.
    out: wanted.includes("out") ? folderOf("out", given.out, "FIELD_OUT", "dist") : "",
    today: dayOf("today", given.today),
    audience: given.audience,
  };
};

/** A folder as an option or a variable gives it, from the folder the person stood in; else one of the installation. */
const folderOf = (option: string, given: string | undefined, variable: string, fallback: string): string => {
  const path = given ?? process.env[variable];
  if (path === "") throw new UsageError(`${given === undefined ? variable : `--${option}`} needs a folder`);
  return path === undefined ? join(installation, fallback) : resolve(standing(), path);
};

/** The farm's folder as --content or FIELD_CONTENT gives it; else the demo farm's. */
export const farmFolderOf = (given: string | undefined): string => folderOf("content", given, "FIELD_CONTENT", "content");

/** A day that an option gives, which must be one that a record could hold. */
export const dayOf = (option: string, given: string | undefined): string | undefined => {
  const { error } = date.optional().safeParse(given);
  const [wrong] = error?.issues ?? [];
  if (!wrong) return given;
  throw new UsageError(
    `--${option} ${wrong.code === "custom" ? wrong.message : "must be a calendar day written YYYY-MM-DD"}, not "${given}"`,
  );
};

/** Where a path leads, links followed as far as there is anything. */
export const realPath = (path: string): string =>
  existsSync(path) ? realpathSync(path) : dirname(path) === path ? path : join(realPath(dirname(path)), basename(path));

/** Whether a path is a folder or lies below it, by whichever links either is reached. */
export const isWithin = (inner: string, outer: string): boolean => {
  const way = relative(realPath(outer), realPath(inner));
  return way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
};

/** What is written for people must not lie among the records: an entry that is none of theirs stops every later reading. */
export const refuseAmongRecords = (out: string, content: string): void => {
  if (isWithin(out, content)) throw new UsageError(`--out ${out} is inside the records; choose a place outside them`);
};

/**
 * The options of a command line, and with `words` what stands beside them. What cannot be read is told with the options there are; so is
 * one that has two values, of which nobody knows the right one.
 */
export const parsedArguments = <T extends ParseArgsOptionsConfig>(argv: readonly string[], options: T, { words = false, of = "" } = {}) => {
  const names = [...Object.keys(options), "help"];
  const allowed = `Options${of}: ${names.map((name) => `--${name}`).join(", ")}`;
  let parsed;
  try {
    parsed = parseArgs({ args: [...argv], options, strict: true, allowPositionals: words, tokens: true });
  } catch (cause) {
    throw new UsageError(`${refusal(cause, names)} ${allowed}`);
  }
  const given = new Set<string>();
  for (const token of parsed.tokens) {
    if (token.kind !== "option" || token.value === undefined) continue;
    if (given.has(token.name)) throw new UsageError(`--${token.name} is given twice; give it once. ${allowed}`);
    given.add(token.name);
  }
  return parsed;
};

/** The first sentence of what the argument parser says. A point within a path, such as "./content", ends no sentence. */
const refusal = (cause: unknown, names: readonly string[]): string => {
  const first = (cause as Error).message.split(/\.(?=\s|$)|\n/)[0]!;
  // Its words for an option that another follows, and for one at the end.
  const bare = /^Option '(--\S+)( <value>)?' argument (is ambiguous|missing)$/.exec(first)?.[1];
  if (bare !== undefined) return `${bare} has no value; one that begins with a hyphen is written ${bare}=VALUE.`;
  const meant = nearMiss(/^Unknown option '--(.+)'$/.exec(first)?.[1] ?? "", names);
  return meant === undefined ? `${first}.` : `${first}; did you mean --${meant}?`;
};

/** Why what was given as a file cannot be read as one. */
export const notAFile = (path: string, given: string): string =>
  existsSync(path) ? `${given} is not a file` : `there is no file ${given}`;

const troubles: Readonly<Record<string, string>> = {
  EACCES: "permission is denied",
  EPERM: "it is not permitted",
  EROFS: "the disk takes no writing",
  ENOSPC: "the disk is full",
  ENOTDIR: "a file stands where a folder should",
  EEXIST: "a file stands where a folder should",
  EISDIR: "a folder stands where a file should",
  ENAMETOOLONG: "its name is too long",
};

/** A folder can be made anywhere but where the system makes them itself, such as below /proc. */
const noFolder = (code: string, syscall: string): string | undefined =>
  code !== "ENOENT"
    ? `the system answers ${code}`
    : ["mkdir", "mkdtemp", "cp"].includes(syscall)
      ? "no folder can be made there"
      : undefined;

const troubleOf = (cause: unknown): string | undefined => {
  const { code, syscall } = cause as { code?: string; syscall?: string };
  return code === undefined ? undefined : (troubles[code] ?? (syscall === undefined ? undefined : noFolder(code, syscall)));
};

/** What the disk refused, in a sentence; `undefined` for any other error, which is ours, as is a file that is not where we left it. */
export const diskTrouble = (cause: unknown): string | undefined => {
  const trouble = troubleOf(cause);
  return (
    trouble && `${(cause as { path?: string }).path ?? "a file"} could not be read or written: ${trouble}. Nothing was left half-written.`
  );
};

const workFolders = (within: string): string => join(within, "node_modules", ".cache", "field-history");

/** Refuse to render where the renderer's files cannot be written: beside the work folders it keeps some of its own, which nobody knows by name. */
export const refuseReadOnly = (within = installation): void => {
  try {
    for (const folder of [join(within, ".astro"), workFolders(within)]) {
      makeFolder(folder);
      rmdirSync(mkdtempSync(join(folder, "try-")));
    }
  } catch (cause) {
    throw new UsageError(
      `this program lies in ${within}, where it may not write (${troubleOf(cause) ?? String(cause)}), and a site is made with files of its own there; install it in a folder that you may write to`,
    );
  }
};

const day = 86_400_000;

/**
 * The folder below the installation that a site is rendered in: Astro insists on one there. Its own name keeps builds that run
 * side by side apart, and those of one process: Node loads no file a second time. What a killed build left is cleared away after a day.
 */
export const workFolder = (within = installation): string => {
  refuseReadOnly(within);
  const all = workFolders(within);
  for (const id of readdirSync(all)) {
    // Another build may have cleared it away by now.
    const made = statSync(join(all, id), { throwIfNoEntry: false })?.mtimeMs;
    if ((made ?? Infinity) < Date.now() - day) rmSync(join(all, id), { recursive: true, force: true });
  }
  return join(all, randomUUID());
};
