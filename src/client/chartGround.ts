import type { Plugin } from "chart.js";
import type { ChartData, ChartPoint } from "../views/trends/chartData.ts";

/** A color or a typeface of the page. */
export const token = (name: string): string => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

/** A bag of a pair has no label of its own. */
export type Point = ChartPoint | { x: number; y: number; label: ""; date: "" };

/** How many times as large as the drawn figure the canvas is: lengths and type grow and shrink together, as they do there. */
export const scaleOf = (chart: { width: number }, { size }: ChartData): number => chart.width / size.width;

const alignOf = { start: "left", middle: "center", end: "right" } as const;

/** Rating bands and their names, breaks as two rules through the plot, lime as a flag, values printed at the points. */
export const ground = (panel: ChartData["panels"][number], data: ChartData): Plugin<"line"> => ({
  id: "ground",
  beforeDatasetsDraw: (chart) => {
    const { ctx, chartArea: area, scales } = chart;
    const { x, y } = scales;
    if (!x || !y) return;
    const k = scaleOf(chart, data);
    ctx.save();
    ctx.font = `${11.5 * k}px ${token("--sans")}`;
    for (const [from, to, css, name, start, end] of panel.bands) {
      const left = start === data.x.from ? area.left : x.getPixelForValue(start);
      const right = end === data.x.to ? area.right : x.getPixelForValue(end);
      const top = y.getPixelForValue(to);
      const bottom = y.getPixelForValue(from);
      ctx.fillStyle = token(`--band-${css}`);
      ctx.fillRect(left, top, right - left, bottom - top);
      ctx.fillStyle = token("--ink-3");
      const lines = name.split("\n");
      if (bottom - top >= k * (12 * lines.length - 2))
        lines.forEach((text, i) =>
          ctx.fillText(text, area.right + 6 * k, (top + bottom) / 2 + k * (4 + 12 * (i - (lines.length - 1) / 2))),
        );
    }
    ctx.strokeStyle = token("--ink");
    ctx.fillStyle = token("--ink-2");
    for (const [at, before, after] of panel.breaks) {
      const px = x.getPixelForValue(at);
      ctx.save();
      ctx.fillStyle = token("--sheet");
      ctx.fillRect(px - 2 * k, area.top - 18 * k, 4 * k, area.bottom - area.top + 18 * k);
      ctx.restore();
      for (const side of [-2.5, 2.5]) line(ctx, px + side * k, area.top - 20 * k, area.bottom);
      ctx.textAlign = "right";
      ctx.fillText(before, px - 7 * k, area.top - 10 * k);
      ctx.textAlign = "left";
      ctx.fillText(after, px + 7 * k, area.top - 10 * k);
    }
    ctx.strokeStyle = token("--ink-3");
    for (const [at, label, above, anchor] of panel.events) {
      const px = x.getPixelForValue(at);
      line(ctx, px, area.top - 6 * k, area.bottom);
      ctx.textAlign = alignOf[anchor];
      ctx.fillText(label, px, area.top - above * k);
      ctx.save();
      ctx.fillStyle = token("--ink");
      ctx.beginPath();
      ctx.moveTo(px - 4 * k, area.top - 6 * k);
      ctx.lineTo(px + 4 * k, area.top - 6 * k);
      ctx.lineTo(px, area.top);
      ctx.fill();
      ctx.restore();
    }
    ctx.restore();
  },
  afterDatasetsDraw: (chart) => {
    const { ctx, data: drawn } = chart;
    const k = scaleOf(chart, data);
    ctx.save();
    ctx.font = `600 ${11.5 * k}px ${token("--sans")}`;
    ctx.lineWidth = 3 * k;
    ctx.lineJoin = "round";
    ctx.strokeStyle = token("--sheet");
    ctx.fillStyle = token("--ink");
    drawn.datasets.forEach((dataset, i) => {
      chart.getDatasetMeta(i).data.forEach((element, j) => {
        const p = dataset.data[j] as unknown as Point;
        if (!("anchor" in p) || p.anchor === "") return;
        ctx.textAlign = alignOf[p.anchor];
        ctx.strokeText(p.label, element.x + p.dx * k, element.y + p.dy * k);
        ctx.fillText(p.label, element.x + p.dx * k, element.y + p.dy * k);
      });
    });
    ctx.restore();
  },
});

/** The area around a line that noise alone may have carried its results over. */
export const noise = (panel: ChartData["panels"][number], data: ChartData, color: string): Plugin<"line"> => ({
  id: "noise",
  beforeDatasetsDraw: (chart) => {
    const { x, y } = chart.scales;
    if (!x || !y) return;
    const { ctx } = chart;
    const lone = data.size.lone * scaleOf(chart, data);
    ctx.save();
    ctx.fillStyle = color;
    ctx.globalAlpha = 0.16;
    for (const { points } of panel.segments) {
      if (points.some((p) => p.reach === undefined)) continue;
      const wide =
        points.length > 1
          ? points.map((p) => ({ p, px: x.getPixelForValue(p.x) }))
          : points.flatMap((p) => [-lone, lone].map((dx) => ({ p, px: x.getPixelForValue(p.x) + dx })));
      const side =
        (sign: 1 | -1) =>
        (at: (typeof wide)[number]): void =>
          ctx.lineTo(at.px, y.getPixelForValue(Math.min(y.max, Math.max(y.min, at.p.y + sign * at.p.reach!))));
      ctx.beginPath();
      wide.forEach(side(1));
      wide.toReversed().forEach(side(-1));
      ctx.closePath();
      ctx.fill();
    }
    ctx.restore();
  },
});

const line = (ctx: CanvasRenderingContext2D, x: number, top: number, bottom: number): void => {
  ctx.lineWidth = 1.1;
  ctx.beginPath();
  ctx.moveTo(x, top);
  ctx.lineTo(x, bottom);
  ctx.stroke();
};
