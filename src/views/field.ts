import type { AnalyteId } from "../interpretation/vocabulary.ts";
import { crops, purposes, textures } from "../interpretation/vocabulary.ts";
import { plain } from "../interpretation/show.ts";
import type { Farm, Field, Reference, Zone } from "../records/model.ts";
import { inYearsShown, leavesOut, leavesOutProducts, ratesLeftOut, leftOutForReader } from "./leftOut.ts";
import type { AdviceRow, CautionView } from "./adviceView.ts";
import { cautionViews, zoneAdviceView } from "./adviceView.ts";
import { awaitedOf } from "./awaited.ts";
import type { BalanceView } from "./balance.ts";
import { fieldBalance } from "./balancePages.ts";
import { dueOf } from "./due.ts";
import type { FieldMap } from "./fieldMap.ts";
import { fieldMap } from "./fieldMap.ts";
import { jobs } from "./jobs.ts";
import { mapped } from "./mapPages.ts";
import { fieldCsv, fieldRows, weight } from "./rows.ts";
import type { ZoneAdvice } from "./sample.ts";
import { silentOf } from "./silent.ts";
import { latestAdvice } from "./sample.ts";
import { seasonZonesByField } from "./seasonZones.ts";
import { careOfAdvice } from "./samplingQuality.ts";
import { citedReferences, uncheckedWarning } from "./steps.ts";
import type { TimelineYear } from "./timeline.ts";
import { timelineYears } from "./timeline.ts";
import type { Trend } from "./trendFigure.ts";
import { trendFigure } from "./trendFigure.ts";
import { trendPages } from "./trendPages.ts";
import type { ToldTrend } from "./toldTrends.ts";
import { toldTrends } from "./toldTrends.ts";
import { trendParts } from "./trendsView.ts";
import { area, areaUnit, inUnitsOf, money } from "./units.ts";
import { limeWhy, lowWhy, unlimedWhy } from "./whyWords.ts";
import { count, list, longDate, yearSpan } from "./words.ts";
import type { WorthView } from "./worthView.ts";
import { worthView } from "./worthView.ts";
import type { RatedCell } from "./zoneRows.ts";
import { zoneCells } from "./zoneCells.ts";
import type { ZonePair } from "./zonesCompared.ts";
import { zonePairs } from "./zonesCompared.ts";
import { onZones, zoneChanges, zoneChangeWords } from "./zonesThen.ts";

export interface Fact {
  readonly term: string;
  readonly value: string;
}

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
  /** pH and potassium in words, where there are too many results to draw them here. */
  readonly told: readonly ToldTrend[];
  /** The pages that draw the other trends. */
  readonly trendParts: readonly { readonly part: number; readonly holds: string }[];
  readonly advice: readonly { readonly zone: Zone; readonly crop: string; readonly sampling: string; readonly sampled: string; readonly old: boolean; readonly care: string | undefined; readonly rows: readonly AdviceRow[] }[];
  /** Every two zones, and whether they may share a bag. */
  readonly pairs: readonly ZonePair[];
  /** What the results changed in money, beside what testing costs. */
  readonly worth: WorthView;
  readonly cautions: readonly CautionView[];
  readonly unchecked: string | undefined;
  readonly cited: readonly Reference[];
  /** Absent where no season is recorded. */
  readonly balance: BalanceView | undefined;
  /** The two newest years of the timeline, which has a page of its own. */
  readonly recent: readonly TimelineYear[];
  readonly csvWeight: string;
  readonly period: string;
}

/** Shown for every zone, in this order; the rest is on the sampling's own page and in the CSV. */
const shown: readonly AnalyteId[] = ["pH", "P", "K", "Mg", "organicMatter"];

