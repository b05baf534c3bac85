import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Reference, Zone } from "../../records/model.ts";
import { inYearsShown, leavesOut, leftOutForReader, neverWords } from "../leftOut.ts";
import type { CautionView } from "../advice/cautionViews.ts";
import { adviceParts } from "../advice/advicePages.ts";
import { cautionViews } from "../advice/cautionViews.ts";
import { awaitedOf, unadvisedBecause } from "../results/awaited.ts";
import type { BalanceView } from "../balance/balance.ts";
import { fieldBalance } from "../balance/balancePages.ts";
import { dueOf } from "../calendar/due.ts";
import type { Fact } from "../fact.ts";
import type { FieldMap } from "../maps/fieldMap.ts";
import { fieldMap } from "../maps/fieldMap.ts";
import { fieldFacts } from "./fieldFacts.ts";
import type { FieldAdvice, RatesByZone } from "./fieldAdvice.ts";
import { adviceFrom, adviceOf, fieldAdvice, ratesByZone } from "./fieldAdvice.ts";
import { fieldOpening } from "./fieldOpening.ts";
import { mapped } from "../maps/mapPages.ts";
import { fieldCsv, fieldRows, weight } from "../results/rows.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { citedReferences, uncheckedWarning } from "../steps.ts";
import type { TimelineYear } from "./timeline.ts";
import { timelineYears } from "./timeline.ts";
import { trendNotes } from "../trends/trendCaption.ts";
import type { Trend } from "../trends/trendFigure.ts";
import { trendFigure } from "../trends/trendFigure.ts";
import { trendPages } from "../trends/trendPages.ts";
import type { ToldTrend } from "../trends/toldTrends.ts";
import { toldTrends } from "../trends/toldTrends.ts";
import { trendParts } from "../trends/trendsView.ts";
import { area, inUnitsOf } from "../units.ts";
import { list, longDate, yearSpan } from "../words.ts";
import type { WorthView } from "../calendar/worthView.ts";
import { worthView } from "../calendar/worthView.ts";
import type { RatedCell } from "../advice/zoneRows.ts";
import { zoneCells } from "../advice/zoneCells.ts";
import type { ZonePair } from "../alike/zonesCompared.ts";
import { zonePairs } from "../alike/zonesCompared.ts";

export interface ZoneRow {
  readonly zone: Zone;
  readonly area: string;
  readonly sampled: string;
  readonly cells: readonly { readonly analyte: AnalyteId; readonly cell: RatedCell }[];
}

export interface FieldView {
  readonly field: Field;
  readonly lede: string;
  readonly why: string;
  readonly facts: readonly Fact[];
  readonly maps: readonly FieldMap[];
  readonly unmapped: string | undefined;
  readonly zones: readonly ZoneRow[];
  /** Soil pH and potassium, then phosphorus, as far as the page can bear their figures. */
  readonly trends: readonly Trend[];
  readonly trendNotes: readonly string[];
  /** pH and potassium in words, where there are too many results to draw them here. */
  readonly told: readonly ToldTrend[];
  /** The pages that draw the other trends. */
  readonly trendParts: readonly { readonly part: number; readonly holds: string }[];
  /** Empty where the zones are so many that pages of their own work it out. */
  readonly advice: readonly FieldAdvice[];
  readonly adviceFrom: string;
  /** Then, what it comes to. */
  readonly rates: RatesByZone | undefined;
  /** What stands where no zone has any. */
  readonly noAdvice: string;
  /** Every two zones, and whether they may share a bag. */
  readonly pairs: readonly ZonePair[];
  /** What the results changed in money, beside what testing costs. */
  readonly worth: WorthView;
  readonly cautions: readonly CautionView[];
  readonly unchecked: string | undefined;
  readonly cited: readonly Reference[];
  /** Absent where no season is recorded. */
  readonly balance: BalanceView | undefined;
  /** Why there is none. */
  readonly noBalance: string;
  /** The two newest years of the timeline, which has a page of its own. */
  readonly recent: readonly TimelineYear[];
  readonly csvWeight: string;
  readonly period: string;
}

