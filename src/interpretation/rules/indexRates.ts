import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { belowZero, plain } from "../show.ts";
import { rateByYield } from "./indexByYield.ts";
import { fromOfftake } from "./indexFromOfftake.ts";
import type { PartPlace, PartRate } from "./indexPart.ts";
import { amount, cell, isAt, noCell, tableStep } from "./indexPart.ts";
import type { IndexPart } from "./indexRule.ts";

/** Rate of one part in the rule's unit, with its lines of the sum. */
export const partRate = (part: IndexPart, place: PartPlace): Outcome<PartRate> => {
  const { at } = place;
  const withheld = part.withheld?.find((w) => isAt(w.class, at));
  // Only the publication could settle it: there is nothing that a person might test or write down.
  if (withheld) return noAnswer(withheld.because);
  if (part.byYield) return rateByYield(part, part.byYield, place);
  const added = part.offtake && cell(part.offtake.add, at);
  if (part.offtake && added !== undefined) return fromOfftake(part.offtake, added, place);
  const rate = cell(part.rates, at);
  if (rate === undefined) return noCell(place);
  const doubt = part.doubtful?.find((d) => isAt(d.class, at));
  const steps: Step[] = [tableStep(part, place, rate, doubt)];
  return correct(rate, place, steps, doubt?.note);
};

/** Add (yield - table yield) x what a t takes away, at the class the publication names and below; never below zero. */
const correct = (rate: number, place: PartPlace, steps: Step[], doubt: string | undefined): Outcome<PartRate> => {
  const { correction, tableYield } = place.row;
  if (!correction || !tableYield) return answer({ rate, doubt }, steps);
  const last = place.classes.findLastIndex((c) => isAt(correction.upTo, c));
  if (place.classes.findIndex((c) => c.name === place.at.name) > last) return answer({ rate, doubt }, steps);
  if (place.yieldTonnes.kind === "noAnswer") return place.yieldTonnes;
  const goal = place.yieldTonnes.value;
  const corrected = rate + (goal.value - tableYield.value) * correction.perTonne.value;
  const value = Math.max(0, corrected);
  const notes = [correction.perTonne.note, correction.note].filter(Boolean);
  steps.push(goal.step, {
    what: `Corrected for yield: the table is for ${plain(tableYield.value)} t/ha`,
    expression: `${plain(rate, 1)} + (${plain(goal.value, 2)} − ${plain(tableYield.value)}) × ${plain(correction.perTonne.value)}`,
    result: `${belowZero(corrected, 1)}${amount(value, place)}`,
    source: correction.perTonne.source,
    evidence: correction.perTonne.evidence,
    ...(notes.length > 0 && { note: notes.join("; ") }),
  });
  return answer({ rate: value, doubt }, steps);
};