/** All that a field's page shows. */
export const fieldView = (site: Farm, field: Field): FieldView => {
  const farm = inUnitsOf(site, field);
  const advised = new Map<string, ZoneAdvice>();
  for (const zone of field.zones) {
    const found = latestAdvice(farm, field, zone);
    if (found) advised.set(zone.id, found);
  }
  const zoneViews = [...advised.values()].map((zone) => ({ zone, view: zoneAdviceView(farm, zone) }));
  const rows = fieldRows(field);
  const outcomes = zoneViews.flatMap(({ view }) => view.outcomes);
  const unmapped = field.zones.filter((z) => !z.area).map((z) => z.name);
  const balance = fieldBalance(farm, field);
  return {
    field,
    ...opening(farm, field, zoneViews.flatMap(({ view }) => view.actions), [...advised.values()].map((z) => z.sampling.date), silentOf(zoneViews.flatMap(({ view }) => view.rows)), reasons(site, field), zoneViews.reduce((sum, { view }) => sum + (view.limeCost ?? 0), 0)),
    facts: keyFacts(farm, field, advised),
    maps: mapped.flatMap((analyte) => fieldMap(farm, field, analyte, advised) ?? []),
    unmapped: leavesOut(farm, "positions") ? `Maps are ${leftOutForReader}.` : unmapped.length > 0 ? `Not on the map, for want of a boundary: ${list(unmapped)}.` : undefined,
    zones: zoneRows(farm, field, advised),
    trends: trendPages(field).onFieldPage.flatMap((analyte) => trendFigure(farm, field, analyte, advised, rows) ?? []),
    told: toldTrends(farm, field, advised),
    trendParts: trendParts(field),
    advice: zoneViews.map(({ zone, view }) => ({ zone: zone.zone, crop: adviceCrop(zone), sampling: zone.sampling.id, sampled: longDate(zone.sampling.date), old: dueOf(farm, field, zone.zone).overdue, care: careOfAdvice(field, zone.sampling, ["pH", "P", "K"]), rows: view.rows })),
    pairs: zonePairs(farm, field),
    worth: worthView(farm, field),
    cautions: cautionViews([...advised.values()], dueOf(farm, field).overdue),
    unchecked: uncheckedWarning(outcomes),
    cited: [...new Set([...citedReferences(outcomes, farm.references), ...(balance?.cited ?? [])])],
    balance,
    recent: timelineYears(field).slice(0, 2),
    csvWeight: weight(fieldCsv(field, farm.units)),
    period: period(field),
  };
};

const period = (field: Field): string => {
  const years = field.samplings.map((s) => s.date.slice(0, 4));
  return years.length === 0 ? "no samplings yet" : yearSpan(years);
};

const adviceCrop = (zone: ZoneAdvice): string => {
  if (!zone.crop) return "no crop planned";
  const { crop, season, yieldGoal, planned } = zone.crop;
  return `${crops[crop].label}, ${season}${yieldGoal ? `, ${planned ? "yield goal" : "yield"} ${plain(yieldGoal.value)} ${yieldGoal.unit}` : zone.crop.yieldWithheld ? `, its yield goal ${leftOutForReader}` : ", no yield goal set"}`;
};

/** Why there is something to do: what the results were found to be. */
const reasons = (site: Farm, field: Field): string[] => {
  const zones = seasonZonesByField(site).get(field) ?? [];
  return [limeWhy(zones), ...unlimedWhy(zones), ...lowWhy(zones, "K"), ...lowWhy(zones, "P")].filter(Boolean);
};

/** The first sentence says what to do; then why, from when, and what it costs where that is known. */
const opening = (
  farm: Farm,
  field: Field,
  actions: Parameters<typeof jobs>[0],
  /** When each zone that is advised for was sampled. */
  sampled: readonly string[],
  /** Why a question has no answer, each once. */
  silent: readonly string[],
  /** What makes it due. */
  because: readonly string[],
  limeCost: number,
): { lede: string; why: string } => {
  const due = dueOf(farm, field);
  if (sampled.length === 0 && awaitedOf(field).length > 0) return { lede: `Results are awaited. ${awaitedOf(field).join(" ")}`, why: "Until they come there is nothing to advise from." };
  if (sampled.length === 0) return { lede: `Sample this field: it has no routine sampling${inYearsShown(farm) || " yet"}.`, why: "Without one there is nothing to advise from." };
  const todo = jobs(actions, field.zones.length).map((job) => job.text);
  if (due.overdue) todo.unshift(due.last === undefined ? "Sample every zone: not all have been sampled" : `Sample again: the next sampling was due ${due.words.replace(", overdue", "")}`);
  const cost = limeCost > 0 ? ` The lime comes to about ${money(limeCost, farm.currency)}.` : "";
  // Who is shown no rates is told first what is low, where anything is.
  const found = todo.length > 0 ? because : [];
  return {
    lede: todo.length > 0 ? `${todo[0]!}${todo.length > 1 ? todo.slice(1).map((t) => `; ${t.charAt(0).toLowerCase()}${t.slice(1)}`).join("") : ""}.` : because.length > 0 ? [...because, ...(farm.withheld ? [] : silent.slice(0, 1))].join(" ") : (silent[0] ?? (leavesOutProducts(farm) ? "Nothing that this reader is shown needs doing now." : "Nothing needs doing now.")),
    why: `${found.map((each) => `${each} `).join("")}From the newest routine sampling of each zone${sampledWords(sampled)}.${[cost, ratesLeftOut(farm)].filter(Boolean).map((s) => ` ${s.trim()}`).join("")} Every rate has its working.`,
  };
};

