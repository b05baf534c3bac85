import type { Amount, RateUnit } from "../../interpretation/units.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import type { Dose } from "../../interpretation/rules/nutrientRate.ts";
import type { NutrientId } from "../../interpretation/vocabulary.ts";
import { nutrients } from "../../interpretation/vocabulary.ts";
import { fineRate } from "../units.ts";
import type { ZoneAdvice } from "./sample.ts";
import { currentNitrogen } from "./zonePurchase.ts";

/** A rate that its guideline spreads in doses, each at its own time. */
export interface DosedRate {
  readonly nutrient: NutrientId;
  readonly rate: Amount<RateUnit>;
  readonly doses: readonly Dose[];
}

/** The rates of a zone that are not to be spread at once. */
export const dosedRates = (zone: ZoneAdvice): DosedRate[] =>
  [...currentNitrogen(zone), ...zone.advice.rates].flatMap(({ nutrient, outcome }) =>
    outcome.kind === "answer" && outcome.value.doses ? [{ nutrient, rate: outcome.value.rate, doses: outcome.value.doses }] : [],
  );

/** "30 in the autumn before, 80 in spring for the first cut" */
export const doseList = ({ rate, doses }: Pick<DosedRate, "rate" | "doses">, units: UnitChoice): string =>
  doses.map((d) => `${fineRate({ value: d.value, unit: rate.unit }, units).value} ${d.when}`).join(", ");

/** "in doses, kg/ha of K₂O: 30 in the autumn before, 80 in spring for the first cut": how a product that brings the nutrient is spread. */
export const dosedWords = (dosed: DosedRate, units: UnitChoice): string =>
  `in doses, ${fineRate(dosed.rate, units).unit} of ${nutrients[dosed.nutrient].symbol}: ${doseList(dosed, units)}`;
