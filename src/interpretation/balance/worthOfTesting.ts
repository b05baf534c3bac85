import type { CoefficientSet, Harvest } from "./harvestRemoval.ts";
import { removedByHarvest } from "./harvestRemoval.ts";
import type { NoAnswer, Outcome, Step } from "../outcome.ts";
import { answer, noAnswer, weakestEvidence } from "../outcome.ts";
import type { Fertilizer } from "../products.ts";
import { leastCostProducts } from "../products.ts";
import { counted, plain } from "../show.ts";
import type { Written } from "../unitChoices.ts";
import { costPerArea, money, unitChoices } from "../unitChoices.ts";
import type { Amount, RateUnit } from "../units.ts";
import { convert, oxidePerElement } from "../units.ts";
import type { NutrientId } from "../vocabulary.ts";
import { nutrients } from "../vocabulary.ts";

/** The two nutrients a grower would replace without a test, and the element some publications print instead. */
export const replaced = { P2O5: "P", K2O: "K" } as const satisfies Partial<Record<NutrientId, NutrientId>>;
export type ReplacedId = keyof typeof replaced;
const ids = Object.keys(replaced) as ReplacedId[];

export interface WorthQuestion {
  /** What the sampling's results led to, for one crop. */
  readonly advised: Readonly<Record<ReplacedId, Outcome<Amount<RateUnit>>>>;
  /** The harvest whose removal would be replaced without a test. */
  readonly harvest: Harvest;
  readonly coefficients: readonly CoefficientSet[];
  readonly fertilizers: readonly Fertilizer[];
  /** Cost of the lime that the results called for, an acre, once between two samplings. */
  readonly lime: Outcome<number>;
  /** Of the laboratory, an acre and year, and the years between samplings. */
  readonly testing: Outcome<{ readonly cost: number; readonly years: number }>;
  readonly written: Written;
}

/** Money an acre and year. */
export interface Worth {
  readonly advised: number;
  readonly blind: number;
  /** Blind less advised: below zero where the results call for more than the harvest takes. */
  readonly saved: number;
  /** A year's share; absent where it is not known. */
  readonly lime: number | undefined;
  readonly testing: number;
  /** Saved, less lime and testing. */
  readonly left: number;
}

type Amounts = Readonly<Record<ReplacedId, number>>;

/** The cheapest products that bring these pounds an acre; nothing costs nothing. */
const costOf = (amounts: Amounts, { fertilizers, written }: WorthQuestion): Outcome<number> => {
  const needs = ids
    .filter((id) => amounts[id] > 0)
    .map((nutrient) => ({ nutrient, rate: { value: amounts[nutrient], unit: "lb/ac" as const }, steps: [] }));
  if (needs.length === 0) return answer(0, []);
  const bought = leastCostProducts(needs, fertilizers, written);
  if (bought.kind === "noAnswer") return bought;
  const { costPerAcre, products } = bought.value;
  if (costPerAcre === undefined)
    return noAnswer(
      `not every product that it takes has a price: ${products
        .filter((p) => p.costPerAcre === undefined)
        .map((p) => p.fertilizer.name)
        .join(", ")}`,
      ["prices in farm.yaml"],
    );
  return answer(costPerAcre, bought.steps);
};

/** Pounds an acre of the oxide that a harvest takes, by a coefficient of the oxide or of its element. */
const removed = (id: ReplacedId, { harvest, coefficients }: WorthQuestion): Outcome<number> => {
  const asOxide = removedByHarvest(harvest, [harvest], id, coefficients);
  if (asOxide.kind === "answer") return asOxide;
  const asElement = removedByHarvest(harvest, [harvest], replaced[id], coefficients);
  return asElement.kind === "answer" ? { ...asElement, value: asElement.value * oxidePerElement[id] } : asOxide;
};

