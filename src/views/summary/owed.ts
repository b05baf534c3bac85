import { buildUpFor } from "../../interpretation/balance/buildUp.ts";
import type { Guideline } from "../../interpretation/guideline.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import { noAnswer } from "../../interpretation/outcome.ts";
import type { Purchase } from "../../interpretation/products.ts";
import { leastCostProducts, unsupplied } from "../../interpretation/products.ts";
import { limeName } from "../../interpretation/rules/limeBasis.ts";
import type { BuildUp } from "../../interpretation/rules/nutrientRate.ts";
import { convert } from "../../interpretation/units.ts";
import type { NutrientId } from "../../interpretation/vocabulary.ts";
import { supplied } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { alreadySpread } from "../season/seasonSpread.ts";
import type { SeasonZone } from "../season/seasonZones.ts";
import { seasonZones } from "../season/seasonZones.ts";

/** Lime that the newest sampling calls for, as the season has it: of the farm's own material, or of the guideline's where it lists none. */
export interface LimeOwed {
  readonly perAcre: number;
  readonly tons: number | undefined;
  readonly material: string;
  readonly target: number | undefined;
  readonly priced: boolean;
  /** In the farm's currency; absent without an area, a material or a price. */
  readonly cost: number | undefined;
}

/** What it takes to bring phosphorus or potassium up into its range. */
export interface NutrientOwed {
  readonly nutrient: NutrientId;
  readonly outcome: Outcome<BuildUp>;
  readonly pack: Guideline | undefined;
}

/** Build-up of a zone turned into products: what is owed in all, and what is owed each year. */
export interface OwedPurchase {
  readonly over: BuildUp["over"];
  readonly outcome: Outcome<Purchase>;
  /** Of the products that have a price, in the farm's currency; absent without an area. */
  readonly cost: number | undefined;
  /** What the farm's list has nothing for. */
  readonly lacking: readonly NutrientId[];
}

/** What a zone's soil is owed: lime up to its target, phosphorus and potassium up into their ranges. What crops remove is not in it. */
export interface ZoneOwed {
  readonly season: SeasonZone;
  readonly advice: ZoneAdvice;
  readonly acres: number | undefined;
  readonly lime: Outcome<LimeOwed | "none">;
  readonly phosphorus: readonly NutrientOwed[];
  readonly potassium: readonly NutrientOwed[];
  readonly purchases: readonly OwedPurchase[];
  /** What was spread since the sampling, and is not taken off. */
  readonly already: readonly string[];
}

const known = new WeakMap<Farm, Map<Zone, ZoneOwed | undefined>>();

/** What a zone is owed by its newest routine sampling, worked out once; `undefined` without one. */
export const zoneOwed = (site: Farm, field: Field, zone: Zone): ZoneOwed | undefined => {
  let found = known.get(site);
  if (!found) known.set(site, (found = new Map<Zone, ZoneOwed | undefined>()));
  if (!found.has(zone)) found.set(zone, workOut(site, field, zone));
  return found.get(zone);
};

const workOut = (site: Farm, field: Field, zone: Zone): ZoneOwed | undefined => {
  const season = seasonZones(site).find((z) => z.field === field && z.zone === zone);
  const advice = season?.advised?.advice;
  if (!season || !advice || advice.nitrogenAlone) return undefined;
  const acres = zone.squareMeters === undefined ? undefined : convert(zone.squareMeters, "sq m", "acre");
  const nutrients = advice.advice.rates.map((rate): NutrientOwed => ({ nutrient: rate.nutrient, ...buildUpFor(advice.sample, rate) }));
  const phosphorus = nutrients.filter((n) => n.nutrient === "P2O5" || n.nutrient === "P");
  const potassium = nutrients.filter((n) => n.nutrient === "K2O" || n.nutrient === "K");
  return {
    season,
    advice,
    acres,
    lime: limeOwed(season, advice, acres),
    phosphorus,
    potassium,
    purchases: purchasesOf(season.farm, [...phosphorus, ...potassium], acres),
    already: [...alreadySpread(field, advice, "lime"), ...alreadySpread(field, advice, ["P2O5", "K2O"])],
  };
};

const limeOwed = ({ lines }: SeasonZone, { advice: { lime } }: ZoneAdvice, acres: number | undefined): Outcome<LimeOwed | "none"> => {
  const { needed } = lime;
  if (needed.kind === "noAnswer" || needed.value === "none") return needed as Outcome<"none">;
  const { requirement, basis, target } = needed.value;
  const line = lines.find((each) => each.kind === "lime");
  const perAcre = line ? convert(line.rate, "lb/ac", "ton/ac") : convert(requirement.value, requirement.unit, "ton/ac");
  const value = {
    perAcre,
    tons: acres === undefined ? undefined : perAcre * acres,
    material: line?.product.name ?? limeName(basis),
    target,
    priced: line?.product.pricePerTon !== undefined,
    cost: line?.cost,
  };
  return { ...needed, value };
};

/** The least cost in the farm's products of what is owed in all, and of what is owed each year; one entry of each that there is. */
const purchasesOf = (farm: Farm, owed: readonly NutrientOwed[], acres: number | undefined): OwedPurchase[] => {
  const fertilizers = [...farm.products.values()].flatMap((p) => p.fertilizer ?? []);
  return (["all years", "each year"] as const).flatMap((over): OwedPurchase[] => {
    const needs = owed.flatMap(({ nutrient, outcome }) =>
      outcome.kind === "answer" && outcome.value.over === over && outcome.value.amount.value > 0 && nutrient in supplied
        ? [{ nutrient, rate: outcome.value.amount, steps: outcome.steps }]
        : [],
    );
    if (needs.length === 0) return [];
    const lacking = unsupplied(needs, fertilizers).map((l) => l.nutrient as NutrientId);
    const wanted = needs.filter((n) => !lacking.includes(n.nutrient));
    const outcome = wanted.length === 0 ? noAnswer("nothing on the farm's list supplies it") : leastCostProducts(wanted, fertilizers, farm);
    const perAcre = outcome.kind === "answer" ? outcome.value.products.reduce((sum, p) => sum + (p.costPerAcre ?? 0), 0) : 0;
    return [{ over, outcome, cost: acres === undefined ? undefined : perAcre * acres, lacking }];
  });
};
