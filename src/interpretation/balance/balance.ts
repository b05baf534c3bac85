import type { NoAnswer, Outcome, Source, Step } from "../outcome.ts";
import { list } from "../list.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Analysis } from "../products.ts";
import { shareOf } from "../products.ts";
import type { Manure } from "../manure.ts";
import { broughtByManure, spreadWords } from "../manure.ts";
import type { CoefficientSet, Harvest } from "./harvestRemoval.ts";
import { removedByHarvest } from "./harvestRemoval.ts";
import { plain } from "../show.ts";
import type { RangeEnd } from "../rules/removalCoefficient.ts";
import type { Amount, RateUnit, VolumeRateUnit } from "../units.ts";
import { convert, unitWords } from "../units.ts";
import type { CropId } from "../vocabulary.ts";
import { crops, nitrogenFixers, nutrients } from "../vocabulary.ts";

/** The nutrients a balance is kept of. */
export const balancedIds = ["N", "P2O5", "K2O"] as const;
export type BalancedId = (typeof balancedIds)[number];

/** Something spread that holds nutrients. Manure counts with its total content, not with the part crops can use at once. */
export interface Spread {
  readonly season: number;
  readonly date: string;
  readonly name: string;
  readonly rate: Amount<RateUnit>;
  /** The rate of a liquid as it was recorded, for the words of the sum. */
  readonly volume?: Amount<VolumeRateUnit> | undefined;
  readonly holds:
    { readonly kind: "fertilizer"; /** Percent by weight. */ readonly analysis: Analysis } | ({ readonly kind: "manure" } & Manure);
  readonly source: Source;
}

/** What the records say of one place. */
export interface PlaceRecords {
  /** Seasons that have a record, in any order. */
  readonly seasons: readonly number[];
  /** Seasons of which a reader is shown only a part; they have no balance. */
  readonly partSeasons?: readonly number[] | undefined;
  readonly spreads: readonly Spread[];
  readonly harvests: readonly Harvest[];
}

/** lb/ac of one nutrient in one season. */
export interface SeasonBalance {
  readonly season: number;
  readonly crops: readonly CropId[];
  readonly applied: Outcome<number>;
  readonly removed: Outcome<number>;
  /** Applied less removed; no answer for nitrogen in a season whose crop takes it from the air. */
  readonly net: Outcome<number>;
  /** Of this season and all before it; no answer from the first season on that cannot be summed. */
  readonly sum: Outcome<number>;
  /** Crops that took nitrogen from the air: the nitrogen sum passes over their season. */
  readonly fixers: readonly CropId[];
}

/** lb/ac that one spreading brings: rate x percent / 100 for fertilizer, the amount x its analysis for manure. */
const broughtBy = (spread: Spread, nutrient: BalancedId): { value: number; step: Step } => {
  const { symbol } = nutrients[nutrient];
  const { holds, rate, volume, name, date, source } = spread;
  if (holds.kind === "fertilizer") {
    const share = shareOf(holds.analysis, nutrient);
    // Worked in the record's own system of units; only the value is lb/ac for all.
    const unit = rate.unit === "kg/ha" || rate.unit === "t/ha" ? "kg/ha" : "lb/ac";
    const spreadOf = convert(rate.value, rate.unit, unit);
    const step: Step = {
      what: `${name}, ${date}${volume ? `: ${plain(volume.value, 2)} ${unitWords(volume.unit)}, by its density ${plain(spreadOf, 1)} ${unit}` : ""}`,
      expression: `${plain(spreadOf, 1)} × ${plain(share, 2)} ÷ 100`,
      result: `${plain((spreadOf * share) / 100, 1)} ${unit} ${symbol}`,
      source,
    };
    return { value: (convert(rate.value, rate.unit, "lb/ac") * share) / 100, step };
  }
  const { value, expression, result } = broughtByManure(spread, holds, nutrient);
  return {
    value,
    step: {
      what: `${name}, ${date}: all that ${spreadWords(spread, holds)} hold`,
      expression,
      result: `${plain(result.value, 1)} ${result.unit.replace("/", ` ${symbol}/`)}`,
      source,
    },
  };
};