/** ", 18 October 2025"; ", 12 October 2021 to 18 October 2025" where zones were not sampled together. */
const sampledWords = (dates: readonly string[]): string => {
  const [first, last] = [dates.reduce((a, b) => (a < b ? a : b)), dates.reduce((a, b) => (a > b ? a : b))];
  return first === last ? `, ${longDate(first)}` : `, ${longDate(first)} to ${longDate(last)}`;
};

const keyFacts = (farm: Farm, field: Field, advised: ReadonlyMap<string, ZoneAdvice>): Fact[] => {
  const due = dueOf(farm, field);
  const squareMeters = field.zones.reduce((sum, z) => sum + (z.squareMeters ?? 0), 0);
  const soils = [...new Set(field.zones.flatMap((z) => (z.soil.texture ? textures[z.soil.texture] : (z.soil.name ?? []))))];
  const lastLime = field.seasons.flatMap((s) => s.applications.filter((a) => a.product.lime)).sort((a, b) => (a.date < b.date ? -1 : 1)).at(-1);
  const next = [...new Set([...advised.values()].flatMap((z) => (z.crop ? `${crops[z.crop.crop].label}, ${z.crop.season}` : [])))];
  const labs = [...new Set(field.samplings.map((s) => s.lab.name))];
  const byPurpose = (["routine", "phCheck", "nitrate"] as const).flatMap((p) => {
    const n = field.samplings.filter((s) => s.purpose === p).length;
    return n > 0 ? `${n} ${purposes[p].short}` : [];
  });
  const facts: (Fact | undefined)[] = [
    { term: "Last full sampling", value: due.last ? longDate(due.last) : `not every zone${inYearsShown(farm) || " yet"}` },
    ...(awaitedOf(field).length > 0 ? [{ term: "Results awaited", value: awaitedOf(field).join(" ") }] : []),
    { term: "Next due", value: due.words },
    { term: "Next crop", value: next.length > 0 ? list(next) : "none planned" },
    { term: "Last limed", value: lastLime ? `${longDate(lastLime.date)}, ${plain(lastLime.rate.value)} ${lastLime.rate.unit}${onZones(field, lastLime.zones, lastLime.date)}` : `not in these records${inYearsShown(farm)}` },
    squareMeters > 0 ? { term: "Area", value: `${area(squareMeters, farm.units)} ${areaUnit(farm.units)}, ${count(field.zones.length, "zone")}` } : undefined,
    soils.length > 0 ? { term: "Soils", value: list(soils) } : undefined,
    field.tenure ? { term: "Tenure", value: [field.tenure.kind, field.tenure.from && `from ${field.tenure.from}`].filter(Boolean).join(" ") } : undefined,
    zoneChanges(field).length > 0 ? { term: "Zones drawn anew", value: zoneChangeWords(field) } : undefined,
    { term: "Samplings", value: byPurpose.length > 0 ? list(byPurpose) : "none" },
    labs.length > 0 ? { term: labs.length > 1 ? "Laboratories, in order" : "Laboratory", value: list(labs) } : undefined,
    { term: "Guidelines, in order asked", value: list(field.guidelines.map((g) => g.short)) },
  ];
  return facts.filter((f): f is Fact => f !== undefined);
};


const zoneRows = (farm: Farm, field: Field, advised: ReadonlyMap<string, ZoneAdvice>): ZoneRow[] => {
  const columns = shown.map((analyte) => ({ analyte, cells: zoneCells(farm, field, analyte, advised) }));
  return field.zones.map((zone, i): ZoneRow => {
    const advice = advised.get(zone.id);
    return {
      zone,
      area: zone.squareMeters === undefined ? "not mapped" : area(zone.squareMeters, farm.units),
      sampled: advice ? longDate(advice.sampling.date) : awaitedOf(field, zone).length > 0 ? "results awaited" : inYearsShown(farm) ? `not${inYearsShown(farm)}` : "never",
      cells: columns.map(({ analyte, cells }) => ({ analyte, cell: cells[i]! })),
    };
  });
};
