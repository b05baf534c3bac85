import type { Measurement } from "../../interpretation/measurement.ts";
import { methodLabel, numberLabel } from "../../interpretation/measurement.ts";
import { rate } from "../../interpretation/rating.ts";
import type { Band } from "../../interpretation/rules/bands.ts";
import { plain } from "../../interpretation/show.ts";
import { factorFor, sdOf } from "../../interpretation/statistics/change.ts";
import type { AnalyteId, SoilTestUnit } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import type { ComparableHistory } from "./history.ts";
import { zoneHistory } from "./history.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { careOf } from "../advice/samplingQuality.ts";
import { limings } from "./sinceLime.ts";
import type { TrendBreak } from "./trendBreaks.ts";
import { breaksOf } from "./trendBreaks.ts";
import { judgedSeries, seasonSeries } from "./trendSeries.ts";
import type { TrendVerdict } from "./trendVerdict.ts";
import { noiseSource, trendVerdict } from "./trendVerdict.ts";
import { decimalYear } from "../../interpretation/statistics/series.ts";

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
      reach: noise.kind === "answer" && !m.qualifier ? factorFor(noise.value, 0.975) * sdOf(m, noise.value) : undefined,
    };
  };

export const trendPanel = (
  farm: Farm,
  field: Field,
  zone: Zone,
  analyte: AnalyteId,
  advice: ZoneAdvice | undefined,
): TrendPanel | undefined => {
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
  const limes = analyte === "pH" ? limings(field, zone) : [];
  const parted = breaksOf(series.map((s) => s.measurements));
  return {
    zone,
    verdict: trendVerdict(newest, advice ? rate(advice.sample, last).bands : [], {
      care: careAt(field, last),
      today: decimalYear(farm.today),
      ended: field.formerZones.some((z) => z.id === zone.id),
      limes,
    }),
    noise: [
      ...new Set(
        series.flatMap(({ noise }, i) =>
          // A line with a bound on it, such as "< 5", is drawn without noise.
          noise.kind === "answer" && segments[i]!.points.every((p) => p.reach !== undefined) ? noiseSource(noise.value) : [],
        ),
      ),
    ],
    segments,
    others: beside.flatMap((h) => h.measurements.map(point(h))),
    breaks: parted.breaks,
    apart: parted.beside,
    events: limes.map((a) => ({ x: decimalYear(a.date), label: `lime, ${plain(a.rate.value, 1)} ${a.rate.unit}` })),
    units: [...new Set(all.map((m) => m.unit))],
  };
};

/** What to say of how the newest result was taken; results by different methods are not joined anyway. */
const careAt = (field: Field, last: Measurement): string | undefined => {
  const event = field.samplings.find((s) => s.file === last.origin.file);
  return event && careOf(field, event, [last.analyte]);
};
