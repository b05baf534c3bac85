import type { Outcome, Step } from "../outcome.ts";
import { answer } from "../outcome.ts";
import { belowZero, plain, round } from "../show.ts";
import { crops } from "../vocabulary.ts";
import type { PartPlace, PartRate } from "./indexPart.ts";
import { amount } from "./indexPart.ts";
import type { IndexPart } from "./indexRule.ts";

/** Yield x offtake + the class's step. With `roundTo`, as a table made so: rounded at the table's yield, then corrected. */
export const fromOfftake = (how: NonNullable<IndexPart["offtake"]>, added: number, place: PartPlace): Outcome<PartRate> => {
  if (place.yieldTonnes.kind === "noAnswer") return place.yieldTonnes;
  const { value: tonnes, step } = place.yieldTonnes.value;
  const { tableYield } = place.row;
  const per = how.perTonne.value;
  const from = { source: how.perTonne.source, evidence: how.perTonne.evidence, note: how.perTonne.note };
  const steps: Step[] = [step];
  let base = tonnes;
  let taken: number;
  if (how.roundTo !== undefined && tableYield) {
    base = tableYield.value;
    taken = round((base * per) / how.roundTo, 0) * how.roundTo;
    steps.push({
      what: "The table is made for a yield of",
      result: `${plain(base)} t/ha`,
      source: tableYield.source,
      evidence: tableYield.evidence,
      note: tableYield.note,
    });
    steps.push({
      what: `What ${plain(base)} t of ${crops[place.crop].label} take away, to the nearest ${plain(how.roundTo)}`,
      expression: `${plain(base)} × ${plain(per)} = ${plain(base * per, 1)}`,
      result: amount(taken, place),
      ...from,
    });
  } else {
    taken = base * per;
    steps.push({
      what: `What the harvest of ${crops[place.crop].label} takes away`,
      expression: `${plain(base, 2)} × ${plain(per)}`,
      result: amount(taken, place),
      ...from,
    });
  }
  const rate = taken + added;
  steps.push({
    what:
      added > 0
        ? `Added at ${place.rule.indexName} ${place.at.name}, to build up`
        : `Nothing is added at ${place.rule.indexName} ${place.at.name}`,
    expression: `${plain(taken, 1)} + ${plain(added)}`,
    result: amount(rate, place),
    source: how.steps.source,
    evidence: how.steps.evidence,
    note: how.steps.note,
  });
  if (base === tonnes) return answer({ rate }, steps);
  const corrected = rate + (tonnes - base) * per;
  const value = Math.max(0, corrected);
  steps.push({
    what: `Corrected for yield`,
    expression: `${plain(rate, 1)} + (${plain(tonnes, 2)} − ${plain(base)}) × ${plain(per)}`,
    result: `${belowZero(corrected, 1)}${amount(value, place)}`,
    ...from,
  });
  return answer({ rate: value }, steps);
};