const each = (of: (id: ReplacedId) => Outcome<number>): { readonly amounts: Amounts; readonly steps: readonly Step[] } | NoAnswer => {
  const found = ids.map((id) => [id, of(id)] as const);
  for (const [, outcome] of found) if (outcome.kind === "noAnswer") return outcome;
  return {
    amounts: Object.fromEntries(found.map(([id, o]) => [id, (o as { value: number }).value])) as Record<ReplacedId, number>,
    steps: found.flatMap(([, o]) => (o as { steps: readonly Step[] }).steps),
  };
};

/** The source of a sum's graded steps, without its lines: those are in the publication's own units. */
const graded = (steps: readonly Step[]): Pick<Step, "source" | "evidence"> => ({
  source: (steps.find((s) => s.evidence !== undefined) ?? steps.find((s) => s.source !== undefined))?.source,
  evidence: weakestEvidence(steps),
});

/**
 * What the results of a sampling changed in money, an acre and year, against feeding blind: phosphate and potash as advised
 * against what replaces the harvest's removal, both at the least cost in the farm's products; less the year's share of the lime
 * the results called for, where blind is no lime; less the laboratory. It prices no yield, lost or gained. No answer without
 * both rates, both removals, their prices and the cost of testing; without a price of lime the sum leaves it out and says so.
 */
export const worthOfTesting = (question: WorthQuestion): Outcome<Worth> => {
  const { advised, testing, lime, written } = question;
  const rates = each((id) => {
    const rate = advised[id];
    return rate.kind === "answer"
      ? answer(convert(rate.value.value, rate.value.unit, "lb/ac"), rate.steps)
      : noAnswer(`there is no ${nutrients[id].label.toLowerCase()} rate: ${rate.because}`, rate.missing);
  });
  if ("kind" in rates) return rates;
  const taken = each((id) => removed(id, question));
  if ("kind" in taken) return taken;
  const [withTest, blind] = [costOf(rates.amounts, question), costOf(taken.amounts, question)];
  if (withTest.kind === "noAnswer") return withTest;
  if (blind.kind === "noAnswer") return blind;
  if (testing.kind === "noAnswer") return testing;
  const { cost, years } = testing.value;
  const saved = blind.value - withTest.value;
  const limeShare = lime.kind === "answer" ? lime.value / years : undefined;
  const left = saved - (limeShare ?? 0) - cost;
  const { rate: unit, decimals, per } = unitChoices[written.units];
  const amount = (a: Amounts): string =>
    ids.map((id) => `${plain(convert(a[id], "lb/ac", unit), Math.max(1, decimals))} ${nutrients[id].symbol}`).join(" and ");
  const sum = (value: number): string =>
    `${value < 0 ? "−" : ""}${money(Math.abs(costPerArea(value, written.units)), written.currency, 2)}`;
  const steps: Step[] = [
    { what: `Advised from the results, ${unit}`, result: amount(rates.amounts), ...graded(rates.steps) },
    { what: `The same in products, ${per}`, result: sum(withTest.value) },
    { what: `Taken away by the harvest, to be replaced without a test, ${unit}`, result: amount(taken.amounts), ...graded(taken.steps) },
    { what: `The same in products, ${per}`, result: sum(blind.value) },
    { what: "Saved by the results", expression: `${sum(blind.value)} − ${sum(withTest.value)}`, result: sum(saved) },
    ...(lime.kind === "answer"
      ? [
          {
            what: "Lime the results called for, a year's share; without a test none is spread",
            expression: `${sum(lime.value)} ÷ ${counted(years, "year")}`,
            result: sum(limeShare!),
          },
        ]
      : []),
    { what: "Laboratory, a year", result: sum(cost) },
    {
      what: `Left, ${per} and year`,
      expression: [sum(saved), ...(limeShare === undefined ? [] : [sum(limeShare)]), sum(cost)].join(" − "),
      result: sum(left),
    },
  ];
  return answer(
    { advised: withTest.value, blind: blind.value, saved, lime: limeShare, testing: cost, left },
    steps,
    lime.kind === "noAnswer" ? [`Lime is not in the sum, because ${lime.because}.`] : [],
  );
};
