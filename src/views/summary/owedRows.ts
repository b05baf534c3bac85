import { money as moneyOf } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import { nutrients, supplied } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { leavesOut, leavesOutProducts, leftOutForReader } from "../leftOut.ts";
import type { NutrientOwed, ZoneOwed } from "./owed.ts";
import { zoneOwed } from "./owed.ts";
import { inUnitsOf, limeMass, limeRate, limeWords, mass, money, nutrientRate, nutrientWords } from "../units.ts";
import { count, list } from "../words.ts";

/** "8.4 tons", and beside it "1.4 ton/ac"; `low` where something is owed. */
export interface OwedCell {
  readonly text: string;
  readonly small: string;
  readonly owes: boolean;
}

/** One zone's line, or the sum of a field. */
export interface OwedRow {
  readonly zone: Zone;
  readonly lime: OwedCell;
  readonly phosphorus: OwedCell;
  readonly potassium: OwedCell;
  readonly money: string;
}

/** Money owed once and money owed each year, and what has no price; in the farm's currency. */
export interface OwedMoney {
  readonly once: number;
  readonly yearly: number;
  /** "lime on Outwash": what is owed and cannot be told in money. */
  readonly unpriced: readonly string[];
  /** Something has a price, and the area it is owed on is not known. */
  readonly unmeasured: boolean;
  /** How much is owed of something has no answer. */
  readonly open: boolean;
}

const nothing: OwedCell = { text: "none", small: "", owes: false };
const notKnown: OwedCell = { text: "not known", small: "", owes: false };
const notSampled: OwedCell = { text: "not sampled", small: "", owes: false };

const limeCell = ({ lime, season }: ZoneOwed): OwedCell => {
  if (lime.kind === "noAnswer") return notKnown;
  if (lime.value === "none") return nothing;
  const { perAcre, tons } = lime.value;
  const rate = { value: perAcre, unit: "ton/ac" } as const;
  if (tons === undefined) return { text: limeWords(rate, season.units), small: "area not known", owes: true };
  const { value, unit } = limeRate(rate, season.units);
  return { text: limeMass(tons, season.units), small: `${value} ${unit}`, owes: true };
};

/** The question that was answered, else the first that was asked. */
export const answered = (owed: readonly NutrientOwed[]): NutrientOwed | undefined =>
  owed.find((n) => n.outcome.kind === "answer") ?? owed[0];

const nutrientCell = (owed: readonly NutrientOwed[], { acres, season }: ZoneOwed): OwedCell => {
  const one = answered(owed);
  if (one?.outcome.kind !== "answer") return notKnown;
  const { amount, over, years } = one.outcome.value;
  const pounds = convert(amount.value, amount.unit, "lb/ac");
  if (pounds < 0.05) return nothing;
  const each = over === "each year" ? " a year" : "";
  const { symbol } = nutrients[one.nutrient];
  const { value, unit } = nutrientRate(amount, season.units);
  const small = `${value} ${unit}${each}${years === undefined ? "" : `, over ${count(years, "year")}`}`;
  return acres === undefined
    ? { text: `${nutrientWords(amount, season.units)}${each} of ${symbol}`, small: "area not known", owes: true }
    : { text: `${mass(pounds * acres, season.units)} ${symbol}${each}`, small, owes: true };
};

/** Has any of what a zone may be owed no answer? A zone that was not sampled has none. */
const isOpen = (owed: ZoneOwed | undefined): boolean =>
  !owed || owed.lime.kind === "noAnswer" || [owed.phosphorus, owed.potassium].some((n) => answered(n)?.outcome.kind !== "answer");

/** What stands in place of a sum that is owed on land whose area is not known. */
export const noArea = "area not known";

/** What stands in place of an amount. */
export const nothingTold: readonly string[] = ["none", "not known", "not fully known", noArea];

