import type { BalancedId, SeasonBalance } from "../interpretation/balance.ts";
import { balanceBySeason, balancedIds } from "../interpretation/balance.ts";
import type { CoefficientSet } from "../interpretation/harvestRemoval.ts";
import { coefficientFor } from "../interpretation/harvestRemoval.ts";
import type { NoAnswer, Outcome } from "../interpretation/outcome.ts";
import { notYetChecked } from "../interpretation/outcome.ts";
import { plain } from "../interpretation/show.ts";
import { convert } from "../interpretation/units.ts";
import type { CropId } from "../interpretation/vocabulary.ts";
import { cropIds, crops, nutrients } from "../interpretation/vocabulary.ts";
import type { Farm, Field, Reference, Zone } from "../records/model.ts";
import type { BalanceDrawing } from "./balanceDrawing.ts";
import { balanceAxis, drawBalance, signed } from "./balanceDrawing.ts";
import type { LeastChange } from "./balanceSentence.ts";
import { balanceSentence } from "./balanceSentence.ts";
import { coefficientSets, hasBalance, placeRecords } from "./placeRecords.ts";
import type { EvidenceMark, Link } from "./steps.ts";
import { evidenceMark, sourceLink } from "./steps.ts";
import { inUnitsOf, nutrientRate } from "./units.ts";
import { list } from "./words.ts";

/** One season of one zone: the row behind two bars and a dot, a line of the table and a line of the CSV. */
export interface BalanceRow {
  readonly zone: Zone;
  readonly season: number;
  readonly crops: string;
  readonly applied: string;
  readonly removed: string;
  readonly net: string;
  readonly sum: string;
  /** The sums with their numbers in them, or why there is none. */
  readonly how: string;
}

export interface BalancePanel {
  readonly zone: Zone;
  readonly verdict: string;
  /** Beside the direction of the soil test; absent for nitrogen. */
  readonly beside: string | undefined;
  readonly drawing: BalanceDrawing;
}

export interface NutrientBalance {
  readonly nutrient: BalancedId;
  readonly title: string;
  readonly subtitle: string;
  readonly unit: string;
  readonly since: number;
  readonly panels: readonly BalancePanel[];
  readonly rows: readonly BalanceRow[];
  readonly notes: readonly string[];
}

export interface CoefficientRow {
  readonly crop: string;
  readonly nutrient: string;
  readonly value: string;
  readonly moisture: string;
  readonly source: Link | undefined;
  readonly evidence: EvidenceMark | undefined;
}

export interface BalanceView {
  readonly balances: readonly NutrientBalance[];
  /** "No nitrogen balance, because ...", one a nutrient that has none. */
  readonly none: readonly string[];
  readonly coefficients: readonly CoefficientRow[];
  readonly notes: readonly string[];
  readonly cited: readonly Reference[];
}

/** One zone's seasons for one nutrient. */
export interface ZoneBalance {
  readonly zone: Zone;
  readonly nutrient: BalancedId;
  readonly seasons: readonly SeasonBalance[];
}

const worked = new WeakMap<Field, ZoneBalance[]>();

/** Every zone's balance of every nutrient; worked out once, for the page and the download. */
export const zoneBalances = (field: Field): ZoneBalance[] => {
  let found = worked.get(field);
  if (!found) {
    const sets = coefficientSets(field);
    found = balancedIds.flatMap((nutrient) => field.zones.map((zone) => ({ zone, nutrient, seasons: balanceBySeason(placeRecords(field, zone), nutrient, sets) })));
    worked.set(field, found);
  }
  return found;
};

/** The nutrients that have a balance to show: those that came or went in some season. */
export const balancesShown = (field: Field): ZoneBalance[][] =>
  balancedIds.map((nutrient) => zoneBalances(field).filter((b) => b.nutrient === nutrient)).filter((zones) => zones.some((z) => z.seasons.some((s) => s.net.kind === "answer" && s.net.value !== 0)));

