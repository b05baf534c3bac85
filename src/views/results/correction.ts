import type { Measurement } from "../../interpretation/measurement.ts";
import { numberLabel } from "../../interpretation/measurement.ts";
import { longDate } from "../words.ts";

/** What a corrected result was, to be struck through, and why and when it was corrected. */
export interface CorrectionWords {
  readonly was: string;
  /** The corrected number, where the value printed beside it is another: a mean of bags. */
  readonly bag: string | undefined;
  /** "misread sheet (1 November 2017)" */
  readonly why: string;
}

const one = (m: Measurement, bag: string | undefined): CorrectionWords[] => {
  if (!m.correction) return [];
  const { was, qualifier, reason, date } = m.correction;
  return [{ was: numberLabel({ analyte: m.analyte, value: was, qualifier }), bag, why: `${reason} (${longDate(date)})` }];
};

/** The corrections within a result: its own, or those of the bags it is the mean of. */
export const correctionsOf = (m: Measurement): CorrectionWords[] =>
  m.bags ? m.bags.flatMap((bag) => one(bag, numberLabel(bag))) : one(m, undefined);
