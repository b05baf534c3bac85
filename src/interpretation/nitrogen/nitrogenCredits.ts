import type { Guideline } from "../guideline.ts";
import { sectionsOf } from "../guideline.ts";
import type { Measurement } from "../measurement.ts";
import type { Answer, NoAnswer, Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { creditOfLegume, isLegume } from "../rules/legumeCredit.ts";
import type { ManureSpread } from "../rules/manureAvailability.ts";
import { nitrogenOfManure } from "../rules/manureAvailability.ts";
import type { NitrateHistory } from "../rules/nitrateFacts.ts";
import { historyStep } from "../rules/nitrateFacts.ts";
import type { CreditId } from "../rules/profileNitrate.ts";
import type { Amount, YieldUnit } from "../units.ts";
import type { CropId } from "../vocabulary.ts";
import { crops, nitrogenFixers } from "../vocabulary.ts";
import type { Facts } from "../rules/facts.ts";

/** A place's question for nitrogen: its newest nitrate test with the crop that stood then, or the next crop without a test. */
export interface NitrogenQuestion {
  /** Nitrate-N of one day; empty where it was not tested. */
  readonly measurements: readonly Measurement[];
  readonly facts: Facts;
  readonly history: NitrateHistory;
  readonly yieldGoal: Amount<YieldUnit> | undefined;
  /** Manure of this season and the two before; `undefined` where the seasons are not recorded. */
  readonly manure: readonly ManureSpread[] | undefined;
  /** That of this season and the one before alone, where the season before that is not recorded. */
  readonly manureBefore?: readonly ManureSpread[] | undefined;
  /** What is recorded of it, where not all of the seasons are: no rate rests on it, cautions do. */
  readonly manureFound?: readonly ManureSpread[] | undefined;
}

export interface NitrogenCredit {
  readonly id: CreditId;
  readonly outcome: Outcome<{ readonly value: number }>;
  readonly pack: Guideline;
  /** The rate beside it rests on a test of this season's soil, which holds that nitrogen already: the credit must not come off it. */
  readonly measured: boolean;
}

/**
 * A credit that a rule takes off, lb N/ac; nothing where the records show that it cannot apply. A legume's is read in the
 * same guideline only, since some states' rates hold it already. Manure's is an amount of nitrogen whoever states it, so
 * where the rule's guideline lacks the shares, those of the next chosen one are taken, and a step says whose they are.
 */
export const creditTakenOff = (
  id: CreditId,
  pack: Guideline,
  packs: readonly Guideline[],
  question: NitrogenQuestion,
): Answer<number> | NoAnswer => (id === "legume" ? legumeTakenOff(pack, question.history) : manureTakenOff(pack, packs, question.manure));

const legumeTakenOff = (pack: Guideline, history: NitrateHistory): Answer<number> | NoAnswer => {
  const previous = history.previousCrop;
  if (!previous) return noAnswer(`the crop before is not recorded, and ${pack.short} takes its credit off`, ["previousCrop"]);
  const crop = previous.value as CropId;
  if (!nitrogenFixers.has(crop))
    return answer(0, [historyStep("previousCrop", history), { what: `No legume credit after ${crops[crop].label}`, result: "0 lb N/ac" }]);
  const table = sectionsOf(pack, "legumeCredit")[0];
  if (!table)
    return noAnswer(`${pack.short} takes a legume credit off and its values are not here`, [`a credit after ${crops[crop].label}`]);
  const found = creditOfLegume(table, history, pack.short);
  return found.kind === "answer" ? { ...found, value: found.value.credit } : found;
};

const manureTakenOff = (
  pack: Guideline,
  packs: readonly Guideline[],
  manure: readonly ManureSpread[] | undefined,
): Answer<number> | NoAnswer => {
  if (!manure)
    return noAnswer(`the seasons before are not all recorded, and ${pack.short} takes the nitrogen of manure off`, [
      "the seasons of the last three years",
    ]);
  if (manure.length === 0) return answer(0, [{ what: "No manure in this season and the two before", result: "0 lb N/ac" }]);
  const [from] = [pack, ...packs].filter((each) => sectionsOf(each, "manureAvailability").length > 0);
  if (!from)
    return noAnswer(`manure was spread, and the values by which ${pack.short} takes it off are not here`, ["a release of manure nitrogen"]);
  const found = nitrogenOfManure(sectionsOf(from, "manureAvailability")[0]!, manure, from.short);
  if (found.kind === "noAnswer" || from === pack) return found;
  const borrowed = `${pack.short} takes the nitrogen of manure off without its own shares at hand; those of ${from.short} are used.`;
  return { ...found, cautions: [borrowed, ...found.cautions] };
};

/** Credits of a guideline that states them without a rate of its own, or beside rates that do not take them off. */
export const statedCredits = (pack: Guideline, { facts, history, manure }: NitrogenQuestion): Omit<NitrogenCredit, "measured">[] => {
  const taken = sectionsOf(pack, "profileNitrate").flatMap((rule) => (facts.crop && rule.crops.includes(facts.crop) ? rule.credits : []));
  const previous = history.previousCrop?.value as CropId | undefined;
  const legume = taken.includes("legume")
    ? []
    : sectionsOf(pack, "legumeCredit")
        .filter(
          (rule) =>
            previous !== undefined &&
            isLegume(rule, previous) &&
            (rule.before === undefined || (facts.crop !== undefined && rule.before.includes(facts.crop))),
        )
        .map((rule): Omit<NitrogenCredit, "measured"> => {
          const found = creditOfLegume(rule, history, pack.short);
          return { id: "legume", pack, outcome: found.kind === "answer" ? { ...found, value: { value: found.value.credit } } : found };
        });
  const spread = taken.includes("manure") || !manure || manure.length === 0 ? [] : sectionsOf(pack, "manureAvailability");
  return [
    ...legume,
    ...spread.map((rule): Omit<NitrogenCredit, "measured"> => {
      const found = nitrogenOfManure(rule, manure!, pack.short);
      return { id: "manure", pack, outcome: found.kind === "answer" ? { ...found, value: { value: found.value } } : found };
    }),
  ];
};
