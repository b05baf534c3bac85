import type { Guideline } from "../../interpretation/guideline.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { Need, Purchase } from "../../interpretation/products.ts";
import { noAnswer, weakestEvidence } from "../../interpretation/outcome.ts";
import { leastCostProducts, unsupplied } from "../../interpretation/products.ts";
import type { NutrientRate } from "../../interpretation/rules/nutrientRate.ts";
import type { StarterAdvice } from "../../interpretation/starter.ts";
import { starterAdvice } from "../../interpretation/starter.ts";
import { plain } from "../../interpretation/show.ts";
import type { NutrientId } from "../../interpretation/vocabulary.ts";
import { convert } from "../../interpretation/units.ts";
import { nutrients, supplied } from "../../interpretation/vocabulary.ts";
import type { Farm } from "../../records/model.ts";
import { leavesOutProducts } from "../leftOut.ts";
import type { ZoneAdvice } from "./sample.ts";

/** The rates of a zone as needs, each led to by the guideline that asks for it; 0 where it calls for none. */
const needsOf = (zone: ZoneAdvice): Need[] =>
  [...currentNitrogen(zone), ...zone.advice.rates].flatMap(({ nutrient, outcome, pack }): Need[] => {
    if (outcome.kind === "noAnswer" || !(nutrient in supplied)) return [];
    const { rate, to = 0 } = outcome.value;
    // "0 to 40": none has to be bought, and what is brought along may serve.
    if (rate.value <= 0 && to > 0) return [];
    return [
      {
        nutrient,
        rate,
        steps: [
          {
            what: `${nutrients[nutrient].symbol} asked for${pack ? ` by ${pack.short}` : ""}, as worked above`,
            result: `${plain(rate.value, 1)} ${rate.unit}`,
            source:
              outcome.steps.findLast(({ source }) => source !== undefined && source !== "common-practice" && "reference" in source)
                ?.source ??
              (pack && { reference: pack.publication }),
            evidence: weakestEvidence(outcome.steps),
          },
        ],
      },
    ];
  });

interface Nitrogen {
  readonly nutrient: NutrientId;
  readonly outcome: Outcome<NutrientRate>;
  readonly pack: Guideline | undefined;
}

/** Nitrogen for the crop that the rest is advised for, and not for one that is past. */
const nitrogenOfCrop = ({ advice, nitrogen, crop }: ZoneAdvice): Nitrogen[] =>
  advice.nitrogen && nitrogen?.crop && nitrogen.crop.season === crop?.season
    ? [{ nutrient: "N", outcome: advice.nitrogen, pack: advice.nitrogenPack }]
    : [];

const isLimit = ({ outcome }: Nitrogen): boolean => outcome.kind === "answer" && outcome.value.atMost === true;

/** Nitrogen that is bought and spread with the rest, less what was since the test; not up to what a law allows at most, which is nobody's dose. */
export const currentNitrogen = (zone: ZoneAdvice): Nitrogen[] =>
  nitrogenOfCrop(zone).flatMap((n) => (isLimit(n) ? [] : [{ ...n, outcome: stillDue(n.outcome, zone.nitrogen?.since ?? 0) }]));

const stillDue = (outcome: Outcome<NutrientRate>, since: number): Outcome<NutrientRate> => {
  if (outcome.kind === "noAnswer" || since <= 0) return outcome;
  const { rate, to } = outcome.value;
  const spread = convert(since, "lb/ac", rate.unit);
  const left = (asked: number): number => Math.max(0, asked - spread);
  const value = { ...outcome.value, rate: { ...rate, value: left(rate.value) }, ...(to !== undefined && { to: left(to) }) };
  const step = {
    what: "Still due, less what was spread since the test",
    expression: `${plain(rate.value, 1)} − ${plain(spread, 1)}`,
    result: `${plain(value.rate.value, 1)} ${rate.unit}`,
  };
  return { ...outcome, value, steps: [...outcome.steps, step] };
};

/** Nitrogen of which only the most that is allowed is known. */
export const limitedNitrogen = (zone: ZoneAdvice): Nitrogen | undefined => nitrogenOfCrop(zone).find(isLimit);

export interface ZonePurchase {
  /** What a planned starter brings; absent where none is planned. */
  readonly starter: StarterAdvice | undefined;
  /** Nutrients that nothing on the farm's list supplies. */
  readonly lacking: ReturnType<typeof unsupplied>;
  /** What to buy for the rest; absent where nothing is asked for. */
  readonly outcome: Outcome<Purchase> | undefined;
}

/** What a zone's rates come to in the farm's own products. */
export const zonePurchase = (farm: Pick<Farm, "products" | "units" | "currency" | "withheld">, zone: ZoneAdvice): ZonePurchase => {
  const fertilizers = [...farm.products.values()].flatMap((p) => p.fertilizer ?? []);
  const rates = needsOf(zone);
  const all = rates.filter((n) => n.rate.value > 0);
  const starter = zone.crop?.starter && starterAdvice(zone.crop.starter, all, zone.sample.packs, zone.sample.facts, farm.units);
  if (leavesOutProducts(farm))
    return { starter, lacking: [], outcome: all.length === 0 ? undefined : noAnswer("what to buy is left out for this reader") };
  const needs = (starter?.left ?? all).filter((n) => convert(n.rate.value, n.rate.unit, "lb/ac") > 0.05);
  const lacking = unsupplied(needs, fertilizers);
  const asked = needs.filter((n) => !lacking.some((l) => l.nutrient === n.nutrient));
  const needless = rates.flatMap((n): Need[] =>
    needs.some((m) => m.nutrient === n.nutrient) ? [] : [{ ...n, rate: { ...n.rate, value: 0 } }],
  );
  return { starter, lacking, outcome: asked.length === 0 ? undefined : leastCostProducts([...asked, ...needless], fertilizers, farm) };
};
