import { solve } from "yalps";
import type { NoAnswer, Outcome, Source, Step } from "./outcome.ts";
import { answer, noAnswer } from "./outcome.ts";
import { plain } from "./show.ts";
import type { Written } from "./unitChoices.ts";
import { costPerArea, money, unitChoices } from "./unitChoices.ts";
import type { Amount, RateUnit } from "./units.ts";
import { convert, oxidePerElement } from "./units.ts";
import type { SuppliedId } from "./vocabulary.ts";
import { suppliedIds, supplied as names } from "./vocabulary.ts";

/** A guaranteed analysis: percent by weight. An element and its oxide are never both stated. */
export type Analysis = Readonly<Partial<Record<SuppliedId, number | undefined>>>;

/** A fertilizer the farm can buy. */
export interface Fertilizer {
  readonly id: string;
  readonly name: string;
  readonly analysis: Analysis;
  /** Where the record states the analysis. */
  readonly source: Source;
  /** Per short ton, in the farm's currency. */
  readonly pricePerTon?: number | undefined;
  /** Of a liquid, which is bought and sprayed by volume. */
  readonly poundsPerGallon?: number | undefined;
  /** Urea, and a solution that holds it, must not touch the seed. */
  readonly holdsUrea?: boolean | undefined;
}

/** What a zone is to be given of one nutrient. */
export interface Need {
  readonly nutrient: SuppliedId;
  readonly rate: Amount<RateUnit>;
  /** The lines of the sum that lead to it. */
  readonly steps: readonly Step[];
}

export interface ProductRate {
  readonly fertilizer: Fertilizer;
  readonly rate: Amount<"lb/ac">;
  readonly costPerAcre: number | undefined;
}

/** Pounds an acre of one nutrient: what was asked for, and what the products bring. */
export interface Supply {
  readonly nutrient: SuppliedId;
  readonly asked: number;
  readonly given: number;
  /** A guideline was asked and calls for no more of it. Absent where nobody asked. */
  readonly needless?: true;
}

export interface Purchase {
  /** In order of id. */
  readonly products: readonly ProductRate[];
  /** Every nutrient that is asked for or brought along. */
  readonly supplies: readonly Supply[];
  readonly costPerAcre: number | undefined;
  /** `weight`: prices are missing, so the least total weight was chosen instead of the least cost. */
  readonly least: "cost" | "weight";
}

const elementOf = { P2O5: "P", K2O: "K", MgO: "Mg", SO3: "S" } as const;

/** Percent by weight of a nutrient in a product; an element is turned into its oxide, or back, by atomic weights. */
export const shareOf = (analysis: Analysis, nutrient: SuppliedId): number => {
  const stated = analysis[nutrient];
  if (stated !== undefined) return stated;
  for (const oxide of Object.keys(elementOf) as (keyof typeof elementOf)[]) {
    const element = elementOf[oxide];
    if (nutrient === oxide && analysis[element] !== undefined) return analysis[element] * oxidePerElement[oxide];
    if (nutrient === element && analysis[oxide] !== undefined) return analysis[oxide] / oxidePerElement[oxide];
  }
  return 0;
};

/** Pounds of a nutrient in a US gallon of a liquid; `undefined` where the product has no density. */
export const perGallon = (
  { analysis, poundsPerGallon }: Pick<Fertilizer, "analysis" | "poundsPerGallon">,
  nutrient: SuppliedId,
): number | undefined => (poundsPerGallon === undefined ? undefined : (shareOf(analysis, nutrient) / 100) * poundsPerGallon);

const poundsPerAcre = (rate: Amount<RateUnit>): number => convert(rate.value, rate.unit, "lb/ac");

/** What given amounts of products bring of each nutrient that is asked for, or that they state besides. lb/ac. */
export const suppliesOf = (
  products: readonly Pick<ProductRate, "fertilizer" | "rate">[],
  needs: readonly Pick<Need, "nutrient" | "rate">[],
): Supply[] => {
  const asked = new Map(needs.map((n) => [n.nutrient, poundsPerAcre(n.rate)]));
  // Potash asked for as K2O and stated as K is one nutrient, counted as it was asked for.
  const twin = (id: SuppliedId): boolean =>
    Object.entries(elementOf).some(
      ([oxide, element]) => (id === oxide && asked.has(element)) || (id === element && asked.has(oxide as SuppliedId)),
    );
  return suppliedIds.flatMap((nutrient): Supply[] => {
    if (!asked.has(nutrient) && (twin(nutrient) || !products.some((p) => p.fertilizer.analysis[nutrient]))) return [];
    const given = products.reduce((sum, p) => sum + (p.rate.value * shareOf(p.fertilizer.analysis, nutrient)) / 100, 0);
    const wanted = asked.get(nutrient) ?? 0;
    if (wanted === 0 && asked.has(nutrient)) return given > 0 ? [{ nutrient, asked: 0, given, needless: true }] : [];
    // The solver ends within a billionth of what was asked, which beside a half would be rounded to another number than that.
    return [{ nutrient, asked: wanted, given: Math.abs(given - wanted) < 1e-6 ? wanted : given }];
  });
};

