import type { AnalyteId } from "../interpretation/vocabulary.ts";
import { crops, purposes, textures } from "../interpretation/vocabulary.ts";
import { measurementLabel, methodLabel } from "../interpretation/measurement.ts";
import { plain, show } from "../interpretation/show.ts";
import type { Farm, Field, Reference, Zone } from "../records/model.ts";
import type { AdviceRow, CautionView } from "./adviceView.ts";
import { cautionViews, jobs, zoneAdviceView } from "./adviceView.ts";
import { apartMark, apartNote, sayApart } from "./apart.ts";
import type { BalanceView } from "./balance.ts";
import { balanceView } from "./balance.ts";
import { balanceCsv } from "./balanceCsv.ts";
import { correctionsOf } from "./correction.ts";
import { dueOf } from "./due.ts";
import { leastChangeOf } from "./leastChange.ts";
import type { MapModel } from "./map.ts";
import { drawable, mapModel } from "./map.ts";
import { fieldCsv, fieldRows, weight } from "./rows.ts";
import type { ResultRow } from "./rows.ts";
import type { ZoneAdvice } from "./sample.ts";
import { latestAdvice } from "./sample.ts";
import { seriesNumbers } from "./series.ts";
import type { StepRow } from "./steps.ts";
import { citedReferences, stepRows, uncheckedWarning } from "./steps.ts";
import type { TimelineYear } from "./timeline.ts";
import { timelineYears } from "./timeline.ts";
import type { TrendModel } from "./trend.ts";
import { trendModel } from "./trend.ts";
import type { PanelDrawing } from "./trendDrawing.ts";
import { drawPanel } from "./trendDrawing.ts";
import { area, areaUnit, depth, inUnitsOf, money } from "./units.ts";
import { count, list, longDate } from "./words.ts";
import type { RatedCell } from "./zoneRows.ts";
import { columnHead, mapCss, ratedCell, ratingOf } from "./zoneRows.ts";
import type { ZonePair } from "./zonesCompared.ts";
import { zonePairs } from "./zonesCompared.ts";

export interface Fact {
  readonly term: string;
  readonly value: string;
}

export interface FieldMap {
  readonly analyte: AnalyteId;
  readonly title: string;
  readonly note: string;
  readonly model: MapModel;
}

export interface ZoneRow {
  readonly zone: Zone;
  readonly area: string;
  readonly sampled: string;
  readonly cells: readonly { readonly analyte: AnalyteId; readonly cell: RatedCell }[];
}

export interface Trend {
  readonly model: TrendModel;
  readonly panels: readonly PanelDrawing[];
  /** The sum behind each panel's verdict. */
  readonly steps: readonly (readonly StepRow[])[];
  readonly rows: readonly TrendRow[];
}

/** A line of the table below a trend: the same rows that the points are drawn from. */
export interface TrendRow {
  readonly date: string;
  readonly sampling: string;
  readonly zone: Zone;
  /** The value before its correction. */
  readonly was: string | undefined;
  readonly value: string;
  /** Rows of one zone with the same number may be compared. */
  readonly series: number;
  readonly method: string;
  readonly depth: string;
  readonly cores: string;
  readonly bag: string;
  readonly remark: string;
}

export interface FieldView {
  readonly field: Field;
  readonly lede: string;
  readonly why: string;
  readonly facts: readonly Fact[];
  readonly maps: readonly FieldMap[];
  readonly unmapped: string | undefined;
  readonly zones: readonly ZoneRow[];
  readonly trends: readonly Trend[];
  readonly advice: readonly { readonly zone: Zone; readonly crop: string; readonly sampling: string; readonly sampled: string; readonly old: boolean; readonly rows: readonly AdviceRow[] }[];
  /** Every two zones, and whether they may share a bag. */
  readonly pairs: readonly ZonePair[];
  readonly cautions: readonly CautionView[];
  readonly unchecked: string | undefined;
  readonly cited: readonly Reference[];
  /** Absent where no season is recorded. */
  readonly balance: BalanceView | undefined;
  readonly balanceWeight: string;
  /** The two newest years of the timeline, which has a page of its own. */
  readonly recent: readonly TimelineYear[];
  readonly csvWeight: string;
  readonly period: string;
}

