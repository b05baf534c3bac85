import type { Outcome } from "../../interpretation/outcome.ts";
import { weakestEvidence } from "../../interpretation/outcome.ts";
import type { Purchase, Supply } from "../../interpretation/products.ts";
import { analysisLabel } from "../../interpretation/products.ts";
import type { StarterAdvice } from "../../interpretation/starter.ts";
import { plain } from "../../interpretation/show.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import { supplied } from "../../interpretation/vocabulary.ts";
import type { Farm } from "../../records/model.ts";
import type { DosedRate } from "./doses.ts";
import { dosedRates } from "./doses.ts";
import type { ZoneAdvice } from "./sample.ts";
import { liquidRate, liquidVolume } from "./liquid.ts";
import { evidenceMark, stepRows } from "../steps.ts";
import { fineRate, isNothing, mass, money, moneyPerArea, nutrientRate } from "../units.ts";
import { list } from "../words.ts";
import { zonePurchase } from "./zonePurchase.ts";
import type { AdviceRow } from "./adviceRow.ts";

/** What a zone takes of one product in all. */
export interface Bought {
  readonly name: string;
  readonly pounds: number;
  readonly cost: number | undefined;
}

export interface ZoneProducts {
  readonly rows: readonly AdviceRow[];
  /** Empty where the zone has no area. */
  readonly bought: readonly Bought[];
  readonly outcomes: readonly Outcome<unknown>[];
}

const emptyRow = {
  product: true,
  value: "",
  unit: "",
  detail: "",
  none: undefined,
  missing: [],
  guideline: undefined,
  evidence: undefined,
  steps: [],
};

/** "supplies 107 lb/ac of K₂O and 43 of P₂O₅", and what comes along over what was asked. */
const supplyWords = (supplies: readonly Supply[], farm: Farm): string => {
  const amount = (pounds: number): string => nutrientRate({ value: pounds, unit: "lb/ac" }, farm.units).value;
  const unit = unitChoices[farm.units].rate;
  const given = supplies
    .filter((s) => (s.asked > 0 ? s.given > 0 : !isNothing(amount(s.given))))
    .map(
      (s, i) =>
        `${fineRate({ value: s.given, unit: "lb/ac" }, farm.units).value}${i === 0 ? ` ${unit}` : ""} of ${supplied[s.nutrient].symbol}`,
    );
  const over = supplies
    .filter((s) => s.asked > 0 && !isNothing(amount(s.given - s.asked)) && s.given > s.asked)
    .map((s) => `${amount(s.given - s.asked)} ${unit} of ${supplied[s.nutrient].symbol} more than asked`);
  const unasked = supplies.filter((s) => s.asked === 0 && !isNothing(amount(s.given)));
  const needless = unasked
    .filter((s) => s.needless)
    .map((s) => `${amount(s.given)} ${unit} of ${supplied[s.nutrient].symbol} more than is called for`);
  const along = unasked.filter((s) => !s.needless).map((s) => `${supplied[s.nutrient].symbol} not asked for here`);
  return [`supplies ${list(given)}`, ...over, ...needless, ...along].join(", ");
};

/** What to buy for a zone and how much of it to spread: one row for the purchase, and one for every nutrient the farm lists nothing for. */
export const zoneProducts = (farm: Farm, zone: ZoneAdvice): ZoneProducts => {
  const { starter: planned, lacking, outcome } = zonePurchase(farm, zone);
  const acres = zone.zone.squareMeters === undefined ? undefined : convert(zone.zone.squareMeters, "sq m", "acre");
  const rows: AdviceRow[] = [];
  if (zone.crop?.starter && planned) rows.push(starterRow(farm, zone, zone.crop.starter, planned));
  for (const each of lacking)
    rows.push({
      ...emptyRow,
      id: `${zone.zone.id}-product-${each.nutrient.toLowerCase()}`,
      zone: zone.zone,
      subject: "Fertilizer",
      none: `No product for ${supplied[each.nutrient].label}, because ${each.because}.`,
      missing: [`a product in farm.yaml that supplies ${supplied[each.nutrient].label}`],
    });
  if (!outcome) return { rows, bought: [], outcomes: [] };
  const base = { ...emptyRow, id: `${zone.zone.id}-product`, zone: zone.zone, subject: "Fertilizer" };
  if (outcome.kind === "noAnswer") {
    rows.push({ ...base, none: `No product, because ${outcome.because}.`, missing: outcome.missing });
    return { rows, bought: [], outcomes: [outcome] };
  }
  rows.push({
    ...base,
    ...purchaseRow(farm, outcome.value, acres, dosedRates(zone)),
    evidence: evidenceMark(weakestEvidence(outcome.steps)),
    steps: stepRows(outcome.steps, farm.references),
  });
  return { rows, bought: acres === undefined ? [] : boughtFor(acres, outcome.value), outcomes: [outcome] };
};