/** Nothing of a sum is nothing only where every part of it is known, and none is owed on land without an area. */
const noneOf = (parts: readonly boolean[], owes = false): string =>
  owes ? noArea : parts.every((known) => known) ? "none" : parts.some((known) => known) ? "not fully known" : "not known";

/** What a zone's lime and nutrients cost. */
const owedMoney = (owed: ZoneOwed | undefined, places = ""): OwedMoney => {
  if (!owed) return { once: 0, yearly: 0, unpriced: [], unmeasured: false, open: true };
  const { lime, purchases, acres } = owed;
  const limed = lime.kind === "answer" && lime.value !== "none" ? lime.value : undefined;
  const cost = (over: string): number => purchases.reduce((sum, p) => sum + (p.over === over ? (p.cost ?? 0) : 0), 0);
  const products = purchases.flatMap(({ outcome }) => (outcome.kind === "answer" ? outcome.value.products : []));
  const lacking = purchases.flatMap((p) => p.lacking.map((id) => supplied[id as keyof typeof supplied].label.toLowerCase()));
  const unpriced = [
    ...(limed && !limed.priced ? [limed.material] : []),
    ...lacking,
    ...products.flatMap((p) => (p.costPerAcre === undefined ? [p.fertilizer.name] : [])),
  ];
  const unmeasured = acres === undefined && (limed?.priced === true || products.some((p) => p.costPerAcre !== undefined));
  return {
    once: (limed?.cost ?? 0) + cost("all years"),
    yearly: cost("each year"),
    unpriced: [...new Set(unpriced)].map((what) => `${what}${places}`),
    unmeasured,
    open: isOpen(owed),
  };
};

export const sumOfMoney = (all: readonly OwedMoney[]): OwedMoney => ({
  once: all.reduce((sum, m) => sum + m.once, 0),
  yearly: all.reduce((sum, m) => sum + m.yearly, 0),
  unpriced: [...new Set(all.flatMap((m) => m.unpriced))],
  unmeasured: all.some((m) => m.unmeasured),
  open: all.some((m) => m.open),
});

/** "$718", "£115 and £44 a year", "no price"; "none" only where it is known that nothing is owed. */
export const moneyWords = (farm: Farm, { once, yearly, unpriced, unmeasured, open }: OwedMoney): string => {
  const none = noneOf([true, !open], unmeasured);
  if (leavesOut(farm, "costs")) return once + yearly > 0 || unpriced.length > 0 || unmeasured ? leftOutForReader : none;
  const parts = [once > 0 && money(once, farm.currency), yearly > 0 && `${money(yearly, farm.currency)} a year`].filter(
    (part): part is string => part !== false,
  );
  if (parts.length === 0 && unpriced.length > 0 && leavesOutProducts(farm)) return leftOutForReader;
  if (parts.length === 0) return unpriced.length > 0 && !unmeasured ? "no price" : none;
  return `${list(parts)}${unpriced.length > 0 || unmeasured ? ", in part" : ""}`;
};

/** What each zone of a field is owed, in the field's own units. */
export const owedRows = (farm: Farm, field: Field): OwedRow[] =>
  field.zones.map((zone): OwedRow => {
    const owed = zoneOwed(farm, field, zone);
    if (!owed) return { zone, lime: notSampled, phosphorus: notSampled, potassium: notSampled, money: "not known" };
    const unknown = owed.lime.kind === "noAnswer" && [owed.phosphorus, owed.potassium].every((n) => answered(n)?.outcome.kind !== "answer");
    return {
      zone,
      lime: limeCell(owed),
      phosphorus: nutrientCell(owed.phosphorus, owed),
      potassium: nutrientCell(owed.potassium, owed),
      money: unknown ? "not known" : moneyWords(farm, owedMoney(owed)),
    };
  });

/** Amounts of several zones that are told in the same units. Zones without an area cannot be summed, and are counted. */
export interface OwedSum {
  /** "3,100 lb K₂O", a text for each form and way of counting. */
  readonly phosphorus: string;
  readonly potassium: string;
  /** "3,100 lb of potash (K₂O)", one for each form */
  readonly phosphorusWords: readonly string[];
  readonly potassiumWords: readonly string[];
  readonly lime: string;
  readonly money: OwedMoney;
  readonly unmeasured: number;
  readonly unknown: number;
}

