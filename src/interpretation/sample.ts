import type { Guideline } from "./guideline.ts";
import type { Measurement } from "./measurement.ts";
import type { Amount, YieldUnit } from "./units.ts";
import type { Facts } from "./rules/facts.ts";
import type { LimePlace } from "./lime/limePlace.ts";
import type { NitrogenQuestion } from "./nitrogen/nitrogenCredits.ts";

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
