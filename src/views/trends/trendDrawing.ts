import { show } from "../../interpretation/show.ts";
import type { Band } from "../../interpretation/rules/bands.ts";
import { bandNameLine, bandNameLines } from "./bandNameLines.ts";
import type { Label } from "./labels.ts";
import { placeLabels } from "./labels.ts";
import type { TrendModel } from "./trend.ts";
import { tickDecimals } from "./trend.ts";
import { bandCss, newestSegment, segmentSpan } from "./trendBands.ts";
import type { TrendPanel, TrendPoint } from "./trendPanel.ts";

/** A panel in pixels: nothing left for a component but to write it down. */
export interface PanelDrawing {
  readonly width: number;
  readonly height: number;
  readonly plot: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly bands: readonly { x: number; width: number; y: number; height: number; css: string }[];
  readonly bandNames: readonly { y: number; text: string }[];
  readonly xTicks: readonly { x: number; text: string }[];
  readonly yTicks: readonly { y: number; text: string }[];
  /** Where noise alone may have carried the results: an area around each line. */
  readonly noise: readonly string[];
  readonly lines: readonly string[];
  readonly points: readonly { x: number; y: number; open: boolean }[];
  readonly bags: readonly { x: number; y: number }[];
  readonly crosses: readonly { x: number; y: number }[];
  /** The values of points and crosses, where they cover neither a mark nor one another; empty where there is no room. */
  readonly labels: readonly Label[];
  readonly breaks: readonly { x: number; left: string; right: string }[];
  /** `y` is the baseline of the text; none where it has no room. */
  readonly events: readonly { x: number; y: number; text: string; anchor: "start" | "middle" | "end" }[];
}

/** The panel, and the plot within it, in pixels. The chart on screen takes the same, so that no label stands otherwise there. */
export const panelSize = { width: 320, height: 236 } as const;
export const plot = { left: 42, right: 248, top: 34, bottom: 208 } as const;

/** Room at both ends for half a label, so that the last value does not run into the names of the classes. */
export const inset = 14;

/** The two bags of a pair stand this far to the left and right of their day. */
export const bagShift = 3;

const round = (n: number): number => Math.round(n * 10) / 10;

/** Breaks nearer than this have no room for both their labels between them: then neither is printed there, and the caption tells. */
const labelRoom = 150;

const apartLabels = (breaks: PanelDrawing["breaks"]): PanelDrawing["breaks"] =>
  breaks.map((b, i) => {
    const [before, after] = [breaks[i - 1], breaks[i + 1]];
    return { x: b.x, left: before && b.x - before.x < labelRoom ? "" : b.left, right: after && after.x - b.x < labelRoom ? "" : b.right };
  });

type Span = readonly [left: number, right: number];
const meets = ([a, b]: Span, [c, d]: Span): boolean => a < d && c < b;
const wide = (text: string): number => text.length * 5.8;

/** Over their flags, or in a row above that where the words of a break or of another flag stand there; without words where both are taken. */
const placeEvents = (events: readonly { x: number; text: string }[], breaks: PanelDrawing["breaks"]): PanelDrawing["events"] => {
  const low = breaks.flatMap((b): Span[] => [
    [b.x - 4, b.x + 4],
    ...(b.left === "" ? [] : [[b.x - 7 - wide(b.left), b.x - 7] as const]),
    ...(b.right === "" ? [] : [[b.x + 7, b.x + 7 + wide(b.right)] as const]),
  ]);
  const rows = [
    { y: plot.top - 12, taken: low },
    { y: plot.top - 24, taken: [] as Span[] },
  ];
  return events.map(({ x, text }) => {
    const anchor = x < plot.left + 60 ? "start" : x > plot.right - 60 ? "end" : "middle";
    const left = anchor === "start" ? x : anchor === "end" ? x - wide(text) : x - wide(text) / 2;
    const span: Span = [left, left + wide(text)];
    const row = rows.find(({ taken }) => !taken.some((other) => meets(span, other)));
    row?.taken.push(span);
    return { x, y: (row ?? rows[0]!).y, text: row ? text : "", anchor };
  });
};

