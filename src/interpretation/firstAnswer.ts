import type { Guideline } from "./guideline.ts";
import type { NoAnswer, Outcome } from "./outcome.ts";
import { noAnswer } from "./outcome.ts";
import type { Facts } from "./rules/facts.ts";

/** One guideline's attempt at a question. */
export interface Try<T> {
  readonly outcome: Outcome<T>;
  readonly pack: Guideline;
  /** The rule reads the method the sample was measured by, so its refusal says more than "another extractant". */
  readonly reads?: boolean | undefined;
}

type Hidden = Pick<Facts, "yieldWithheld" | "cropWithheld">;

const onYield = noAnswer("it rests on a yield, which is left out for this reader");
const onCrop = noAnswer("it rests on the next crop, which is left out for this reader");

/** Of chloride and sulfur, which are tested in two feet beside nitrate. */
export const onNitrateSampling = noAnswer("it may rest on a sampling for nitrate, which is left out for this reader");

/** An answer that rests on a yield or a crop the reader is not shown says so, and not that it is missing. */
export const unlessWithheld = <T>(outcome: Outcome<T>, { yieldWithheld = false, cropWithheld = false }: Hidden): Outcome<T> => {
  if (outcome.kind === "answer") return outcome;
  if (yieldWithheld && outcome.missing.some((id) => id === "yieldGoal" || id === "previousYield")) return onYield;
  return cropWithheld && outcome.missing.includes("crop") ? onCrop : outcome;
};

/** Refused because of what the reader is not shown. */
export const isWithheld = (outcome: Outcome<unknown>): boolean =>
  outcome === onYield || outcome === onCrop || outcome === onNitrateSampling;

/**
 * The first answer, else the refusal that says most: packs are asked in the order the farm lists them. Where the reader is not shown
 * the yield or the crop, the first rule that asks for it ends the asking: the next guideline's answer would not be what the farm was advised.
 * `ended`: there is nothing left to ask.
 */
export const firstAnswer = <T>(
  tries: readonly Try<T>[],
  nobody: NoAnswer,
  facts: Hidden = {},
): { outcome: Outcome<T>; pack: Guideline | undefined; ended: boolean } => {
  const told = facts.yieldWithheld || facts.cropWithheld ? tries.map((t) => ({ ...t, outcome: unlessWithheld(t.outcome, facts) })) : tries;
  const ends = told.find((t) => t.outcome.kind === "answer" || isWithheld(t.outcome));
  const best = ends ?? told.find((t) => t.reads) ?? told[0];
  return best ? { outcome: best.outcome, pack: best.pack, ended: ends !== undefined } : { outcome: nobody, pack: undefined, ended: false };
};
