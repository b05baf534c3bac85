import { rate } from "../interpretation/rating.ts";
import { seasonOf, splitIntoSeries, whyNotComparable } from "../interpretation/comparable.ts";
import type { Measurement } from "../interpretation/measurement.ts";
import { depthLabel, methodLabel, numberLabel } from "../interpretation/measurement.ts";
import type { Band } from "../interpretation/rules/bands.ts";
import type { AnalyteId, SoilTestUnit } from "../interpretation/vocabulary.ts";
import { analytes, methodShort } from "../interpretation/vocabulary.ts";
import { show } from "../interpretation/show.ts";
import type { Field, Zone } from "../records/model.ts";
import type { ZoneAdvice } from "./sample.ts";
import { zoneMeasurements } from "./sample.ts";
import { decimalYear, list, monthYear } from "./words.ts";

export interface TrendPoint {
  /** Years, with the share of the year gone by. */
  readonly x: number;
  readonly y: number;
  readonly label: string;
  readonly date: string;
  /** The bags a mean was taken of; empty for a single bag. */
  readonly bags: readonly number[];
}

/** Points that may be compared with one another, joined by a line, on the bands that hold for their method. */
export interface TrendSegment {
  readonly method: string;
  readonly points: readonly TrendPoint[];
  readonly bands: readonly Band[];
}

export interface TrendBreak {
  readonly x: number;
  readonly left: string;
  readonly right: string;
  readonly because: string;
}

export interface TrendPanel {
  readonly zone: Zone;
  readonly verdict: string;
  readonly segments: readonly TrendSegment[];
  /** Readings of the other season: shown, never joined. */
  readonly others: readonly TrendPoint[];
  readonly breaks: readonly TrendBreak[];
  readonly events: readonly { readonly x: number; readonly label: string }[];
  /** The units of its results, each once. */
  readonly units: readonly SoilTestUnit[];
}

export interface TrendModel {
  readonly analyte: AnalyteId;
  readonly title: string;
  readonly subtitle: string;
  readonly caption: string;
  readonly panels: readonly TrendPanel[];
  readonly x: { readonly from: number; readonly to: number; readonly ticks: readonly number[] };
  readonly y: { readonly from: number; readonly to: number; readonly ticks: readonly number[] };
}

const point = (m: Measurement): TrendPoint => ({
  x: decimalYear(m.date),
  y: m.value,
  label: numberLabel(m),
  date: m.date,
  bags: m.bags?.map((b) => b.value) ?? [],
});

/** A zone's measurements of one analyte, one a day and method, oldest first. */
const history = (field: Field, zone: Zone, analyte: AnalyteId): Measurement[] =>
  field.samplings.flatMap((s) => zoneMeasurements(s, zone.id).filter((m) => m.analyte === analyte));

/** The season most of the routine samplings fall in: that is the line, the other season's readings stand beside it. */
const mainSeason = (measurements: readonly Measurement[]): "spring" | "autumn" => {
  const routine = measurements.filter((m) => m.purpose === "routine");
  const autumn = routine.filter((m) => seasonOf(m.date) === "autumn").length;
  return autumn * 2 >= routine.length ? "autumn" : "spring";
};

const panel = (field: Field, zone: Zone, analyte: AnalyteId, advice: ZoneAdvice | undefined): TrendPanel | undefined => {
  const all = history(field, zone, analyte);
  if (all.length === 0) return undefined;
  const season = mainSeason(all);
  const seasonal = analyte === "pH" || analyte === "K";
  const inLine = seasonal ? all.filter((m) => seasonOf(m.date) === season) : all;
  const series = splitIntoSeries(inLine);
  const segments = series.map(({ measurements }): TrendSegment => ({
    method: methodLabel(measurements[0]!),
    points: measurements.map(point),
    bands: advice ? rate(advice.sample, measurements.at(-1)!).bands : [],
  }));
  const breaks = series.slice(1).flatMap(({ measurements }, i): TrendBreak[] => {
    const before = series[i]!.measurements.at(-1)!;
    const after = measurements[0]!;
    const because = whyNotComparable(before, after);
    // Two series that run side by side (a laboratory sent both tests) have no place where one ends and the other begins.
    if (because === undefined || after.date <= before.date) return [];
    const [left, right] = sideNames(before, after);
    return [{ x: (decimalYear(before.date) + decimalYear(after.date)) / 2, left, right, because }];
  });
  return {
    zone,
    verdict: verdict(series.at(-1)?.measurements ?? all),
    segments,
    others: all.filter((m) => !inLine.includes(m)).map(point),
    breaks,
    events: analyte === "pH" ? limings(field, zone) : [],
    units: [...new Set(all.map((m) => m.unit))],
  };
};

/** What a break separates, in as few words as tell the two sides apart. */
const sideNames = (before: Measurement, after: Measurement): [string, string] => {
  if (before.method !== after.method) return [methodShort(before.method), methodShort(after.method)];
  if (methodLabel(before) !== methodLabel(after)) return [methodLabel(before), methodLabel(after)];
  return before.unit === after.unit ? [depthLabel(before.depth), depthLabel(after.depth)] : [before.unit, after.unit];
};

/** The newest value and where its comparable series began. Whether a change is more than noise is not judged here. */
const verdict = (measurements: readonly Measurement[]): string => {
  const first = measurements[0]!;
  const last = measurements.at(-1)!;
  const now = `${numberLabel(last)} in ${monthYear(last.date)}`;
  return first === last ? `${now}; nothing earlier to compare it with.` : `${now}; ${numberLabel(first)} in ${monthYear(first.date)}, measured the same way.`;
};

