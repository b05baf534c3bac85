import { bandNameLines } from "./bandNameLines.ts";
import type { TrendModel } from "./trend.ts";
import { bandCss, newestSegment, segmentSpan } from "./trendBands.ts";
import type { TrendPanel } from "./trendPanel.ts";
import type { PanelDrawing } from "./trendDrawing.ts";
import { bagShift, inset, lonePoint, panelSize, plot } from "./trendDrawing.ts";

/** Value, its text and its day, and where the text stands beside the mark, in pixels. */
export interface ChartPoint {
  readonly x: number;
  readonly y: number;
  readonly label: string;
  readonly date: string;
  readonly dx: number;
  readonly dy: number;
  /** Empty where the text has no room: it is told where the pointer is, and in the table. */
  readonly anchor: "start" | "middle" | "end" | "";
  /** How far noise reaches either way; absent where it is not known. */
  readonly reach: number | undefined;
  /** The mean of two bags, which stand in its place. */
  readonly open: boolean;
}

/** What the script needs to draw a trend for reading values: the model the SVG is drawn from, without its sentences. */
export interface ChartData {
  /** The panel and the plot in it, in pixels of the drawn figure; the screen scales both. */
  readonly size: {
    readonly width: number;
    readonly height: number;
    readonly left: number;
    readonly right: number;
    readonly top: number;
    readonly bottom: number;
    readonly inset: number;
    /** How far the noise of a single result goes to either side. */
    readonly lone: number;
  };
  readonly x: { from: number; to: number; ticks: readonly number[] };
  readonly y: { from: number; to: number; ticks: readonly number[]; texts: readonly string[] };
  readonly panels: readonly {
    readonly letter: string;
    readonly name: string;
    readonly segments: readonly { readonly method: string; readonly points: readonly ChartPoint[] }[];
    readonly others: readonly ChartPoint[];
    readonly bags: readonly (readonly [number, number])[];
    /** [value from, value to, class, name in lines, x from, x to] */
    readonly bands: readonly (readonly [number, number, string, string, number, number])[];
    /** [x, what is on its left, what on its right] */
    readonly breaks: readonly (readonly [number, string, string])[];
    /** [x, what was done, how far its baseline is above the plot, where the text begins] */
    readonly events: readonly (readonly [number, string, number, "start" | "middle" | "end"])[];
  }[];
}

const yearsAPixel = ({ x }: TrendModel): number => (x.to - x.from) / (plot.right - plot.left - 2 * inset);

const finite = (n: number, model: TrendModel): number => Math.min(model.y.to, Math.max(model.y.from, n));

/** The panel's points and then its crosses, each with the place its label has in the drawn figure. */
const chartPoints = (panel: TrendPanel, drawing: PanelDrawing): ChartPoint[] => {
  const marks = [...drawing.points, ...drawing.crosses];
  return [...panel.segments.flatMap((s) => s.points), ...panel.others].map(({ x, y, label, date, reach, bags }, i) => {
    const [mark, text] = [marks[i]!, drawing.labels[i]!];
    return {
      x,
      y,
      label,
      date,
      reach: reach === undefined ? undefined : Number(reach.toPrecision(3)),
      dx: Math.round(text.x - mark.x),
      dy: Math.round(text.y - mark.y),
      anchor: text.text === "" ? "" : text.anchor,
      open: bags.length > 0,
    };
  });
};

/** `drawings`: the model's panels as they are drawn. */
export const chartModel = (model: TrendModel, drawings: readonly PanelDrawing[]): ChartData => ({
  size: { ...panelSize, ...plot, inset, lone: lonePoint },
  x: model.x,
  y: { ...model.y, texts: drawings[0]!.yTicks.map((t) => t.text) },
  panels: model.panels.map((p, at) => {
    const drawing = drawings[at]!;
    const points = chartPoints(p, drawing);
    let drawn = 0;
    return {
      letter: p.zone.letter,
      name: p.zone.name,
      segments: p.segments.map((s) => ({ method: s.method, points: points.slice(drawn, (drawn += s.points.length)) })),
      others: points.slice(drawn),
      bags: p.segments.flatMap((s) =>
        s.points.flatMap((q) => q.bags.map((value, i) => [q.x + (i % 2 === 0 ? -1 : 1) * bagShift * yearsAPixel(model), value] as const)),
      ),
      bands: p.segments.flatMap((s, i) => {
        const span = segmentSpan(model, p, i);
        return s.bands.flatMap((b, j) => {
          const next = s.bands[j + 1];
          const from = finite(b.from ?? b.above ?? -Infinity, model);
          const to = finite(next?.from ?? next?.above ?? Infinity, model);
          return to > from
            ? [[from, to, bandCss(b), s === newestSegment(p) ? bandNameLines(b.name).join("\n") : "", span.from, span.to] as const]
            : [];
        });
      }),
      breaks: p.breaks.map((b, i) => [b.x, drawing.breaks[i]!.left, drawing.breaks[i]!.right] as const),
      events: p.events.map((e, i) => [e.x, drawing.events[i]!.text, plot.top - drawing.events[i]!.y, drawing.events[i]!.anchor] as const),
    };
  }),
});

/** JSON that is safe inside a script element: a `<` in a name cannot close it. */
export const chartData = (model: TrendModel, drawings: readonly PanelDrawing[]): string =>
  JSON.stringify(chartModel(model, drawings)).replace(/</g, "\\u003c");
