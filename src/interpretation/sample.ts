import type { Guideline } from "./guideline.ts";
import type { LimePlace } from "./lime.ts";
import type { Measurement } from "./measurement.ts";
import type { NitrogenQuestion } from "./nitrogen.ts";
import type { NoAnswer, Outcome } from "./outcome.ts";
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

/** The first answer, else the refusal that says most: packs are asked in the order the farm lists them. */
export const firstAnswer = <T>(tries: readonly Try<T>[], nobody: NoAnswer): { outcome: Outcome<T>; pack: Guideline | undefined } => {
  const best = tries.find((t) => t.outcome.kind === "answer") ?? tries.find((t) => t.reads) ?? tries[0];
  return best ? { outcome: best.outcome, pack: best.pack } : { outcome: nobody, pack: undefined };
};