/** Shown for every zone, in this order; the rest is on the sampling's own page and in the CSV. */
const shown: readonly AnalyteId[] = ["pH", "P", "K", "Mg", "organicMatter"];
const mapped: readonly AnalyteId[] = ["pH", "K", "P"];
const trended: readonly AnalyteId[] = ["pH", "K", "P"];

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
  const balance = balanceView(farm, field, leastChangeOf(farm, field));
  return {
    field,
    ...opening(farm, field, zoneViews.flatMap(({ view }) => view.actions), advised.size, zoneViews.reduce((sum, { view }) => sum + (view.limeCost ?? 0), 0)),
    facts: keyFacts(farm, field, advised),
    maps: mapped.flatMap((analyte) => fieldMap(farm, field, analyte, advised) ?? []),
    unmapped: unmapped.length > 0 ? `Not on the map, for want of a boundary: ${list(unmapped)}.` : undefined,
    zones: zoneRows(farm, field, advised),
    trends: trended.flatMap((analyte) => trend(farm, field, analyte, advised, rows) ?? []),
    advice: zoneViews.map(({ zone, view }) => ({ zone: zone.zone, crop: adviceCrop(zone), sampling: zone.sampling.id, sampled: longDate(zone.sampling.date), old: dueOf(farm, field, zone.zone).overdue, rows: view.rows })),
    pairs: zonePairs(farm, field),
    cautions: cautionViews([...advised.values()], dueOf(farm, field).overdue),
    unchecked: uncheckedWarning(outcomes),
    cited: [...new Set([...citedReferences(outcomes, farm.references), ...(balance?.cited ?? [])])],
    balance,
    balanceWeight: balance ? weight(balanceCsv(farm, field)) : "",
    recent: timelineYears(field).slice(0, 2),
    csvWeight: weight(fieldCsv(field, farm.units)),
    period: period(field),
  };
};

const period = (field: Field): string => {
  const years = field.samplings.map((s) => s.date.slice(0, 4));
  return years.length === 0 ? "no samplings yet" : years[0] === years.at(-1) ? years[0]! : `${years[0]!} to ${years.at(-1)!}`;
};

const adviceCrop = (zone: ZoneAdvice): string => {
  if (!zone.crop) return "no crop planned";
  const { crop, season, yieldGoal, planned } = zone.crop;
  return `${crops[crop].label}, ${season}${yieldGoal ? `, ${planned ? "yield goal" : "yield"} ${plain(yieldGoal.value)} ${yieldGoal.unit}` : ", no yield goal set"}`;
};

/** The first sentence says what to do; the second says from when, and what it costs where that is known. */
const opening = (
  farm: Farm,
  field: Field,
  actions: Parameters<typeof jobs>[0],
  advisedZones: number,
  limeCost: number,
): { lede: string; why: string } => {
  const due = dueOf(farm, field);
  if (advisedZones === 0) return { lede: "Sample this field: it has no routine sampling yet.", why: "Without one there is nothing to advise from." };
  const todo = jobs(actions, field.zones.length).map((job) => job.text);
  if (due.overdue) todo.unshift(`Sample again: the next sampling was due ${due.words.replace(", overdue", "")}`);
  const cost = limeCost > 0 ? ` The lime comes to about ${money(limeCost, farm.currency)}.` : "";
  return {
    lede: todo.length > 0 ? `${todo[0]!}${todo.length > 1 ? `; ${list(todo.slice(1).map((t) => t.charAt(0).toLowerCase() + t.slice(1)))}` : ""}.` : "Nothing needs doing now.",
    why: `From the newest routine sampling of each zone${due.last ? `, ${longDate(due.last)} or later` : ""}.${cost} Every rate below opens to its working.`,
  };
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
    { term: "Last full sampling", value: due.last ? longDate(due.last) : "not every zone yet" },
    { term: "Next due", value: due.words },
    { term: "Next crop", value: next.length > 0 ? list(next) : "none planned" },
    { term: "Last limed", value: lastLime ? `${longDate(lastLime.date)}, ${plain(lastLime.rate.value)} ${lastLime.rate.unit}` : "not in these records" },
    squareMeters > 0 ? { term: "Area", value: `${area(squareMeters, farm.units)} ${areaUnit(farm.units)}, ${count(field.zones.length, "zone")}` } : undefined,
    soils.length > 0 ? { term: "Soils", value: list(soils) } : undefined,
    field.tenure ? { term: "Tenure", value: [field.tenure.kind, field.tenure.from && `from ${field.tenure.from}`].filter(Boolean).join(" ") } : undefined,
    { term: "Samplings", value: byPurpose.length > 0 ? list(byPurpose) : "none" },
    labs.length > 0 ? { term: labs.length > 1 ? "Laboratories, in order" : "Laboratory", value: list(labs) } : undefined,
    { term: "Guidelines, in order asked", value: list(field.guidelines.map((g) => g.short)) },
  ];
  return facts.filter((f): f is Fact => f !== undefined);
};

/** One analyte's cell of every zone, those not to be compared with the others marked. */
const column = (farm: Farm, field: Field, analyte: AnalyteId, advised: ReadonlyMap<string, ZoneAdvice>): RatedCell[] =>
  sayApart(field.zones.map((z) => ratedCell(advised.get(z.id), analyte)), (d) => depth(d, farm.units));

const zoneRows = (farm: Farm, field: Field, advised: ReadonlyMap<string, ZoneAdvice>): ZoneRow[] => {
  const columns = shown.map((analyte) => ({ analyte, cells: column(farm, field, analyte, advised) }));
  return field.zones.map((zone, i): ZoneRow => {
    const advice = advised.get(zone.id);
    return {
      zone,
      area: zone.squareMeters === undefined ? "not mapped" : area(zone.squareMeters, farm.units),
      sampled: advice ? longDate(advice.sampling.date) : "never",
      cells: columns.map(({ analyte, cells }) => ({ analyte, cell: cells[i]! })),
    };
  });
};