const limings = (field: Field, zone: Zone): { x: number; label: string }[] =>
  field.seasons
    .flatMap((s) => s.applications)
    .filter((a) => a.product.lime && a.zones.includes(zone.id))
    .map((a) => ({ x: decimalYear(a.date), label: `lime, ${show(a.rate.value, 1)} ${a.rate.unit}` }));

/** Round steps so that about `wanted` of them span the range. */
const niceStep = (span: number, wanted: number): number => {
  const rough = span / wanted;
  const power = 10 ** Math.floor(Math.log10(rough));
  return ([1, 2, 5].find((f) => f * power >= rough) ?? 10) * power;
};

const axis = (from: number, to: number, step: number): TrendModel["y"] => {
  const first = Math.floor(from / step + 1e-9);
  const last = Math.ceil(to / step - 1e-9);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const at = (i: number): number => Number((i * step).toFixed(decimals));
  return { from: at(first), to: at(last), ticks: Array.from({ length: last - first + 1 }, (_, i) => at(first + i)) };
};

const edges = (bands: readonly Band[]): number[] => bands.flatMap((b) => b.from ?? b.above ?? []);

/** Trends of one analyte over a field's zones on shared axes. `undefined` when no zone has a result. */
export const trendModel = (field: Field, analyte: AnalyteId, advice: ReadonlyMap<string, ZoneAdvice>): TrendModel | undefined => {
  const panels = field.zones.flatMap((zone) => panel(field, zone, analyte, advice.get(zone.id)) ?? []);
  if (panels.length === 0) return undefined;
  const points = panels.flatMap((p) => [...p.segments.flatMap((s) => s.points), ...p.others]);
  const values = [...points.flatMap((p) => [p.y, ...p.bags]), ...panels.flatMap((p) => p.segments.flatMap((s) => edges(s.bands)))];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const room = Math.max((high - low) * 0.12, analyte === "pH" ? 0.2 : 5);
  const least = analyte === "pH" ? low - room : Math.max(0, low - room);
  const y = axis(least, high + room, niceStep(high + room - least, 5));
  const firstYear = Math.floor(Math.min(...points.map((p) => p.x)));
  const lastYear = Math.max(firstYear + 1, Math.ceil(Math.max(...points.map((p) => p.x))));
  const years = lastYear - firstYear;
  const everyYears = Math.ceil(years / 5);
  const x = { from: firstYear, to: lastYear, ticks: Array.from({ length: Math.floor(years / everyYears) + 1 }, (_, i) => firstYear + i * everyYears) };
  const units = [...new Set(panels.flatMap((p) => p.units))].filter((each) => each !== "pH");
  const unit = units.length === 0 ? "" : `, ${units.join(" and ")}`;
  return {
    analyte,
    title: finding(analyte, panels, advice),
    subtitle: `${analytes[analyte].label}${unit}, ${firstYear} to ${monthYear([...points].sort((a, b) => a.x - b.x).at(-1)!.date)}. Axis from ${show(y.from, analyte === "pH" ? 1 : 0)} to ${show(y.to, analyte === "pH" ? 1 : 0)}.`,
    caption: caption(panels),
    panels,
    x,
    y,
  };
};

/** The heading of the figure: where the zones stand by the newest sampling, or that nobody can say. */
const finding = (analyte: AnalyteId, panels: readonly TrendPanel[], advice: ReadonlyMap<string, ZoneAdvice>): string => {
  const label = analytes[analyte].label;
  const standing = panels.flatMap(({ zone }) => {
    const rating = advice.get(zone.id)?.advice.ratings.find((r) => r.measurement.analyte === analyte);
    return rating?.outcome.kind === "answer" && rating.outcome.value.position ? [{ zone, position: rating.outcome.value.position }] : [];
  });
  if (standing.length === 0) return `${label}: no guideline chosen reads it`;
  const low = standing.filter((s) => s.position === "below").map((s) => s.zone.name);
  const high = standing.filter((s) => s.position === "above").map((s) => s.zone.name);
  if (low.length > 0) return low.length === panels.length && low.length > 2 ? `${label} is low everywhere` : panels.length === 1 ? `${label} is low` : `${label} is low on ${list(low)}`;
  if (high.length === standing.length) return `${label} is above the range to stay in`;
  return high.length > 0 ? `${label} is in range or, on ${list(high)}, above it` : `${label} is in the range to stay in`;
};

const caption = (panels: readonly TrendPanel[]): string => {
  const reasons = [...new Set(panels.flatMap((p) => p.breaks.map((b) => b.because)))];
  const parts = [
    ...reasons.map((because) => `The double rule marks where ${because}: values on its two sides are not comparable and are not joined.`),
    panels.some((p) => p.others.length > 0) && "A cross is a reading of the other season; pH and potassium move with the season, so it is not joined to the line.",
    panels.some((p) => p.segments.some((s) => s.points.some((q) => q.bags.length > 0))) && "Open marks are duplicate bags of one day; the line runs through their mean.",
    panels.some((p) => p.segments.some((s) => s.bands.length > 0)) && "The ground shows the classes of the guideline for the next crop, where it reads the method.",
  ];
  return parts.filter(Boolean).join(" ");
};

/** The class of a band's ground: below, within or above the range. */
export const bandCss = (b: Band): "low" | "ok" | "high" => (b.position === "below" ? "low" : b.position === "above" ? "high" : "ok");

/** From which year to which a segment's bands hold: up to the break on either side of it, else to the end of the axis. */
export const segmentSpan = (model: Pick<TrendModel, "x">, { segments, breaks }: TrendPanel, index: number): { from: number; to: number } => {
  const { points } = segments[index]!;
  return {
    from: breaks.findLast((b) => b.x < points[0]!.x)?.x ?? model.x.from,
    to: breaks.find((b) => b.x > points.at(-1)!.x)?.x ?? model.x.to,
  };
};
