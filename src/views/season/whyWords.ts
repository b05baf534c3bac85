import { pH } from "../../interpretation/show.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { nutrients } from "../../interpretation/vocabulary.ts";
import type { Zone } from "../../records/model.ts";
import { isFed, isLow, isUnlimed } from "./fieldNeeds.ts";
import type { ToldZone } from "./seasonSpread.ts";
import { spreadSinceAdvice } from "./seasonSpread.ts";
import type { SeasonZone } from "./seasonZones.ts";
import { list, listOfPhrases } from "../words.ts";
import { ratedCell } from "../advice/zoneRows.ts";

/** More zones than these are counted, not named. */
const mostNamed = 6;

const onZones = (some: readonly Zone[], all: readonly unknown[]): string =>
  some.length === all.length
    ? ""
    : ` on ${some.length > mostNamed ? `${some.length} of ${all.length} zones` : list(some.map((z) => z.name))}`;

/** The sentence that stands beside a rate of which some was spread. */
export const notTakenOff = (spread: string): string => `Spread already, and not taken off: ${spread}.`;

/** "Spread already, and not taken off: 2 ton/ac of ground limestone on 21 November 2025 on Knoll."; nothing where nothing was. */
export const alreadyWords = (zones: readonly ToldZone[], job: "lime" | "fertilizer"): string => {
  const spread = zones.map((z) => ({ zone: z.zone, words: list(spreadSinceAdvice(z, job)) })).filter(({ words }) => words !== "");
  if (spread.length === 0) return "";
  const alike = [...Map.groupBy(spread, ({ words }) => words)];
  const on = (some: typeof spread): string =>
    onZones(
      some.map(({ zone }) => zone),
      zones,
    );
  return alike.length > mostNamed
    ? `Some was spread already${on(spread)}, and is not taken off.`
    : notTakenOff(alike.map(([words, some]) => `${words}${on(some)}`).join("; "));
};

/** Why lime is called for: "Soil pH on Outwash is 5.7."; "Soil pH is 5.4 to 5.9 on 8 of 26 zones."; nothing where it is not. */
export const limeWhy = (zones: readonly SeasonZone[]): string => {
  const limed = zones.filter((z) => z.advised?.view.actions.some((a) => a.kind === "lime"));
  if (limed.length === 0) return "";
  const cells = limed.map(({ advised }) => ratedCell(advised?.advice, "pH"));
  if (limed.length <= mostNamed)
    return `Soil pH ${list(limed.map(({ zone }, i) => `${zones.length > 1 ? `on ${zone.name} ` : ""}is ${cells[i]!.value}`))}.`;
  const values = cells.flatMap((cell) => cell.measurement?.value ?? []);
  return `Soil pH is ${pH(Math.min(...values))} to ${pH(Math.max(...values))}${onZones(
    limed.map((z) => z.zone),
    zones,
  )}.`;
};

/** "Soil pH is 5.9 to 6.0 on Top and Bottom: lime is due, but there is no rate to spread."; nothing where each rate is known. */
export const unlimedWhy = (zones: readonly SeasonZone[]): string[] => {
  const unlimed = zones.filter(isUnlimed);
  if (unlimed.length === 0) return [];
  const values = unlimed.flatMap(({ advised }) => ratedCell(advised?.advice, "pH").measurement?.value ?? []);
  const [least, most] = [pH(Math.min(...values)), pH(Math.max(...values))];
  const on = onZones(
    unlimed.map((z) => z.zone),
    zones,
  );
  return [
    values.length === 0
      ? `Lime is due${on}, but there is no rate to spread.`
      : `Soil pH is ${least === most ? least : `${least} to ${most}`}${on}: lime is due, but there is no rate to spread.`,
  ];
};

/** "very low on Knoll, and low on Apron and Outwash", in the words of the guideline's classes, the lowest result first; empty where none is low. */
export const lowWords = (zones: readonly SeasonZone[], analyte: AnalyteId & ("P" | "K")): string => {
  const low = zones.flatMap((zone) => {
    const { band, measurement } = ratedCell(zone.advised?.advice, analyte);
    return isLow(zone, analyte) ? [{ zone: zone.zone, band: band!, value: measurement!.value }] : [];
  });
  const classes = Map.groupBy(
    low.sort((a, b) => a.value - b.value),
    ({ band }) => band,
  );
  const said = [...classes].map(([band, of]) => {
    const on = new Set(of.map(({ zone }) => zone));
    // Zones are named in the field's order.
    return `${band}${onZones(
      zones.flatMap(({ zone }) => (on.has(zone) ? [zone] : [])),
      zones,
    )}`;
  });
  return listOfPhrases(said);
};

/** "Potassium is low on Knoll.", "Potassium and phosphorus are deficient on Outwash."; nothing where neither is low. */
export const lowWhy = (zones: readonly SeasonZone[]): string[] => {
  const [K, P] = [lowWords(zones, "K"), lowWords(zones, "P")];
  // "On 15 of 64 zones" may be said of other zones.
  if (K !== "" && K === P && zones.every((z) => isLow(z, "K") === isLow(z, "P"))) return [`Potassium and phosphorus are ${K}.`];
  return [K && `Potassium is ${K}.`, P && `Phosphorus is ${P}.`].filter((words) => words !== "");
};

/** "No potash rate is shown for West end.", of zones that are low: the rates beside it are other zones'. Named as the guidelines name it. */
export const unfedWhy = (zones: readonly SeasonZone[], analyte: "P" | "K"): string[] => {
  const unfed = zones.filter((z) => isLow(z, analyte) && !isFed(z, analyte)).map((z) => z.zone);
  const asked = zones.flatMap(({ advised }) => advised?.advice.advice.rates ?? []).find(({ nutrient }) => nutrient.startsWith(analyte));
  return unfed.length === 0
    ? []
    : [
        `No ${nutrients[asked?.nutrient ?? (analyte === "K" ? "K2O" : "P2O5")].label.toLowerCase()} rate is shown for ${unfed.length > mostNamed ? `${unfed.length} of the zones that are low` : list(unfed.map((z) => z.name))}.`,
      ];
};