const boughtFor = (acres: number, { products }: Purchase): Bought[] =>
  products.map(({ fertilizer, rate, costPerAcre }) => ({
    name: fertilizer.name,
    pounds: rate.value * acres,
    cost: costPerAcre === undefined ? undefined : costPerAcre * acres,
  }));

const inBrackets = (text: string | undefined): string => (text === undefined ? "" : ` (${text})`);

/** "178 lb/ac of muriate of potash, 0-0-60, with 93 lb/ac of triple superphosphate; supplies 107 lb/ac of K₂O and 43 of P₂O₅; $68 an acre". */
const purchaseRow = (
  farm: Farm,
  { products, supplies, costPerAcre, least }: Purchase,
  acres: number | undefined,
  dosed: readonly DosedRate[],
): Pick<AdviceRow, "value" | "unit" | "detail"> => {
  const [first, ...others] = products.map(({ fertilizer, rate }) => ({
    name: `${fertilizer.name}${inBrackets(liquidRate(fertilizer, rate.value, farm.units))}`,
    ...fineRate(rate, farm.units),
  }));
  const inAll =
    acres === undefined
      ? []
      : products.map(
          ({ fertilizer, rate }) =>
            `${mass(rate.value * acres, farm.units)}${inBrackets(liquidVolume(fertilizer, rate.value * acres, farm.units))}`,
        );
  const costInAll = costPerAcre === undefined || acres === undefined ? "" : `, ${money(costPerAcre * acres, farm.currency)}`;
  const words = [
    `of ${first!.name}${others.length > 0 ? `, with ${list(others.map((o) => `${o.value} ${o.unit} of ${o.name}`))}` : ""}`,
    supplyWords(supplies, farm),
    dosed.some((d) => supplies.some((s) => s.nutrient === d.nutrient && s.given > 0)) ? "spread in the doses above" : "",
    costPerAcre === undefined ? "" : moneyPerArea(costPerAcre, farm),
    inAll.length === 0 ? "" : `${list(inAll)} in all${costInAll}`,
    least === "weight" ? "the least weight, not the least cost, for want of prices" : "",
  ];
  return { value: first!.value, unit: first!.unit, detail: words.filter(Boolean).join("; ") };
};

const starterRow = (
  farm: Farm,
  zone: ZoneAdvice,
  starter: NonNullable<NonNullable<ZoneAdvice["crop"]>["starter"]>,
  { supplies, seed, steps }: StarterAdvice,
): AdviceRow => {
  const amount = fineRate(starter.rate, farm.units);
  const { rate: unit } = unitChoices[farm.units];
  const salt = (poundsPerAcre: number): string => `${plain(convert(poundsPerAcre, "lb/ac", unit), 1)} ${unit}`;
  const warning = (): string => {
    if (seed === undefined) return "";
    if (seed.kind === "noAnswer") return `whether the seed can bear it is not known, because ${seed.because}`;
    if (seed.value.safe) return `within the ${salt(seed.value.limit)} of N and K₂O that may touch the seed`;
    if (starter.fertilizer.holdsUrea) return "it holds urea: do not put it with the seed";
    return `too salty to touch the seed: ${salt(seed.value.salt)} of N and K₂O, where ${salt(seed.value.limit)} is the most`;
  };
  const volume = liquidRate(starter.fertilizer, convert(starter.rate.value, starter.rate.unit, "lb/ac"), farm.units);
  const placed = [volume, starter.placement === "band" ? "in a band" : "with the seed"].filter(Boolean).join(", ");
  return {
    ...emptyRow,
    id: `${zone.zone.id}-starter`,
    zone: zone.zone,
    subject: "Starter",
    value: amount.value,
    unit: amount.unit,
    detail: [
      `of ${starter.fertilizer.name} (${analysisLabel(starter.fertilizer.analysis)}), ${placed}, as planned`,
      supplyWords(
        supplies.map((s) => ({ ...s, asked: s.given })),
        farm,
      ),
      warning(),
    ]
      .filter(Boolean)
      .join("; "),
    evidence: evidenceMark(weakestEvidence(steps)),
    steps: stepRows(steps, farm.references),
  };
};
