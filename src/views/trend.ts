import { rate } from "../interpretation/rating.ts";
import type { Measurement } from "../interpretation/measurement.ts";
import { methodLabel, numberLabel } from "../interpretation/measurement.ts";
import type { Band } from "../interpretation/rules/bands.ts";
import type { AnalyteId, SoilTestUnit } from "../interpretation/vocabulary.ts";
import { analytes } from "../interpretation/vocabulary.ts";
import { show } from "../interpretation/show.ts";
import { factorFor } from "../interpretation/statistics/change.ts";
import { sdAt } from "../interpretation/statistics/noise.ts";
import type { Farm, Field, Zone } from "../records/model.ts";
import type { Axis } from "./axis.ts";
import { axis, niceStep, yearAxis } from "./axis.ts";
import type { ComparableHistory } from "./history.ts";
import { zoneHistory } from "./history.ts";
import type { ZoneAdvice } from "./sample.ts";
import { careOf } from "./samplingQuality.ts";
import type { TrendBreak } from "./trendBreaks.ts";
import { breaksOf } from "./trendBreaks.ts";
import { judgedSeries, seasonSeries } from "./trendSeries.ts";
import type { TrendVerdict } from "./trendVerdict.ts";
import { edgesOf, noiseSource, trendVerdict } from "./trendVerdict.ts";
import { caption, finding } from "./trendCaption.ts";
import { decimalYear, monthYear } from "./words.ts";

export interface TrendPoint {
  /** Years, with the share of the year gone by. */
  readonly x: number;
  readonly y: number;
  readonly label: string;
  readonly date: string;
  /** The bags a mean was taken of; empty for a single bag. */
  readonly bags: readonly number[];
  /** How far noise alone carries a result either way, nineteen times in twenty; absent where it is not known. */
  readonly reach: number | undefined;
}

/** Points that may be compared with one another, joined by a line, on the bands that hold for their method. */
export interface TrendSegment {
  readonly method: string;
  readonly points: readonly TrendPoint[];
  readonly bands: readonly Band[];
}

export interface TrendPanel {
  readonly zone: Zone;
  readonly verdict: TrendVerdict;
  /** Where the noise that is drawn comes from, a clause for each source. */
  readonly noise: readonly string[];
  readonly segments: readonly TrendSegment[];
  /** Readings of the other season: shown, never joined. */
  readonly others: readonly TrendPoint[];
  readonly breaks: readonly TrendBreak[];
  /** Results that run beside the line, taken otherwise, and so are joined to nothing of it. */
  readonly apart: readonly string[];
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
  readonly x: Axis;
  readonly y: Axis;
}

const point =
  ({ noise }: Pick<ComparableHistory, "noise">) =>
  (m: Measurement): TrendPoint => {
    const bags = m.bags?.map((b) => b.value) ?? [];
    return {
      x: decimalYear(m.date),
      y: m.value,
      label: numberLabel(m),
      date: m.date,
      bags,
      // A mean of several bags strays less than one bag.
      reach: noise.kind === "answer" && !m.qualifier ? (factorFor(noise.value, 0.975) * sdAt(noise.value, m.value)) / Math.sqrt(Math.max(1, bags.length)) : undefined,
    };
  };

const panel = (farm: Farm, field: Field, zone: Zone, analyte: AnalyteId, advice: ZoneAdvice | undefined): TrendPanel | undefined => {
  const histories = zoneHistory(farm, field, zone, analyte);
  const all = histories.flatMap((h) => h.measurements);
  if (all.length === 0) return undefined;
  const { line: series, beside } = seasonSeries(histories, analyte);
  const segments = series.map(({ measurements, noise }): TrendSegment => ({
    method: methodLabel(measurements[0]!),
    points: measurements.map(point({ noise })),
    bands: advice ? rate(advice.sample, measurements.at(-1)!).bands : [],
  }));
  const newest = judgedSeries(histories, analyte)!;
  const last = newest.measurements.at(-1)!;
  const parted = breaksOf(series.map((s) => s.measurements));
  return {
    zone,
    verdict: trendVerdict(newest, advice ? rate(advice.sample, last).bands : [], careAt(field, last)),
    noise: [...new Set(series.flatMap(({ noise }) => (noise.kind === "answer" ? noiseSource(noise.value) : [])))],
    segments,
    others: beside.flatMap((h) => h.measurements.map(point(h))),
    breaks: parted.breaks,
    apart: parted.beside,
    events: analyte === "pH" ? limings(field, zone) : [],
    units: [...new Set(all.map((m) => m.unit))],
  };
};

