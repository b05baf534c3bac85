import type { Guideline } from "./guideline.ts";
import type { LimePlace } from "./lime.ts";
import type { Measurement } from "./measurement.ts";
import type { NitrogenQuestion } from "./nitrogen.ts";
import type { NoAnswer, Outcome } from "./outcome.ts";
import { noAnswer } from "./outcome.ts";
import type { Facts } from "./rules/conditions.ts";
import type { Amount, YieldUnit } from "./units.ts";

/** One sample from one place, and all that a guideline may ask about the place. */
export interface Sample extends Omit<LimePlace, "pH" | "buffers" | "acidities" | "aluminums"> {
  readonly measurements: readonly Measurement[];
  readonly facts: Facts;
  readonly yieldGoal: Amount<YieldUnit> | undefined;
  /** A garden: people grow food by hand there, and lead is a question. */
  readonly garden?: boolean | undefined;
  /** In order of preference: the first that answers a question answers it. */
  readonly packs: readonly Guideline[];
  /** What the place asks of nitrogen; absent where it is not asked. */
  readonly nitrogen?: NitrogenQuestion | undefined;
}

/** One guideline's attempt at a question. */
export interface Try<T> {
  readonly outcome: Outcome<T>;
  readonly pack: Guideline;
  /** The rule reads the method the sample was measured by, so its refusal says more than "another extractant". */
  readonly reads?: boolean | undefined;
}

/** An answer that rests on a yield the reader is not shown says so, and not that the yield is missing. */
export const unlessWithheld = <T>(outcome: Outcome<T>, { yieldWithheld = false }: Pick<Facts, "yieldWithheld">): Outcome<T> =>
  yieldWithheld && outcome.kind === "noAnswer" && outcome.missing.some((id) => id === "yieldGoal" || id === "previousYield")
    ? noAnswer("it rests on a yield, which is left out for this reader")
    : outcome;

/**
 * The first answer, else the refusal that says most: packs are asked in the order the farm lists them. Where the reader is not shown
 * the yield, the first rule that asks for it ends the asking: the next guideline's answer would not be what the farm was advised.
 * `ended`: there is nothing left to ask.
 */
export const firstAnswer = <T>(tries: readonly Try<T>[], nobody: NoAnswer, facts: Pick<Facts, "yieldWithheld"> = {}): { outcome: Outcome<T>; pack: Guideline | undefined; ended: boolean } => {
  const told = facts.yieldWithheld ? tries.map((t) => ({ ...t, outcome: unlessWithheld(t.outcome, facts) })) : tries;
  const ends = told.find((t, i) => t.outcome.kind === "answer" || t.outcome !== tries[i]!.outcome);
  const best = ends ?? told.find((t) => t.reads) ?? told[0];
  return best ? { outcome: best.outcome, pack: best.pack, ended: ends !== undefined } : { outcome: nobody, pack: undefined, ended: false };
};
