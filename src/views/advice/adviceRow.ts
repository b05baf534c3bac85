import type { Zone } from "../../records/model.ts";
import type { CautionView } from "./cautionViews.ts";
import type { EvidenceMark, StepRow } from "../steps.ts";

/** One question a zone's sample was asked: a rate with its working, or why there is none. */
export interface AdviceRow {
  readonly id: string;
  readonly zone: Zone;
  readonly subject: string;
  /** "94", or empty without an answer. */
  readonly value: string;
  readonly unit: string;
  readonly detail: string;
  /** "No lime rate, because buffer pH was not measured." */
  readonly none: string | undefined;
  /** The same of a nutrient in its parts, so that several of one reason may be told as one: "phosphate", "phosphorus was not tested". */
  readonly noRate?: { readonly of: string; readonly because: string } | undefined;
  /** What would settle it, in the vocabulary's words. */
  readonly missing: readonly string[];
  /** It was asked for a crop before the one that is advised for: nothing to buy or to settle any more. */
  readonly past?: boolean;
  /** What is said against an answer that is past. */
  readonly doubts?: readonly string[];
  /** It says what to buy for the rates, and is none itself. */
  readonly product?: boolean;
  readonly guideline: { readonly id: string; readonly short: string } | undefined;
  readonly evidence: EvidenceMark | undefined;
  readonly steps: readonly StepRow[];
  /** What to beware of when acting on it. */
  readonly cautions?: readonly CautionView[] | undefined;
}