const fieldMap = (farm: Farm, field: Field, analyte: AnalyteId, advised: ReadonlyMap<string, ZoneAdvice>): FieldMap | undefined => {
  const all = column(farm, field, analyte, advised);
  const cells = new Map(field.zones.map((z, i) => [z.id, all[i]!]));
  if (![...cells.values()].some((cell) => cell.value !== "")) return undefined;
  const legend = new Map<string, string>();
  const zones = drawable(field.zones).map((zone) => {
    const cell = cells.get(zone.id)!;
    const css = mapCss(cell, analyte);
    legend.set(css, legendLabel(cell, analyte, ratingOf(advised.get(zone.id), analyte)?.bands ?? []));
    const value = cell.value === "" ? (cell.why ?? "") : `${cell.value}${cell.apart === undefined ? "" : ` ${apartMark}`}`;
    const size = zone.squareMeters === undefined ? "" : `${area(zone.squareMeters, farm.units)} ${areaUnit(farm.units)}`;
    return { id: zone.id, area: zone.area, css, lines: [`${zone.letter} ${zone.name}`, value, size], title: `${zone.name}: ${value}${cell.band ? `, ${cell.band}` : ""}` };
  });
  const order = ["c-s1", "c-v2", "c-s2", "c-v3", "c-s4", "c-v4", "c-none", "c-nd"];
  const classes = [...legend].sort(([a], [b]) => order.indexOf(a) - order.indexOf(b)).map(([css, label]) => ({ css, label }));
  const model = mapModel(zones, 560, 440, farm.units, classes);
  if (!model) return undefined;
  const rated = [...advised.values()].flatMap((z) => ratingOf(z, analyte) ?? []);
  const dates = [...new Set([...advised.values()].map((z) => z.sampling.date))].map(longDate);
  const methodsUsed = [...new Set(rated.map((r) => methodLabel(r.measurement)))];
  const depths = [...new Set(rated.map((r) => depth(r.measurement.depth, farm.units)))];
  const packs = [...new Set(rated.flatMap((r) => (r.outcome.kind === "answer" && r.pack ? r.pack.short : [])))];
  return {
    analyte,
    title: columnHead(analyte, [...cells.values()]),
    note: [
      dates.length > 0 && `Sampled ${list(dates)}.`,
      methodsUsed.length > 0 && `Measured by ${list(methodsUsed)}, ${list(depths)}.`,
      packs.length > 0 ? `Classes: ${list(packs)}.` : "No guideline chosen classes it.",
      apartNote(field.zones.map((z) => ({ name: z.name, cell: cells.get(z.id)! }))),
      ...field.zones.flatMap((z) => cells.get(z.id)!.corrections.map((c) => `${z.name} was ${c.bag === undefined ? "" : "in one bag "}${c.was} before a correction: ${c.why}.`)),
    ]
      .filter(Boolean)
      .join(" "),
    model,
  };
};

/** "deficient, below 120": the class with its limits, as this zone's soil and crop set them. */
const legendLabel = (cell: RatedCell, analyte: AnalyteId, bands: NonNullable<ReturnType<typeof ratingOf>>["bands"]): string => {
  if (cell.value === "") return cell.why ?? "not sampled";
  const rank = bands.findIndex((b) => b.name === cell.band);
  if (rank < 0) return "no class";
  const decimals = analyte === "pH" ? 1 : 0;
  const from = bands[rank]!.from ?? bands[rank]!.above;
  const next = bands[rank + 1];
  const to = next?.from ?? next?.above;
  const show1 = (n: number): string => show(n, decimals);
  const above = bands[rank]!.above !== undefined;
  if (from === undefined) return to === undefined ? cell.band! : `${cell.band!}, below ${show1(to)}`;
  if (to === undefined) return `${cell.band!}, ${above ? "above " : ""}${show1(from)}${above ? "" : " and over"}`;
  return `${cell.band!}, ${show1(from)} to ${next?.from === undefined ? "" : "under "}${show1(to)}`;
};

const trend = (farm: Farm, field: Field, analyte: AnalyteId, advised: ReadonlyMap<string, ZoneAdvice>, rows: readonly ResultRow[]): Trend | undefined => {
  const model = trendModel(farm, field, analyte, advised);
  return (
    model && {
      model,
      panels: model.panels.map((panel) => drawPanel(model, panel)),
      steps: model.panels.map((panel) => stepRows(panel.verdict.steps, farm.references)),
      rows: rows
        .filter((r) => r.measurement.analyte === analyte)
        .map(({ sampling, zone, composite, measurement: m }) => ({
          date: sampling.date,
          sampling: sampling.id,
          zone,
          was: correctionsOf(m)[0]?.was,
          value: measurementLabel(m),
          series: seriesNumbers(field).get(m)!,
          method: methodLabel(m),
          depth: depth(m.depth, farm.units),
          cores: composite.cores === undefined ? "not recorded" : String(composite.cores),
          bag: composite.label,
          remark: [...correctionsOf(m).map((c) => `corrected: ${c.why}`), sampling.purpose !== "routine" && purposes[sampling.purpose].short]
            .filter(Boolean)
            .join("; "),
        })),
    }
  );
};
