import type { TrendModel } from "./trend.ts";
import { bandCss, segmentSpan } from "./trend.ts";

/** What the script needs to draw a trend for reading values: the model the SVG is drawn from, without its sentences. */
export interface ChartData {
  readonly x: { from: number; to: number; ticks: readonly number[] };
  readonly y: { from: number; to: number; ticks: readonly number[] };
  readonly decimals: number;
  readonly panels: readonly {
    readonly letter: string;
    readonly name: string;
    /** [x, y, label, date] */
    readonly segments: readonly { readonly method: string; readonly points: readonly (readonly [number, number, string, string])[] }[];
    readonly others: readonly (readonly [number, number, string, string])[];
    readonly bags: readonly (readonly [number, number])[];
    /** [value from, value to, class, name, x from, x to] */
    readonly bands: readonly (readonly [number, number, string, string, number, number])[];
    /** [x, what is on its left, what on its right] */
    readonly breaks: readonly (readonly [number, string, string])[];
    readonly events: readonly (readonly [number, string])[];
  }[];
}

const finite = (n: number, model: TrendModel): number => Math.min(model.y.to, Math.max(model.y.from, n));

export const chartModel = (model: TrendModel): ChartData => ({
  x: model.x,
  y: model.y,
  decimals: model.analyte === "pH" ? 1 : 0,
  panels: model.panels.map((p) => ({
    letter: p.zone.letter,
    name: p.zone.name,
    segments: p.segments.map((s) => ({ method: s.method, points: s.points.map((q) => [q.x, q.y, q.label, q.date] as const) })),
    others: p.others.map((q) => [q.x, q.y, q.label, q.date] as const),
    bags: p.segments.flatMap((s) => s.points.flatMap((q) => q.bags.map((value) => [q.x, value] as const))),
    bands: p.segments.flatMap((s, i) => {
      const span = segmentSpan(model, p, i);
      return s.bands.flatMap((b, j) => {
        const next = s.bands[j + 1];
        const from = finite(b.from ?? b.above ?? -Infinity, model);
        const to = finite(next?.from ?? next?.above ?? Infinity, model);
        return to > from ? [[from, to, bandCss(b), i === p.segments.length - 1 ? b.name : "", span.from, span.to] as const] : [];
      });
    }),
    breaks: p.breaks.map((b) => [b.x, b.left, b.right] as const),
    events: p.events.map((e) => [e.x, e.label] as const),
  })),
});

/** JSON that is safe inside a script element: a `<` in a name cannot close it. */
export const chartData = (model: TrendModel): string => JSON.stringify(chartModel(model)).replace(/</g, "\\u003c");
