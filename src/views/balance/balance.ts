import type { BalancedId, SeasonBalance } from "../../interpretation/balance/balance.ts";
import type { CoefficientSet } from "../../interpretation/balance/harvestRemoval.ts";
import type { NoAnswer, Outcome } from "../../interpretation/outcome.ts";
import { notYetChecked } from "../../interpretation/outcome.ts";
import { plain } from "../../interpretation/show.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import { crops, nutrients } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Reference, Zone } from "../../records/model.ts";
import type { CoefficientRow } from "./balanceCoefficients.ts";
import { usedCoefficients } from "./balanceCoefficients.ts";
import { leavesOut, leftOutForReader } from "../leftOut.ts";
import type { BalanceDrawing } from "./balanceDrawing.ts";
import { balanceAxis, drawBalance } from "./balanceDrawing.ts";
import type { LeastChange } from "./balanceSentence.ts";
import { balanceSentence } from "./balanceSentence.ts";
import { balanceAmount, balanceFinding, balanceNotes, balanceUnit, balanceVerdict } from "./balanceWords.ts";
import { coefficientSets, hasBalance, placeRecords } from "./placeRecords.ts";
import { inUnitsOf, roundedApart } from "../units.ts";
import { list } from "../words.ts";
import type { ZoneBalance } from "./zoneBalances.ts";
import { balancesShown, nutrientsShown, zoneBalances } from "./zoneBalances.ts";

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
  /** The first season of every running sum; absent where zones begin in different ones. */
  readonly since: number | undefined;
  readonly panels: readonly BalancePanel[];
  /** Of the table of rows. */
  readonly caption: string;
  readonly rows: readonly BalanceRow[];
  readonly notes: readonly string[];
}

export interface BalanceView {
  readonly balances: readonly NutrientBalance[];
  /** "No nitrogen balance, because ...", one a nutrient that has none. */
  readonly none: readonly string[];
  readonly coefficients: readonly CoefficientRow[];
  readonly notes: readonly string[];
  readonly cited: readonly Reference[];
}

/** All that a field's pages show of nutrients applied and removed. `undefined` where no season is recorded. */
export const balanceView = (site: Farm, field: Field, leastChange: LeastChange = () => undefined): BalanceView | undefined => {
  const farm = inUnitsOf(site, field);
  if (!hasBalance(field)) return undefined;
  const sets = coefficientSets(field);
  const shown = balancesShown(farm, field);
  const refused = nutrientsShown(farm).filter((nutrient) => !shown.some(([zone]) => zone!.nutrient === nutrient));
  const coefficients = usedCoefficients(
    farm,
    field,
    sets,
    shown.map((zones) => zones[0]!.nutrient),
  );
  return {
    balances: shown.map((zones) => nutrientBalance(farm, field, zones, sets, leastChange)),
    none: refused
      .map((nutrient) => refusal(zoneBalances(farm, field).filter((b) => b.nutrient === nutrient)))
      .concat(leavesOut(farm, "nitrogen") ? [`The balance of nitrogen is ${leftOutForReader}.`] : []),
    coefficients,
    notes: [
      ...notes(field, shown.length > 0),
      ...(coefficients.some((c) => notYetChecked(c.evidence?.grade))
        ? ["Some coefficients are not yet checked against the publication; their table says which."]
        : []),
    ],
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
    ...(any ? ["A balance says which way the soil is driven. It is no forecast of a soil test."] : []),
    ...(manured
      ? [
          "Manure counts with all the nitrogen, phosphate and potash its analysis states, in the season it was spread for, and not only with what crops can use at once.",
        ]
      : []),
  ];
};

const nutrientBalance = (
  farm: Farm,
  field: Field,
  zones: readonly ZoneBalance[],
  sets: readonly CoefficientSet[],
  leastChange: LeastChange,
): NutrientBalance => {
  const { nutrient } = zones[0]!;
  const unit = balanceUnit(farm);
  const scale = convert(1, "lb/ac", unit);
  const axis = balanceAxis(
    zones.flatMap((z) => [z.seasons, ...(z.ends ? [z.ends.low, z.ends.high] : [])]),
    scale,
  );
  const seasons = zones.flatMap((z) => z.seasons.map((s) => s.season));
  const [since, until] = [Math.min(...seasons), Math.max(...seasons)];
  return {
    nutrient,
    title: balanceFinding(zones),
    subtitle: `${nutrients[nutrient].symbol}, ${unit}, ${since} to ${until}: applied upward, removed downward, the line is the running sum. Axis from ${plain(axis.from)} to ${plain(axis.to)}.`,
    unit,
    since: zones.every((z) => z.seasons[0]!.season === since) ? since : undefined,
    panels: zones.map((each) => ({
      zone: each.zone,
      verdict: balanceVerdict(each, farm),
      beside:
        nutrient === "N" ? undefined : balanceSentence(farm, field, each.zone, nutrient, placeRecords(field, each.zone), sets, leastChange),
      drawing: drawBalance(each.seasons, axis, scale, unitChoices[farm.units].decimals, each.ends),
    })),
    caption: `${nutrients[nutrient].symbol}, ${unit}, by zone and season${zones.map((each) => roundedRows(each, farm)).find((words) => words !== "") ?? ""}.`,
    rows: zones.flatMap((each) => each.seasons.map((s, i) => row(each, i, s, farm))),
    notes: balanceNotes(nutrient, zones),
  };
};

/** ", each rounded", where in some row the figures as shown do not add up: across it, or down to the next running sum. */
const roundedRows = ({ seasons }: ZoneBalance, farm: Farm): string => {
  const add = (parts: readonly Outcome<number>[], sum: Outcome<number>): string =>
    [...parts, sum].every((o) => o.kind === "answer")
      ? roundedApart(
          parts.map((o) => balanceAmount(o, farm, true)),
          balanceAmount(sum, farm, true),
        )
      : "";
  return (
    seasons
      .map((s, i) => add([s.net, s.removed], s.applied) || (i === 0 ? "" : add([seasons[i - 1]!.sum, s.net], s.sum)))
      .find((words) => words !== "") ?? ""
  );
};

/** "132", or "132 (104 to 160)" where the publication prints a range. */
const removed = ({ ends }: ZoneBalance, i: number, s: SeasonBalance, farm: Farm): string => {
  const middle = balanceAmount(s.removed, farm);
  const [least, most] = [ends?.high[i]?.removed, ends?.low[i]?.removed].map((o) => o?.kind === "answer" && balanceAmount(o, farm));
  return least && most && least !== most ? `${middle} (${least} to ${most})` : middle;
};

const row = (of: ZoneBalance, i: number, s: SeasonBalance, farm: Farm): BalanceRow => ({
  zone: of.zone,
  season: s.season,
  crops: s.crops.length > 0 ? list(s.crops.map((c) => crops[c].label)) : "not recorded",
  applied: balanceAmount(s.applied, farm),
  removed: removed(of, i, s, farm),
  net: s.fixers.length > 0 ? "left out" : balanceAmount(s.net, farm, true),
  sum: balanceAmount(s.sum, farm, true),
  how: [s.applied, s.removed]
    .flatMap((o) =>
      o.kind === "noAnswer"
        ? [`not known, because ${o.because}`]
        : o.steps.flatMap((step) =>
            step.expression === undefined ? [] : [`${step.what.replace("Taken away by the harvest of ", "")}: ${step.expression}`],
          ),
    )
    .filter((text, i, texts) => texts.indexOf(text) === i)
    .join("; "),
});
