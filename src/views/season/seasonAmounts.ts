import { round, show } from "../../interpretation/show.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import { money as moneyOf, unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import type { SpreadKind, SpreadLine } from "./seasonLines.ts";
import { limeMass, limeRate, mass, fineRate } from "../units.ts";

/** lb/ac of a product as the field's page shows it: lime in tons or tonnes, except in a garden. */
export const spreadRate = (kind: SpreadKind, perAcre: number, units: UnitChoice): { value: string; unit: string } =>
  (kind === "lime" ? limeRate : fineRate)({ value: perAcre, unit: "lb/ac" }, units);

/** "8.4 tons" of lime, "1,719 lb" of fertilizer: what a zone takes in all, as the field's page shows it. */
export const spreadMass = (kind: SpreadKind, pounds: number, units: UnitChoice): string =>
  kind === "lime" ? limeMass(convert(pounds, "lb", "ton"), units) : mass(pounds, units);

/** "5.1 tons", "1.8 t": a load as it is bought, by the ton or the tonne from one up; "448 lb" below. */
export const loadWords = (kind: SpreadKind, pounds: number, units: UnitChoice): string => {
  const { priceMass } = unitChoices[units];
  const loads = convert(pounds, "lb", priceMass);
  if (kind === "lime" || units === "garden" || loads < 1) return spreadMass(kind, pounds, units);
  return `${show(loads, 1)} ${priceMass === "t" ? "t" : "tons"}`;
};

/** Money for a season: whole units, and cents where a garden's sum needs them. */
export const costWords = (cost: number, units: UnitChoice, currency: string): string => moneyOf(cost, currency, units === "garden" ? 2 : 0);

/** "$46 per ton": a price as the farm's trade counts it. */
export const priceWords = (perShortTon: number, units: UnitChoice, currency: string): string => {
  const { priceMass } = unitChoices[units];
  const price = round(perShortTon * convert(1, priceMass, "ton"), 2);
  return `${moneyOf(price, currency, Number.isInteger(price) ? 0 : 2)} per ${priceMass}`;
};

/** Sums over lines; a sum of which a part is not known is not known, and `unknown` counts the parts. */
export const sumOf = (
  lines: readonly SpreadLine[],
  of: "pounds" | "cost" | "acres",
): { readonly known: number; readonly unknown: number } => ({
  known: lines.reduce((sum, line) => sum + (line[of] ?? 0), 0),
  unknown: lines.filter((line) => line[of] === undefined).length,
});