/** The amounts of a nutrient, one for each form and way of counting. */
const nutrientSums = (
  zones: readonly (ZoneOwed | undefined)[],
  of: "phosphorus" | "potassium",
  units: Farm["units"],
  words = false,
): string[] => {
  const sums = new Map<string, number>();
  for (const zone of zones) {
    const one = answered(zone?.[of] ?? []);
    if (one?.outcome.kind !== "answer") continue;
    const { amount, over } = one.outcome.value;
    const pounds = convert(amount.value, amount.unit, "lb/ac") * (zone?.acres ?? 0);
    const { label, symbol } = nutrients[one.nutrient];
    const key = ` ${words ? `of ${label.toLowerCase()} (${symbol})` : symbol}${over === "each year" ? " a year" : ""}`;
    if (pounds > 0) sums.set(key, (sums.get(key) ?? 0) + pounds);
  }
  return [...sums].map(([key, pounds]) => `${mass(pounds, units)}${key}`);
};

const nutrientSum = (zones: readonly (ZoneOwed | undefined)[], of: "phosphorus" | "potassium", units: Farm["units"]): string => {
  const sums = nutrientSums(zones, of, units);
  return sums.length > 0
    ? sums.join(", ")
    : noneOf(
        zones.map((zone) => answered(zone?.[of] ?? [])?.outcome.kind === "answer"),
        zones.some((zone) => zone && nutrientCell(zone[of], zone).owes),
      );
};

export const sumOwed = (farm: Farm, fields: readonly Field[]): OwedSum => {
  const zones = fields.flatMap((field) => field.zones.map((zone) => zoneOwed(farm, field, zone)));
  const known = zones.filter((z): z is ZoneOwed => z !== undefined);
  const units = inUnitsOf(farm, fields[0]!).units;
  const tons = known.reduce((sum, { lime }) => sum + (lime.kind === "answer" && lime.value !== "none" ? (lime.value.tons ?? 0) : 0), 0);
  return {
    lime:
      tons > 0
        ? limeMass(tons, units)
        : noneOf(
            zones.map((z) => z?.lime.kind === "answer"),
            known.some((z) => limeCell(z).owes),
          ),
    phosphorus: nutrientSum(zones, "phosphorus", units),
    potassium: nutrientSum(zones, "potassium", units),
    phosphorusWords: nutrientSums(zones, "phosphorus", units, true),
    potassiumWords: nutrientSums(zones, "potassium", units, true),
    money: sumOfMoney(zones.map((z) => owedMoney(z))),
    unmeasured: known.filter(
      (z) => z.acres === undefined && (limeCell(z).owes || nutrientCell(z.phosphorus, z).owes || nutrientCell(z.potassium, z).owes),
    ).length,
    unknown: zones.filter(isOpen).length,
  };
};

/** "ground limestone at $46 a ton": the prices that the money is worked out with. */
export const pricesUsed = (farm: Farm, fields: readonly Field[]): string[] => {
  const used = new Set<string>();
  for (const field of fields)
    for (const zone of field.zones) {
      const owed = zoneOwed(farm, field, zone);
      for (const line of owed?.season.lines ?? []) if (line.kind === "lime") used.add(line.product.id);
      for (const { outcome } of owed?.purchases ?? [])
        if (outcome.kind === "answer") for (const p of outcome.value.products) used.add(p.fertilizer.id);
    }
  return [...farm.products.values()].flatMap(({ id, product }) =>
    used.has(id) && product.price
      ? [
          `${product.name} at ${moneyOf(product.price.value, farm.currency, Number.isInteger(product.price.value) ? 0 : 2)} a ${product.price.per}`,
        ]
      : [],
  );
};