/** lb/ac brought by all of these; 0 where nothing was spread. */
const applied = (spreads: readonly Spread[], nutrient: BalancedId): Outcome<number> => {
  const parts = spreads.map((s) => broughtBy(s, nutrient)).filter((p) => p.value > 0);
  return answer(
    parts.reduce((sum, p) => sum + p.value, 0),
    parts.map((p) => p.step),
  );
};

/** lb/ac taken away by all of these; one harvest that is not known leaves the whole unknown. */
const removed = (
  harvests: readonly Harvest[],
  among: readonly Harvest[],
  nutrient: BalancedId,
  sets: readonly CoefficientSet[],
  end: RangeEnd,
): Outcome<number> => {
  const parts = harvests.map((h) => removedByHarvest(h, among, nutrient, sets, end));
  const refused = parts.find((p): p is NoAnswer => p.kind === "noAnswer");
  if (refused) return refused;
  const known = parts.flatMap((p) => (p.kind === "answer" ? [p] : []));
  return answer(
    known.reduce((sum, p) => sum + p.value, 0),
    known.flatMap((p) => p.steps),
    [...new Set(known.flatMap((p) => p.cautions))],
  );
};

const less = (brought: Outcome<number>, taken: Outcome<number>): Outcome<number> => {
  if (brought.kind === "noAnswer") return brought;
  if (taken.kind === "noAnswer") return taken;
  const value = brought.value - taken.value;
  const sum: Step = {
    what: "Applied less removed",
    expression: `${plain(brought.value, 1)} − ${plain(taken.value, 1)}`,
    result: `${plain(value, 1)} lb/ac`,
  };
  return answer(value, [...brought.steps, ...taken.steps, sum], taken.cautions);
};

/** Every year from the first recorded season to the last, whether it is recorded or not: a missing one must show. */
const years = (seasons: readonly number[]): number[] => {
  const [first, last] = [Math.min(...seasons), Math.max(...seasons)];
  return seasons.length === 0 ? [] : Array.from({ length: last - first + 1 }, (_, i) => first + i);
};

const unrecorded = (season: number): NoAnswer => noAnswer(`season ${season} is not recorded`, [`season ${season}`]);
const unknownCrop = (season: number): NoAnswer => noAnswer(`the crop of ${season} is not recorded`, [`the crop of ${season}`]);

/** Crops of these harvests that took an unmeasured part of this nutrient from the air; one that was not harvested counts for nothing. */
const fixersOf = (harvests: readonly Harvest[], nutrient: BalancedId): CropId[] =>
  nutrient === "N" ? [...new Set(harvests.filter((h) => nitrogenFixers.has(h.crop) && h.yield?.value !== 0).map((h) => h.crop))] : [];

/**
 * Applied less removed, lb/ac, season by season and summed from the first recorded season. Removal is yield x the
 * coefficient of the first set that has one; of a printed range, its middle or the `end` asked for. A season without a record,
 * a crop or a yield, or whose crop has no coefficient, has no removal, and the sum is incomplete from there on: nothing is counted
 * as zero that is only unknown. The nitrogen sum passes over the seasons of legumes, whose share from the air nobody measured.
 * A balance says which way a soil is driven, never by how many ppm.
 */
