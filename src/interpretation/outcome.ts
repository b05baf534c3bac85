/**
 * Every answer explains itself, and "no answer" is an answer. Nothing in this room returns 0, NaN or a
 * silent default where a guideline has nothing to say.
 */

/**
 * How well a published value is known to us. `read`: in the publication's own text. `secondary`: in another text
 * that repeats it. `derived`: worked out here from other published figures. `memory`: recalled, not yet looked up.
 */
export const evidenceGrades = ["read", "derived", "secondary", "memory"] as const;
export type Evidence = (typeof evidenceGrades)[number];

/** Where a value comes from: a publication, a fact of the trade nobody owns, or the farm's own records. */
export type Source =
  | { readonly reference: string; readonly at?: string | undefined }
  | "common-practice"
  | { readonly record: Origin; readonly by?: string | undefined };

/** A place in a record: file, and line and column counted from 1. */
export interface Origin {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** A value as a guideline states it. */
export interface Sourced<T = number> {
  readonly value: T;
  readonly source: Exclude<Source, { record: Origin }>;
  readonly evidence?: Evidence | undefined;
  readonly note?: string | undefined;
}

/** One line of a sum on paper. */
export interface Step {
  readonly what: string;
  /** The expression with its numbers in it; absent when the step only looks a value up. */
  readonly expression?: string | undefined;
  readonly result: string;
  readonly source?: Source | undefined;
  readonly evidence?: Evidence | undefined;
  readonly note?: string | undefined;
}

export interface Answer<T> {
  readonly kind: "answer";
  readonly value: T;
  readonly steps: readonly Step[];
  readonly cautions: readonly string[];
}

export interface NoAnswer {
  readonly kind: "noAnswer";
  /** A clause that can follow "No potash rate, because ". */
  readonly because: string;
  /** Ids of what would settle it, in the vocabulary's words. */
  readonly missing: readonly string[];
}

export type Outcome<T> = Answer<T> | NoAnswer;

export const answer = <T>(value: T, steps: readonly Step[], cautions: readonly string[] = []): Answer<T> => ({
  kind: "answer",
  value,
  steps,
  cautions,
});

export const noAnswer = (because: string, missing: readonly string[] = []): NoAnswer => ({
  kind: "noAnswer",
  because,
  missing,
});

/** The weakest grade among the steps: an answer is known no better than its worst part. `undefined`: no graded step. */
export const weakestEvidence = (steps: readonly Step[]): Evidence | undefined => weakestOf(steps.flatMap((step) => step.evidence ?? []));

/** The weakest of several grades; `undefined` of none. */
export const weakestOf = (grades: readonly Evidence[]): Evidence | undefined =>
  evidenceGrades[Math.max(-1, ...grades.map((grade) => evidenceGrades.indexOf(grade)))];

/** True where a page must say "not yet checked against the publication". */
export const notYetChecked = (evidence: Evidence | undefined): boolean => evidence === "secondary" || evidence === "memory";