/** Shown for every zone, in this order; the rest is on the sampling's own page and in the CSV. */
const always: readonly AnalyteId[] = ["pH", "P", "K"];
/** Shown where any zone was tested for it: a column of "not tested" tells nothing. */
const whereTested: readonly AnalyteId[] = ["Mg", "organicMatter"];

/** All that a field's page shows. */
export const fieldView = (site: Farm, field: Field): FieldView => {
  const farm = inUnitsOf(site, field);
  const zoneViews = adviceOf(farm, field, field.zones);
  const spoken = new Map(zoneViews.map(({ zone }) => [zone.zone.id, zone]));
  const advised = new Map([...spoken].filter(([, zone]) => !zone.nitrogenAlone));
  const rows = fieldRows(field);
  const outcomes = zoneViews.flatMap(({ view }) => view.outcomes);
  const balance = fieldBalance(farm, field);
  const parts = adviceParts(field);
  const trends = trendPages(field).onFieldPage.flatMap((analyte) => trendFigure(farm, field, analyte, advised, rows) ?? []);
  return {
    field,
    ...fieldOpening(site, field, zoneViews),
    facts: fieldFacts(farm, field, advised),
    maps: mapped.flatMap((analyte) => fieldMap(farm, field, analyte, advised) ?? []),
    unmapped: unmappedWords(farm, field),
    zones: zoneRows(farm, field, advised),
    trends,
    trendNotes: trendNotes(trends.flatMap(({ model }) => model.panels)),
    told: toldTrends(farm, field, advised),
    trendParts: trendParts(field),
    advice: parts.length > 0 ? [] : zoneViews.map((each) => fieldAdvice(farm, field, each)),
    adviceFrom: adviceFrom(zoneViews),
    rates: parts.length > 0 ? ratesByZone(field, zoneViews) : undefined,
    noAdvice: `No advice, because ${unadvisedBecause(field)}.`,
    pairs: zonePairs(farm, field),
    worth: worthView(farm, field),
    cautions: cautionViews([...spoken.values()], dueOf(farm, field).overdue),
    unchecked: uncheckedWarning(outcomes),
    cited: [...new Set([...citedReferences(outcomes, farm.references), ...(balance?.cited ?? [])])],
    balance,
    noBalance: `No balance, because ${inYearsShown(farm) === "" ? "no season of this field is recorded" : `no whole season of this field is${inYearsShown(farm)}`}.`,
    recent: timelineYears(field).slice(0, 2),
    csvWeight: weight(fieldCsv(field, farm.units)),
    period: period(field),
  };
};

const unmappedWords = (farm: Farm, field: Field): string | undefined => {
  if (leavesOut(farm, "positions")) return `Maps are ${leftOutForReader}.`;
  const without = field.zones.filter((z) => !z.area).map((z) => z.name);
  return without.length > 0 ? `Not on the map, for want of a boundary: ${list(without)}.` : undefined;
};

const period = (field: Field): string => {
  const years = field.samplings.map((s) => s.date.slice(0, 4));
  return years.length === 0 ? "no samplings yet" : yearSpan(years);
};

const zoneRows = (farm: Farm, field: Field, advised: ReadonlyMap<string, ZoneAdvice>): ZoneRow[] => {
  const columns = [...always, ...whereTested]
    .map((analyte) => ({ analyte, cells: zoneCells(farm, field, analyte, advised) }))
    .filter(({ analyte, cells }) => always.includes(analyte) || cells.some((cell) => cell.value !== ""));
  return field.zones.map((zone, i): ZoneRow => {
    const advice = advised.get(zone.id);
    return {
      zone,
      area: zone.squareMeters === undefined ? "not mapped" : area(zone.squareMeters, farm.units),
      sampled: advice ? longDate(advice.sampling.date) : unsampledWords(farm, field, zone),
      cells: columns.map(({ analyte, cells }) => ({ analyte, cell: cells[i]! })),
    };
  });
};

const unsampledWords = (farm: Farm, field: Field, zone: Zone): string => {
  if (awaitedOf(field, zone).length > 0) return "results awaited";
  return neverWords(farm);
};