/** A millionth of the dearest price for each place in the order of ids: enough to settle a tie, too little to change a choice. */
const tieBreak = 1e-6;

/** The cheapest amounts, lb/ac, that bring at least what is asked; `undefined` where no amounts can. */
const cheapest = (
  needs: readonly Need[],
  fertilizers: readonly Fertilizer[],
  price: (f: Fertilizer) => number,
): Map<Fertilizer, number> | undefined => {
  const nudge = Math.max(...fertilizers.map(price), 1e-3) * tieBreak;
  const { status, variables } = solve({
    direction: "minimize",
    objective: "price",
    constraints: new Map(needs.map((n) => [n.nutrient as string, { min: poundsPerAcre(n.rate) }])),
    variables: fertilizers.map(
      (f, i) =>
        [
          f,
          new Map([
            ["price", price(f) + nudge * i],
            ...needs.map((n) => [n.nutrient, shareOf(f.analysis, n.nutrient) / 100] as [string, number]),
          ]),
        ] as const,
    ),
  });
  return status === "optimal" ? new Map(variables) : undefined;
};

/** Nutrients that none of the products supplies, each as a refusal that names it. */
export const unsupplied = (
  needs: readonly Pick<Need, "nutrient">[],
  fertilizers: readonly Fertilizer[],
): (NoAnswer & { nutrient: SuppliedId })[] =>
  needs
    .filter((n) => !fertilizers.some((f) => shareOf(f.analysis, n.nutrient) > 0))
    .map(({ nutrient }) => ({
      nutrient,
      ...noAnswer(`there is nothing on the farm's list that supplies ${names[nutrient].label}`, [
        `a product that supplies ${names[nutrient].label}`,
      ]),
    }));

/**
 * The products of the farm's list, lb/ac of each, that together bring at least what is asked for, at the least cost: a
 * linear program, solved by the simplex method. What is brought over what was asked is told, never hidden.
 * Products without a price are left out where the priced ones suffice; where they do not, the least total weight of all
 * products is the answer, and `least` says so. Products of equal cost are taken in the order of their ids.
 * A need of 0 buys nothing; what is brought of it all the same is told as `needless`.
 * The lines of the sum are in the units and the currency of `written`; amounts and costs are always by the acre.
 * No answer where nothing is asked for, or where no product supplies one of the nutrients.
 */
export const leastCostProducts = (
  needs: readonly Need[],
  list: readonly Fertilizer[],
  written: Written = { units: "us" },
): Outcome<Purchase> => {
  const wanted = needs.filter((n) => n.rate.value > 0);
  if (wanted.length === 0) return noAnswer("nothing is asked for", []);
  const lacking = unsupplied(wanted, list);
  if (lacking.length > 0)
    return noAnswer(
      lacking.map((l) => l.because).join(", and "),
      lacking.flatMap((l) => l.missing),
    );
  const inOrder = list.filter((f) => wanted.some((n) => shareOf(f.analysis, n.nutrient) > 0)).sort((a, b) => (a.id < b.id ? -1 : 1));
  const priced = inOrder.filter((f) => f.pricePerTon !== undefined);
  const least = unsupplied(wanted, priced).length === 0 ? "cost" : "weight";
  const amounts = least === "cost" ? cheapest(wanted, priced, (f) => f.pricePerTon! / 2000) : cheapest(wanted, inOrder, () => 1);
  if (!amounts) return noAnswer("no amounts of the farm's products bring what is asked for", []);
  const products = inOrder.flatMap((fertilizer): ProductRate[] => {
    const value = amounts.get(fertilizer) ?? 0;
    if (value < 1e-6) return [];
    return [
      {
        fertilizer,
        rate: { value, unit: "lb/ac" },
        costPerAcre: fertilizer.pricePerTon === undefined ? undefined : (value / 2000) * fertilizer.pricePerTon,
      },
    ];
  });
  const supplies = suppliesOf(products, needs);
  const costPerAcre = products.every((p) => p.costPerAcre !== undefined) ? products.reduce((sum, p) => sum + p.costPerAcre!, 0) : undefined;
  return answer({ products, supplies, costPerAcre, least }, purchaseSteps(wanted, products, supplies, costPerAcre, least, written));
};