/** All that a field's pages show of nutrients applied and removed. `undefined` where no season is recorded. */
export const balanceView = (site: Farm, field: Field, leastChange: LeastChange = () => undefined): BalanceView | undefined => {
  const farm = inUnitsOf(site, field);
  if (!hasBalance(field)) return undefined;
  const sets = coefficientSets(field);
  const shown = balancesShown(field);
  const refused = balancedIds.filter((nutrient) => !shown.some(([zone]) => zone!.nutrient === nutrient));
  const coefficients = usedCoefficients(farm, field, sets, shown.map((zones) => zones[0]!.nutrient));
  return {
    balances: shown.map((zones) => nutrientBalance(farm, field, zones, sets, leastChange)),
    none: refused.map((nutrient) => refusal(zoneBalances(field).filter((b) => b.nutrient === nutrient))),
    coefficients,
    notes: [...notes(field, shown.length > 0), ...(coefficients.some((c) => notYetChecked(c.evidence?.grade)) ? ["Some coefficients are not yet checked against the publication; their table says which."] : [])],
    cited: [...new Set(coefficients.flatMap((c) => c.source?.anchor ?? []))].flatMap((id) => farm.references.get(id) ?? []),
  };
};

const name = (nutrient: BalancedId): string => nutrients[nutrient].label.toLowerCase();

const refusal = (zones: readonly ZoneBalance[]): string => {
  const first = zones.flatMap((z) => z.seasons).find((s) => s.net.kind === "noAnswer")?.net as NoAnswer | undefined;
  return `No ${name(zones[0]!.nutrient)} balance, because ${first?.because ?? "nothing was applied and nothing harvested"}.`;
};

const notes = (field: Field, any: boolean): string[] => {
  const manured = field.seasons.some((s) => s.applications.some((a) => a.product.product.kind === "manure"));
  return [
    ...(any ? ["A balance says which way the soil is driven. It is no forecast of a soil test in ppm."] : []),
    ...(manured ? ["Manure counts with all the nitrogen, phosphate and potash its analysis states, in the season it was spread for, and not only with what crops can use at once."] : []),
  ];
};

const nutrientBalance = (farm: Farm, field: Field, zones: readonly ZoneBalance[], sets: readonly CoefficientSet[], leastChange: LeastChange): NutrientBalance => {
  const { nutrient } = zones[0]!;
  const unit = nutrientRate({ value: 0, unit: "lb/ac" }, farm.units).unit;
  const scale = convert(1, "lb/ac", unit as "lb/ac" | "kg/ha");
  const axis = balanceAxis(zones.map((z) => z.seasons), scale);
  const [since, until] = [zones[0]!.seasons[0]!.season, zones[0]!.seasons.at(-1)!.season];
  const cautions = [...new Set(zones.flatMap((z) => z.seasons.flatMap((s) => (s.removed.kind === "answer" ? s.removed.cautions : []))))];
  return {
    nutrient,
    title: finding(zones),
    subtitle: `${nutrients[nutrient].symbol}, ${unit}, ${since} to ${until}: applied upward, removed downward, the line is the running sum. Axis from ${plain(axis.from)} to ${plain(axis.to)}.`,
    unit,
    since,
    panels: zones.map(({ zone, seasons }) => ({
      zone,
      verdict: verdict(seasons, farm),
      beside: nutrient === "N" ? undefined : balanceSentence(farm, field, zone, nutrient, placeRecords(field, zone), sets, leastChange),
      drawing: drawBalance(seasons, axis, scale),
    })),
    rows: zones.flatMap(({ zone, seasons }) => seasons.map((s) => row(zone, s, farm))),
    notes: [...cautions, ...(nutrient === "N" ? ["Nitrogen that legumes take from the air is not counted as applied, so a season of beans or hay looks emptier than it was."] : [])],
  };
};

const rate = (outcome: Outcome<number>, farm: Farm, sign = false): string => {
  if (outcome.kind === "noAnswer") return "not known";
  const { unit } = nutrientRate({ value: 0, unit: "lb/ac" }, farm.units);
  const value = convert(outcome.value, "lb/ac", unit as "lb/ac" | "kg/ha");
  return sign ? signed(value) : nutrientRate({ value: outcome.value, unit: "lb/ac" }, farm.units).value;
};