export const balanceBySeason = (
  records: PlaceRecords,
  nutrient: BalancedId,
  sets: readonly CoefficientSet[],
  end: RangeEnd = "middle",
): SeasonBalance[] => {
  let sum: Outcome<number> = answer(0, []);
  return years(records.seasons).map((season): SeasonBalance => {
    const recorded = records.seasons.includes(season);
    const harvests = records.harvests.filter((h) => h.season === season);
    const fixers = fixersOf(harvests, nutrient);
    const brought = recorded
      ? applied(
          records.spreads.filter((s) => s.season === season),
          nutrient,
        )
      : unrecorded(season);
    const taken = !recorded
      ? unrecorded(season)
      : harvests.length === 0
        ? unknownCrop(season)
        : removed(harvests, harvests, nutrient, sets, end);
    const net = fixers.length > 0 ? fromTheAir(fixers) : less(brought, taken);
    if (fixers.length === 0) sum = summed(sum, net, season);
    return { season, crops: [...new Set(harvests.map((h) => h.crop))], applied: brought, removed: taken, net, sum, fixers };
  });
};

const fromTheAir = (fixers: readonly CropId[]): NoAnswer =>
  noAnswer(`${list(fixers.map((c) => crops[c].label))} took part of its nitrogen from the air, and how much was not measured`, [
    "nitrogen from the air",
  ]);

const summed = (before: Outcome<number>, net: Outcome<number>, season: number): Outcome<number> => {
  if (before.kind === "noAnswer") return before;
  if (net.kind === "noAnswer") return noAnswer(`it is incomplete since ${season}: ${net.because}`, net.missing);
  return answer(before.value + net.value, [
    {
      what: `With ${season}`,
      expression: `${plain(before.value, 1)} ${net.value < 0 ? "−" : "+"} ${plain(Math.abs(net.value), 1)}`,
      result: `${plain(before.value + net.value, 1)} lb/ac`,
    },
  ]);
};

export interface PeriodBalance {
  readonly applied: number;
  readonly removed: number;
  readonly net: number;
}

const yearOf = (date: string): number => Number(date.slice(0, 4));

/** Must the season of this year be on record for the time after `from` up to `to`? A harvest before July is not expected. */
export const seasonsWithin = (from: string, to: string): number[] => {
  const first = from.slice(5) < "07-01" ? yearOf(from) : yearOf(from) + 1;
  const last = to.slice(5) < "07-01" ? yearOf(to) - 1 : yearOf(to);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => first + i);
};

/**
 * The balance, lb/ac, of what happened after the day `from` and up to the day `to`, such as two samplings. A harvest of a
 * season at either end counts by its date; without one it could lie on either side, so there is no answer.
 */
export const balanceBetween = (
  records: PlaceRecords,
  nutrient: BalancedId,
  sets: readonly CoefficientSet[],
  from: string,
  to: string,
  end: RangeEnd = "middle",
): Outcome<PeriodBalance> => {
  for (const season of seasonsWithin(from, to)) {
    if (records.partSeasons?.includes(season)) return noAnswer(`season ${season} is not shown whole to this reader`);
    if (!records.seasons.includes(season)) return unrecorded(season);
    if (!records.harvests.some((h) => h.season === season)) return unknownCrop(season);
  }
  const within = (date: string): boolean => date > from && date <= to;
  const dated = records.harvests.filter((h) => h.date !== undefined && within(h.date));
  const undated = records.harvests.filter((h) => h.date === undefined && h.season >= yearOf(from) && h.season <= yearOf(to));
  const harvests = [...dated, ...undated];
  const brought = applied(
    records.spreads.filter((s) => within(s.date)),
    nutrient,
  );
  const taken = removed(harvests, records.harvests, nutrient, sets, end);
  const net = less(brought, taken);
  if (net.kind === "noAnswer") return net;
  const onEdge = undated.find((h) => h.yield?.value !== 0 && (h.season === yearOf(from) || h.season === yearOf(to)));
  if (onEdge)
    return noAnswer(`the day of the harvest of ${onEdge.season} is not recorded, and a sampling was taken that year`, [
      `the day of the harvest of ${onEdge.season}`,
    ]);
  const [a, r] = [brought, taken].map((o) => (o.kind === "answer" ? o.value : 0)) as [number, number];
  return answer({ applied: a, removed: r, net: net.value }, net.steps, net.cautions);
};