/** The lines of the sum, in the units and the currency of the farm. A need that was asked for in another unit says so first. */
const purchaseSteps = (
  needs: readonly Need[],
  products: readonly ProductRate[],
  supplies: readonly Supply[],
  costPerAcre: number | undefined,
  least: Purchase["least"],
  { units, currency }: Written,
): Step[] => {
  const { rate: unit, per, priceMass } = unitChoices[units];
  const shown = (pounds: number): number => convert(pounds, "lb/ac", unit);
  const priceOf = (perShortTon: number): string => money(perShortTon * convert(1, priceMass, "ton"), currency, 2);
  const massInPrice = priceMass === "t" ? "1,000" : "2,000";
  return [
    ...needs.flatMap((n): Step[] =>
      n.rate.unit === unit
        ? [...n.steps]
        : [...n.steps, { what: `The same in ${unit}`, result: `${plain(convert(n.rate.value, n.rate.unit, unit), 2)} ${unit}` }],
    ),
    ...products.flatMap(({ fertilizer, rate }): Step[] => [
      {
        what: `${fertilizer.name}, guaranteed analysis ${analysisLabel(fertilizer.analysis)}`,
        result: `${plain(shown(rate.value), 1)} ${unit}`,
        source: fertilizer.source,
      },
      ...volumeStep(fertilizer, rate.value, units),
    ]),
    ...supplies.map(({ nutrient, asked, given, needless }): Step => ({
      what: needless
        ? `${names[nutrient].symbol} brought along, more than is called for`
        : supplyWords(nutrient, shown(asked), shown(given), unit),
      expression: products
        .filter((p) => shareOf(p.fertilizer.analysis, nutrient) > 0)
        .map((p) => `${plain(shown(p.rate.value), 1)} × ${plain(shareOf(p.fertilizer.analysis, nutrient), 2)} ÷ 100`)
        .join(" + "),
      result: `${plain(shown(given), 1)} ${unit}`,
    })),
    costPerAcre === undefined
      ? {
          what:
            least === "weight"
              ? "Prices are missing from farm.yaml: this is the least total weight, which may not be the least cost"
              : "Cost",
          result: `${plain(shown(products.reduce((sum, p) => sum + p.rate.value, 0)), 1)} ${unit} of product`,
        }
      : {
          what: `Cost ${per}, the least that meets what is asked`,
          expression: products
            .map(
              (p) => `${plain(shown(p.rate.value), units === "garden" ? 2 : 1)} ÷ ${massInPrice} × ${priceOf(p.fertilizer.pricePerTon!)}`,
            )
            .join(" + "),
          result: money(costPerArea(costPerAcre, units), currency, 2),
        },
  ];
};

/** The same amount by volume, where the product is a liquid of known density. */
const volumeStep = (fertilizer: Fertilizer, poundsPerAcre: number, units: Written["units"]): Step[] => {
  const { rate: unit, volumeRate, density } = unitChoices[units];
  if (fertilizer.poundsPerGallon === undefined) return [];
  const [rate, heavy] = [convert(poundsPerAcre, "lb/ac", unit), convert(fertilizer.poundsPerGallon, "lb/gal", density)];
  const held = suppliedIds
    .filter((id) => fertilizer.analysis[id])
    .map((id) => `${plain(convert(perGallon(fertilizer, id)!, "lb/gal", density), 2)} ${density.split("/")[0]} of ${names[id].symbol}`);
  return [
    {
      what: `The same by volume, at ${plain(heavy, 3)} ${density}`,
      expression: `${plain(rate, 1)} ÷ ${plain(heavy, 3)}`,
      result: `${plain(rate / heavy, units === "garden" ? 2 : 1)} ${volumeRate}`,
      source: fertilizer.source,
      note: `a ${density === "kg/l" ? "liter" : "gallon"} holds ${held.join(", ")}`,
    },
  ];
};

const supplyWords = (nutrient: SuppliedId, asked: number, given: number, unit: string): string => {
  const { symbol } = names[nutrient];
  const over = given - asked;
  if (asked === 0) return `${symbol} brought along, not asked for here: count it where that nutrient is planned`;
  return over > 0.05 ? `${symbol} supplied, ${plain(over, 1)} ${unit} more than asked` : `${symbol} supplied`;
};

/** "0-0-60", "18-46-0", "0-0-22 + 22 S": nitrogen, phosphate and potash, then the rest by name; of elements alone "18-6-12 (N-P-K)". */
export const analysisLabel = (analysis: Analysis): string => {
  const elemental = (analysis.P ?? analysis.K) !== undefined && (analysis.P2O5 ?? analysis.K2O) === undefined;
  const grade = (elemental ? (["N", "P", "K"] as const) : (["N", "P2O5", "K2O"] as const))
    .map((id) => plain(shareOf(analysis, id), 2))
    .join("-");
  const rest = suppliedIds
    .filter((id) => !["N", "P2O5", "K2O", "P", "K"].includes(id) && analysis[id])
    .map((id) => `${plain(analysis[id]!, 2)} ${names[id].symbol}`);
  return [`${grade}${elemental ? " (N-P-K)" : ""}`, ...rest].join(" + ");
};
