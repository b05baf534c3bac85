import type { Guideline } from "./guideline.ts";
import { sectionsOf } from "./guideline.ts";
import type { Measurement } from "./measurement.ts";
import type { Outcome, Step } from "./outcome.ts";
import { noAnswer } from "./outcome.ts";
import { sharesOfBases, shortBase } from "./rules/baseShare.ts";
import type { Cations } from "./rules/cationSum.ts";
import { sumCations } from "./rules/cationSum.ts";
import { firstAnswer } from "./firstAnswer.ts";

/** The sum of cations by the first guideline that can: information, and no rate. */
export const cationInformation = (packs: readonly Guideline[], measurements: readonly Measurement[]): Outcome<Cations> => {
  const tries = packs.flatMap((pack) => sectionsOf(pack, "cationSum").map((rule) => ({ pack, outcome: sumCations(rule, measurements) })));
  return firstAnswer(tries, noAnswer("none of the chosen guidelines sums cations", ["a cation sum"])).outcome;
};

/** Percent of the cation exchange that calcium holds, where one of the guidelines can sum the cations. */
export const calciumSaturation = (packs: readonly Guideline[], measurements: readonly Measurement[]): number | undefined => {
  const sum = cationInformation(packs, measurements);
  return sum.kind === "answer" ? sum.value.saturation.Ca : undefined;
};

/** Bases that may be short beside the others, by the guidelines that say so: a sign to look at it, and no rate. */
export const shortBases = (packs: readonly Guideline[], cations: Cations): Step[] => {
  const shares = sharesOfBases(cations);
  return packs.flatMap((pack) => sectionsOf(pack, "baseShare")).flatMap((rule) => shortBase(rule, shares) ?? []);
};
