import type { Band } from "../../interpretation/rules/bands.ts";
import { show } from "../../interpretation/show.ts";
import type { AnalyteId } from "../../interpretation/vocabulary.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { Axis } from "./axis.ts";
import { axis, niceStep, yearAxis } from "./axis.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { caption, finding } from "./trendCaption.ts";
import type { TrendPanel, TrendPoint } from "./trendPanel.ts";
import { trendPanel } from "./trendPanel.ts";
import { edgesOf } from "./trendVerdict.ts";
import { list, monthYear } from "../words.ts";
import { everyZone, zoneChanges, zoneChangeWords } from "../zonesThen.ts";

export interface TrendModel {
  readonly analyte: AnalyteId;
  readonly title: string;
  readonly subtitle: string;
  readonly caption: string;
  readonly panels: readonly TrendPanel[];
  readonly x: Axis;
  readonly y: Axis;
}

/** Edges that the axis must show: of classes that judge. Those that only describe a soil, from the most acid to the most alkaline, would press the results flat. */
const judged = (bands: readonly Band[]): number[] => (bands.some((b) => b.position) ? edgesOf(bands) : []);

/** Trends of one analyte over a field's zones on shared axes. `undefined` when no zone has a result. */
export const trendModel = (
  farm: Farm,
  field: Field,
  analyte: AnalyteId,
  advice: ReadonlyMap<string, ZoneAdvice>,
): TrendModel | undefined => {
  const panels = everyZone(field).flatMap((zone) => trendPanel(farm, field, zone, analyte, advice.get(zone.id)) ?? []);
  if (panels.length === 0) return undefined;
  const points = panels.flatMap((p) => [...p.segments.flatMap((s) => s.points), ...p.others]);
  const values = [
    ...points.flatMap((p) => [p.y - (p.reach ?? 0), p.y + (p.reach ?? 0), ...p.bags]),
    ...panels.flatMap((p) => p.segments.flatMap((s) => judged(s.bands))),
  ];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const { decimals, unit: kind } = analytes[analyte];
  const room = Math.max((high - low) * 0.12, decimals === 0 ? 5 : 2 * 10 ** -decimals);
  const least = kind === "pH" ? low - room : Math.max(0, low - room);
  const y = axis(least, high + room, niceStep(high + room - least, 5));
  const x = yearAxis(Math.min(...points.map((p) => p.x)), Math.max(...points.map((p) => p.x)));
  const units = [...new Set(panels.flatMap((p) => p.units))].filter((each) => each !== "pH");
  const unit = units.length === 0 ? "" : `, ${list(units)}`;
  return {
    analyte,
    title: finding(analyte, panels, advice),
    subtitle: `${analytes[analyte].label}${unit}, ${spanWords(points)}. Axis from ${show(y.from, tickDecimals(analyte, y))} to ${show(y.to, tickDecimals(analyte, y))}.`,
    caption: [caption(panels), zoneChangeWords(field), zoneChanges(field).length > 0 && "No line runs from a zone to one that followed it."]
      .filter(Boolean)
      .join(" "),
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
  [0, 1, 2, 3].find(
    (n) => n >= (analytes[analyte].unit === "pH" ? 1 : 0) && y.ticks.every((t) => Math.abs(t * 10 ** n - Math.round(t * 10 ** n)) < 1e-6),
  ) ?? 3;
