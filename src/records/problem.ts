import { codePoint } from "./codePoint.ts";

/** Something wrong, or doubtful, in a record: where, what, and what is allowed. */
export interface Problem {
  /** Path below the content folder, with forward slashes on every machine. */
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** The field's path, list items counted from 1, such as `composites[2].results.K`; empty for the file as a whole. */
  readonly field: string;
  readonly message: string;
  readonly severity: "error" | "warning";
}

/** Thrown when records cannot be used. It means "fix the record" and prints without a stack. */
export class RecordError extends Error {
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(formatProblems(problems));
    this.name = "RecordError";
    this.problems = problems;
    // Whoever prints this error prints what to fix, and not where in the program it was noticed.
    this.stack = this.message;
  }
}

const order = (a: Problem, b: Problem): number =>
  (a.file < b.file ? -1 : a.file > b.file ? 1 : 0) ||
  a.line - b.line ||
  a.column - b.column ||
  (a.message < b.message ? -1 : a.message > b.message ? 1 : 0);

/** Characters that nobody sees and that make one word another: they come along from web pages and word processors. */
const unseen = /[\u00ad\u200b\u200e\u200f\u2060\ufeff]/g;

/**
 * A message is one line whatever the record holds: line breaks and control characters in it would forge lines of their
 * own, and marks that turn the writing direction would shuffle what is read. What is not seen is shown.
 */
const oneLine = (text: string): string =>
  text
    .replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]+/g, " ")
    .replace(unseen, (character) => `<${codePoint(character.charCodeAt(0))}>`);

/** `file:line:col: field: message`, sorted by place. */
export const formatProblems = (problems: readonly Problem[]): string =>
  [...problems]
    .sort(order)
    .map((p) =>
      oneLine(`${p.file}:${p.line}:${p.column}: ${p.field || "file"}: ${p.severity === "warning" ? "warning: " : ""}${p.message}`),
    )
    .join("\n");

/** Collects the problems of a run; every file is read before anything is decided. The same problem met twice is told once. */
export class Problems {
  readonly all: Problem[] = [];
  readonly #told = new Set<string>();
  error(file: string, at: { line: number; column: number }, field: string, message: string): void {
    this.#add({ file, line: at.line, column: at.column, field, message, severity: "error" });
  }
  warn(file: string, at: { line: number; column: number }, field: string, message: string): void {
    this.#add({ file, line: at.line, column: at.column, field, message, severity: "warning" });
  }
  get errors(): Problem[] {
    return this.all.filter((p) => p.severity === "error");
  }
  get warnings(): Problem[] {
    return this.all.filter((p) => p.severity === "warning");
  }
  #add(problem: Problem): void {
    const key = JSON.stringify(problem);
    if (this.#told.has(key)) return;
    this.#told.add(key);
    this.all.push(problem);
  }
}
