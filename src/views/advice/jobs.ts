import { nutrients } from "../../interpretation/vocabulary.ts";
import type { Zone } from "../../records/model.ts";
import type { Action } from "./adviceView.ts";
import { capital, list, numberWord, zonesOrCount } from "../words.ts";

/** What is due on a field: the sentence that says it, and the amounts by zone. */
export interface Job {
  readonly text: string;
  readonly detail: string;
  readonly lime: boolean;
}

/** "the whole field", "both zones", "Knoll and Outwash", "14 of 26 zones". */
export const where = (zones: readonly Zone[], zonesInField: number): string => {
  if (zones.length === zonesInField)
    return zonesInField === 1 ? "the whole field" : zonesInField === 2 ? "both zones" : `all ${numberWord(zonesInField)} zones`;
  return zonesOrCount(zones, zonesInField);
};

/** More rates of lime than these are no sentence. */
const mostRates = 3;
/** More rates than these are told by the least and the most of them. */
const mostAmounts = 8;

/** Zones that get the same amount, in the order of the first of each. */
const byAmount = (actions: readonly Action[]): (readonly [string, readonly Zone[]])[] =>
  [...new Set(actions.map((a) => a.amount))].map((amount) => [amount, actions.filter((a) => a.amount === amount).map((a) => a.zone)]);

/** "90 lb/ac on Hill and Flat; 130 lb/ac on Draw"; of a field that is one zone the amount alone; of many "46 lb/ac to 86 lb/ac on 42 of 64 zones". */
const amountsByZone = (actions: readonly Action[], zonesInField: number): string => {
  const amounts = byAmount(actions);
  const on = (zones: readonly Zone[]): string => ` on ${where(zones, zonesInField)}`;
  if (amounts.length <= mostAmounts) return amounts.map(([amount, zones]) => `${amount}${zonesInField === 1 ? "" : on(zones)}`).join("; ");
  const ordered = [...actions].sort((a, b) => a.size - b.size);
  return `${ordered[0]!.amount} to ${ordered.at(-1)!.amount}${on(actions.map((a) => a.zone))}`;
};

/** "Spread 2.2 tons per acre of ground limestone on Outwash and 1.4 tons per acre on Knoll"; of many rates only where. */
const limeJob = (material: string, actions: readonly Action[], zonesInField: number): Job => {
  const rates = byAmount(actions);
  if (rates.length <= mostRates)
    return {
      text: `Spread ${list(rates.map(([amount, zones], i) => `${amount}${i === 0 ? ` of ${material}` : ""} on ${where(zones, zonesInField)}`))}`,
      detail: "",
      lime: true,
    };
  return {
    text: `Spread ${material} on ${where(
      actions.map((a) => a.zone),
      zonesInField,
    )}`,
    detail: `${capital(material)}: ${amountsByZone(actions, zonesInField)}.`,
    lime: true,
  };
};

/** "Spread 2.2 tons per acre of ground limestone on Outwash"; "Apply potash on all three zones and phosphate on Knoll". One job for each lime, and one for fertilizer. */
export const jobs = (actions: readonly Action[], zonesInField: number): Job[] => {
  const limed = actions.filter((a) => a.kind === "lime");
  const limes = [...new Set(limed.map((a) => a.material!))].map((material) =>
    limeJob(
      material,
      limed.filter((a) => a.material === material),
      zonesInField,
    ),
  );
  const kinds = ["N", "K2O", "P2O5", "K", "P", "MgO", "Mg", "Na2O", "S", "Zn", "B", "Mn", "Cu", "Cl"] as const;
  const due = kinds.map((kind) => ({ kind, on: actions.filter((a) => a.kind === kind) })).filter(({ on }) => on.length > 0);
  if (due.length === 0) return limes;
  const places = due.map(({ on }) =>
    where(
      on.map((a) => a.zone),
      zonesInField,
    ),
  );
  const samePlace = places.every((place) => place === places[0]);
  const text = samePlace
    ? `${list(due.map(({ kind }) => nutrients[kind].label.toLowerCase()))} on ${places[0]!}`
    : list(due.map(({ kind }, i) => `${nutrients[kind].label.toLowerCase()} on ${places[i]!}`));
  const detail = due.map(({ kind, on }) => `${nutrients[kind].label} (${nutrients[kind].symbol}): ${amountsByZone(on, zonesInField)}.`);
  return [...limes, { text: `Apply ${text}`, detail: detail.join(" "), lime: false }];
};