/** What to say of how the newest result was taken; results by different methods are not joined anyway. */
const careAt = (field: Field, last: Measurement): string | undefined => {
  const event = field.samplings.find((s) => s.file === last.origin.file);
  return event && careOf(field, event, [last.analyte]);
};

const limings = (field: Field, zone: Zone): { x: number; label: string }[] =>
  field.seasons
    .flatMap((s) => s.applications)
    .filter((a) => a.product.lime && a.zones.includes(zone.id))
    .map((a) => ({ x: decimalYear(a.date), label: `lime, ${show(a.rate.value, 1)} ${a.rate.unit}` }));

/** Edges that the axis must show: of classes that judge. Those that only describe a soil, from the most acid to the most alkaline, would press the results flat. */
const judged = (bands: readonly Band[]): number[] => (bands.some((b) => b.position) ? edgesOf(bands) : []);

/** Trends of one analyte over a field's zones on shared axes. `undefined` when no zone has a result. */
export const trendModel = (farm: Farm, field: Field, analyte: AnalyteId, advice: ReadonlyMap<string, ZoneAdvice>): TrendModel | undefined => {
  const panels = field.zones.flatMap((zone) => panel(farm, field, zone, analyte, advice.get(zone.id)) ?? []);
  if (panels.length === 0) return undefined;
  const points = panels.flatMap((p) => [...p.segments.flatMap((s) => s.points), ...p.others]);
  const values = [...points.flatMap((p) => [p.y - (p.reach ?? 0), p.y + (p.reach ?? 0), ...p.bags]), ...panels.flatMap((p) => p.segments.flatMap((s) => judged(s.bands)))];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const { decimals, unit: kind } = analytes[analyte];
  const room = Math.max((high - low) * 0.12, decimals === 0 ? 5 : 2 * 10 ** -decimals);
  const least = kind === "pH" ? low - room : Math.max(0, low - room);
  const y = axis(least, high + room, niceStep(high + room - least, 5));
  const x = yearAxis(Math.min(...points.map((p) => p.x)), Math.max(...points.map((p) => p.x)));
  const units = [...new Set(panels.flatMap((p) => p.units))].filter((each) => each !== "pH");
  const unit = units.length === 0 ? "" : `, ${units.join(" and ")}`;
  return {
    analyte,
    title: finding(analyte, panels, advice),
    subtitle: `${analytes[analyte].label}${unit}, ${spanWords(points)}. Axis from ${show(y.from, tickDecimals(analyte, y))} to ${show(y.to, tickDecimals(analyte, y))}.`,
    caption: caption(panels),
    panels,
    x,
    y,
  };
};

/** "2014 to October 2025", "April to October 2025", "October 2025" */
const spanWords = (points: readonly TrendPoint[]): string => {
  const dates = points.map((p) => p.date).sort();
  const [first, last] = [dates[0]!, dates.at(-1)!];
  if (monthYear(first) === monthYear(last)) return monthYear(last);
  return `${first.slice(0, 4) === last.slice(0, 4) ? monthYear(first).split(" ")[0]! : first.slice(0, 4)} to ${monthYear(last)}`;
};

/** As many decimals as the analyte has, or as its ticks need. */
export const tickDecimals = (analyte: AnalyteId, y: Axis): number =>
  [0, 1, 2, 3].find((n) => n >= (analytes[analyte].unit === "pH" ? 1 : 0) && y.ticks.every((t) => Math.abs(t * 10 ** n - Math.round(t * 10 ** n)) < 1e-6)) ?? 3;

/** The segment with the newest point: its classes are the ones named at the edge. */
export const newestSegment = ({ segments }: Pick<TrendPanel, "segments">): TrendSegment | undefined =>
  segments.reduce<TrendSegment | undefined>((best, s) => (best && best.points.at(-1)!.x >= s.points.at(-1)!.x ? best : s), undefined);

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