/** Lay a panel out. */
export const drawPanel = (model: TrendModel, panel: TrendPanel): PanelDrawing => {
  const x = (year: number): number =>
    round(plot.left + inset + ((year - model.x.from) / (model.x.to - model.x.from)) * (plot.right - plot.left - 2 * inset));
  const y = (value: number): number =>
    round(plot.bottom - ((value - model.y.from) / (model.y.to - model.y.from)) * (plot.bottom - plot.top));
  const at = (p: TrendPoint): { x: number; y: number } => ({ x: x(p.x), y: y(p.y) });
  const clamp = (value: number): number => Math.min(model.y.to, Math.max(model.y.from, value));
  const decimals = tickDecimals(model.analyte, model.y);
  // Bands fill the plot to its edge where no break stops them.
  const spans = panel.segments.map((_, i) => {
    const { from, to } = segmentSpan(model, panel, i);
    return { from: from === model.x.from ? plot.left : x(from), to: to === model.x.to ? plot.right : x(to) };
  });
  const points = panel.segments.flatMap((s) => s.points);
  const breaks = apartLabels(panel.breaks.map((b) => ({ x: x(b.x), left: b.left, right: b.right })));
  const bags = points.flatMap((p) => p.bags.map((value, i) => ({ x: round(x(p.x) + (i % 2 === 0 ? -bagShift : bagShift)), y: y(value) })));
  return {
    ...panelSize,
    plot,
    bands: panel.segments.flatMap((s, i) =>
      bandBoxes(s.bands, model, y).map((b) => ({ ...b, x: spans[i]!.from, width: round(spans[i]!.to - spans[i]!.from) })),
    ),
    bandNames: bandBoxes(newestSegment(panel)?.bands ?? [], model, y)
      .map((b) => ({ ...b, lines: bandNameLines(b.name) }))
      .filter((b) => b.height >= bandNameLine * b.lines.length - 2)
      .flatMap((b) =>
        b.lines.map((text, i) => ({ y: round(b.y + b.height / 2 + 4 + bandNameLine * (i - (b.lines.length - 1) / 2)), text })),
      ),
    xTicks: model.x.ticks.map((year) => ({ x: x(year), text: String(year) })),
    yTicks: model.y.ticks.map((value) => ({
      y: y(value),
      text: show(value, model.y.ticks.every((t) => Number.isInteger(t)) ? 0 : decimals),
    })),
    noise: panel.segments.flatMap((s) =>
      ribbon(
        s.points.map((p) => ({ ...at(p), high: y(clamp(p.y + (p.reach ?? 0))), low: y(clamp(p.y - (p.reach ?? 0))) })),
        s.points.every((p) => p.reach !== undefined),
      ),
    ),
    lines: panel.segments.filter((s) => s.points.length > 1).map((s) => `M${s.points.map((p) => `${at(p).x} ${at(p).y}`).join("L")}`),
    points: points.map((p) => ({ ...at(p), open: p.bags.length > 0 })),
    bags,
    crosses: panel.others.map(at),
    labels: placeLabels(
      // A mean has its value above the upper of its bags.
      [...points, ...panel.others].map((p) => ({ x: x(p.x), y: y(Math.max(p.y, ...p.bags)), text: p.label })),
      plot,
      bags,
    ),
    breaks,
    events: placeEvents(
      panel.events.map((e) => ({ x: x(e.x), text: e.label })),
      breaks,
    ),
  };
};

/** A single result has its noise as a bar of a few pixels: so far to the left and right of its day. */
export const lonePoint = 5;

const ribbon = (points: readonly { x: number; high: number; low: number }[], known: boolean): string[] => {
  if (!known || points.length === 0) return [];
  const [lone] = points;
  const wide =
    points.length > 1
      ? points
      : [
          { ...lone!, x: lone!.x - lonePoint },
          { ...lone!, x: lone!.x + lonePoint },
        ];
  return [`M${[...wide.map((p) => `${p.x} ${p.high}`), ...wide.toReversed().map((p) => `${p.x} ${p.low}`)].join("L")}Z`];
};

const bandBoxes = (
  bands: readonly Band[],
  model: TrendModel,
  y: (value: number) => number,
): { y: number; height: number; css: string; name: string }[] =>
  bands.flatMap((b, i) => {
    const from = Math.max(b.from ?? b.above ?? -Infinity, model.y.from);
    const next = bands[i + 1];
    const to = Math.min(next?.from ?? next?.above ?? Infinity, model.y.to);
    if (to <= from) return [];
    return [{ y: y(to), height: round(y(from) - y(to)), css: `b-${bandCss(b)}`, name: b.name }];
  });