const row = (zone: Zone, s: SeasonBalance, farm: Farm): BalanceRow => ({
  zone,
  season: s.season,
  crops: s.crops.length > 0 ? list(s.crops.map((c) => crops[c].label)) : "not recorded",
  applied: rate(s.applied, farm),
  removed: rate(s.removed, farm),
  net: rate(s.net, farm, true),
  sum: rate(s.sum, farm, true),
  how: [s.applied, s.removed]
    .flatMap((o) => (o.kind === "noAnswer" ? [`not known, because ${o.because}`] : o.steps.flatMap((step) => (step.expression === undefined ? [] : [`${step.what.replace("Taken away by the harvest of ", "")}: ${step.expression}`]))))
    .filter((text, i, texts) => texts.indexOf(text) === i)
    .join("; "),
});

/** The seasons up to the last that can be summed. */
const summed = (seasons: readonly SeasonBalance[]): readonly SeasonBalance[] => seasons.filter((s) => s.sum.kind === "answer");
const total = (seasons: readonly SeasonBalance[]): number | undefined => {
  const last = summed(seasons).at(-1)?.sum;
  return last?.kind === "answer" ? last.value : undefined;
};

const verdict = (seasons: readonly SeasonBalance[], farm: Farm): string => {
  const known = summed(seasons);
  const gap = seasons.find((s) => s.sum.kind === "noAnswer")?.sum as NoAnswer | undefined;
  const because = gap && `${gap.because.replace("it is incomplete", "The sum is incomplete")}.`;
  if (known.length === 0) return because ?? "No season is recorded.";
  const add = (of: (s: SeasonBalance) => Outcome<number>): string => {
    const value = known.map(of).reduce((sum, o) => sum + (o.kind === "answer" ? o.value : 0), 0);
    return nutrientRate({ value, unit: "lb/ac" }, farm.units).value;
  };
  const { unit } = nutrientRate({ value: 0, unit: "lb/ac" }, farm.units);
  const span = known.length === 1 ? `in ${known[0]!.season}` : `from ${known[0]!.season} to ${known.at(-1)!.season}`;
  return [`${add((s) => s.applied)} applied, ${add((s) => s.removed)} removed ${span}: ${rate(known.at(-1)!.sum, farm, true)} ${unit}.`, because].filter(Boolean).join(" ");
};

/** "More potash left than was put back on Knoll and Outwash." */
const finding = (zones: readonly ZoneBalance[]): string => {
  const label = name(zones[0]!.nutrient);
  const sums = zones.map((z) => ({ zone: z.zone.name, value: total(z.seasons) }));
  const part = (some: typeof sums): string => (some.length === sums.length ? "" : ` on ${list(some.map((s) => s.zone))}`);
  const out = sums.filter((s) => s.value !== undefined && s.value < 0);
  const back = sums.filter((s) => s.value !== undefined && s.value >= 0);
  const says = [
    out.length > 0 && `more ${label} left than was put back${part(out)}`,
    back.length > 0 && `${out.length > 0 ? "more was put on than left" : `more ${label} was put on than left`}${part(back)}`,
  ].filter((each): each is string => each !== false);
  if (says.length === 0) return `The ${label} balance cannot be summed`;
  const partly = zones.some((z) => z.seasons.some((s) => s.sum.kind === "noAnswer")) ? ", as far as it can be summed" : "";
  const text = `${says.join("; ")}${partly}`;
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
};

const usedCoefficients = (farm: Farm, field: Field, sets: readonly CoefficientSet[], nutrientsShown: readonly BalancedId[]): CoefficientRow[] => {
  const grown = new Set<CropId>(field.seasons.flatMap((s) => s.crops.filter((c) => c.yield && c.yield.value > 0).map((c) => c.crop)));
  return cropIds
    .filter((crop) => grown.has(crop))
    .flatMap((crop) =>
      nutrientsShown.flatMap((nutrient): CoefficientRow[] => {
        const found = coefficientFor(sets, crop, nutrient);
        if (!found) return [];
        const { row: each } = found;
        return [
          {
            crop: crops[crop].label,
            nutrient: nutrients[nutrient].symbol,
            value: `${plain(each.value)} lb per ${crops[crop].per}`,
            moisture: each.moisture ?? (each.moisturePercent === undefined ? "not stated" : `${plain(each.moisturePercent)}% of water`),
            source: sourceLink(each.source, farm.references),
            evidence: evidenceMark(each.evidence),
          },
        ];
      }),
    );
};
