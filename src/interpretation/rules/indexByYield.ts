import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { crops } from "../vocabulary.ts";
import type { PartPlace, PartRate } from "./indexPart.ts";
import { amount, cell, isAt, noCell, provenanceOf, tableStep } from "./indexPart.ts";
import type { IndexPart } from "./indexRule.ts";

/** A rate between two printed yields, along the line. Outside them there is none: a table is never stretched. */
export const rateByYield = (part: IndexPart, rows: NonNullable<IndexPart["byYield"]>, place: PartPlace): Outcome<PartRate> => {
  const { at, rule, pack, crop } = place;
  const rates = rows.map((r) => ({ yield: r.yield, rate: cell(r.rates, at) }));
  // One rate at every yield, such as nothing at the highest class, needs no yield.
  const [first] = rates;
  if (first?.rate !== undefined && rates.every((r) => r.rate === first.rate))
    return answer({ rate: first.rate }, [tableStep(part, place, first.rate, undefined)]);
  if (place.yieldTonnes.kind === "noAnswer") return place.yieldTonnes;
  const { value: tonnes, step } = place.yieldTonnes.value;
  const above = rates.findIndex((r) => r.yield >= tonnes);
  const least = rates[0]!.yield;
  if (above < 0 || tonnes < least)
    return noAnswer(
      `the yield of ${plain(tonnes, 2)} t/ha is outside the table of ${pack}, which runs from ${plain(least)} to ${plain(rates.at(-1)!.yield)} t/ha`,
      [`a yield from ${plain(least)} to ${plain(rates.at(-1)!.yield)} t/ha`],
    );
  const upper = rates[above]!;
  const lower = upper.yield === tonnes ? upper : rates[above - 1]!;
  if (upper.rate === undefined || lower.rate === undefined) return noCell(place);
  const doubt = part.doubtful?.find(
    (d) => isAt(d.class, at) && (d.yield === undefined || d.yield === upper.yield || d.yield === lower.yield),
  );
  const exact = upper === lower;
  const rate = exact ? upper.rate : lower.rate + ((tonnes - lower.yield) / (upper.yield - lower.yield)) * (upper.rate - lower.rate);
  return answer({ rate, doubt: doubt?.note }, [
    step,
    {
      what: exact
        ? `Table for ${crops[crop].label}, ${plain(tonnes)} t/ha, at ${rule.indexName} ${at.name}`
        : `Table for ${crops[crop].label} at ${rule.indexName} ${at.name}, on the line between two printed yields`,
      ...(!exact && {
        expression: `${plain(lower.rate)} + (${plain(tonnes, 2)} − ${plain(lower.yield)}) ÷ ${plain(upper.yield - lower.yield)} × (${plain(upper.rate)} − ${plain(lower.rate)})`,
      }),
      result: amount(rate, place),
      ...provenanceOf(part, place, doubt),
    },
  ]);
};
