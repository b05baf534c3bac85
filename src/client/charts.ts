import { Chart, type ChartDataset, type Plugin, LinearScale, LineController, LineElement, PointElement, Tooltip } from "chart.js";
import type { ChartData, ChartPoint } from "../views/chartData.ts";

Chart.register(LinearScale, LineController, LineElement, PointElement, Tooltip);

/**
 * On screen, a canvas takes the drawn figure's place so that values can be read by pointing at them. The figure stays
 * in the page for print, and for readers without a script; the same rows stand in the table below.
 */
const token = (name: string): string => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

const looks: Record<string, { color: string; dash: number[]; point: "circle" | "rect" | "triangle" }> = {
  A: { color: "--d-a", dash: [], point: "circle" },
  B: { color: "--d-b", dash: [7, 3], point: "rect" },
  C: { color: "--d-c", dash: [2.5, 2.5], point: "triangle" },
};

/** A bag of a pair has no label of its own. */
type Point = ChartPoint | { x: number; y: number; label: ""; date: "" };

/** How many times as large as the drawn figure the canvas is: lengths and type grow and shrink together, as they do there. */
const scaleOf = (chart: { width: number }, { size }: ChartData): number => chart.width / size.width;

const alignOf = { start: "left", middle: "center", end: "right" } as const;

const months = ["Jan", "Feb", "Mar", "Apr", "May", "June", "July", "Aug", "Sept", "Oct", "Nov", "Dec"];
const shortDate = (date: string): string => `${Number(date.slice(8))} ${months[Number(date.slice(5, 7)) - 1] ?? ""} ${date.slice(0, 4)}`;

/** Rating bands and their names, breaks as two rules through the plot, lime as a flag, values printed at the points. */
const ground = (panel: ChartData["panels"][number], data: ChartData): Plugin<"line"> => ({
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
      if (bottom - top >= k * (12 * lines.length - 2)) lines.forEach((text, i) => ctx.fillText(text, area.right + 6 * k, (top + bottom) / 2 + k * (4 + 12 * (i - (lines.length - 1) / 2))));
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
    for (const [at, label] of panel.events) {
      const px = x.getPixelForValue(at);
      line(ctx, px, area.top - 6 * k, area.bottom);
      ctx.textAlign = px < area.left + 60 * k ? "left" : px > area.right - 60 * k ? "right" : "center";
      ctx.fillText(label, px, area.top - 12 * k);
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
        if (p.label === "" || !("anchor" in p)) return;
        ctx.textAlign = alignOf[p.anchor];
        ctx.strokeText(p.label, element.x + p.dx * k, element.y + p.dy * k);
        ctx.fillText(p.label, element.x + p.dx * k, element.y + p.dy * k);
      });
    });
    ctx.restore();
  },
});

/** The area around a line that noise alone may have carried its results over. */
const noise = (panel: ChartData["panels"][number], color: string): Plugin<"line"> => ({
  id: "noise",
  beforeDatasetsDraw: ({ ctx, scales: { x, y } }) => {
    if (!x || !y) return;
    ctx.save();
    ctx.fillStyle = color;
    ctx.globalAlpha = 0.16;
    for (const { points } of panel.segments) {
      if (points.some((p) => p.reach === undefined)) continue;
      const wide = points.length > 1 ? points.map((p) => ({ p, px: x.getPixelForValue(p.x) })) : points.flatMap((p) => [-5, 5].map((dx) => ({ p, px: x.getPixelForValue(p.x) + dx })));
      const side = (sign: 1 | -1) => (at: (typeof wide)[number]): void => ctx.lineTo(at.px, y.getPixelForValue(Math.min(y.max, Math.max(y.min, at.p.y + sign * at.p.reach!))));
      ctx.beginPath();
      wide.forEach(side(1));
      wide.toReversed().forEach(side(-1));
      ctx.closePath();
      ctx.fill();
    }
    ctx.restore();
  },
});

/** The ticks of the drawn figure, not a second opinion. */
const fixTicks =
  (ticks: readonly number[]) =>
  (axis: { ticks: { value: number }[] }): void => {
    axis.ticks = ticks.map((value) => ({ value }));
  };

const line = (ctx: CanvasRenderingContext2D, x: number, top: number, bottom: number): void => {
  ctx.lineWidth = 1.1;
  ctx.beginPath();
  ctx.moveTo(x, top);
  ctx.lineTo(x, bottom);
  ctx.stroke();
};

const draw = (figure: HTMLElement, data: ChartData): Chart[] =>
  data.panels.flatMap((panel, i) => {
    const plot = figure.querySelector<HTMLElement>(`[data-panel="${i}"]`);
    const svg = plot?.querySelector("svg");
    if (!plot || !svg) return [];
    const look = looks[panel.letter] ?? looks["A"]!;
    const color = token(look.color);
    const lines = panel.segments.map((s): ChartDataset<"line", Point[]> => ({
      label: s.method,
      data: [...s.points],
      borderColor: color,
      backgroundColor: color,
      borderDash: look.dash,
      borderWidth: 2.2,
      pointStyle: look.point,
      pointBorderColor: token("--sheet"),
      pointBorderWidth: 1.2,
      // A mean stands where its two bags are drawn, and is still found by the pointer.
      pointRadius: s.points.map((p) => (p.open ? 0 : 5)),
      pointHoverRadius: 6,
    }));
    const others: ChartDataset<"line", Point[]> = {
      label: "other season",
      data: [...panel.others],
      showLine: false,
      borderColor: token("--ink"),
      pointStyle: "crossRot",
      pointRadius: 4.5,
      pointBorderWidth: 1.6,
    };
    const bags: ChartDataset<"line", Point[]> = {
      label: "one of two bags",
      data: panel.bags.map(([x, y]) => ({ x, y, label: "", date: "" })),
      showLine: false,
      borderColor: color,
      backgroundColor: token("--sheet"),
      pointStyle: look.point,
      pointRadius: 4,
      pointHitRadius: 0,
      pointHoverRadius: 4,
    };
    const canvas = document.createElement("canvas");
    canvas.setAttribute("role", "img");
    canvas.setAttribute("aria-label", svg.getAttribute("aria-label") ?? panel.name);
    const box = document.createElement("div");
    box.className = "live";
    box.append(canvas);
    plot.append(box);
    plot.classList.add("is-live");
    const { size } = data;
    const edge = ((data.x.to - data.x.from) * size.inset) / (size.right - size.left - 2 * size.inset);
    const text = { color: token("--ink-3"), font: (at: { chart: Chart }) => ({ family: token("--sans"), size: 11.5 * scaleOf(at.chart, data) }) };
    const scaled = (length: number) => (axis: { chart: Chart }) => length * scaleOf(axis.chart, data);
    return [
      new Chart(canvas, {
        type: "line",
        data: { datasets: [...lines, others, bags].filter((set) => set.data.length > 0) },
        plugins: [ground(panel, data), noise(panel, color)],
        options: {
          animation: false,
          clip: false,
          parsing: false,
          maintainAspectRatio: false,
          layout: { autoPadding: false, padding: (at: { chart: Chart }) => ({ top: scaled(size.top)(at), right: scaled(size.width - size.right)(at), bottom: 0, left: 0 }) },
          interaction: { mode: "nearest", intersect: false },
          scales: {
            x: { type: "linear", min: data.x.from - edge, max: data.x.to + edge, afterBuildTicks: fixTicks(data.x.ticks), afterFit: (axis) => void (axis.height = scaled(size.height - size.bottom)(axis)), grid: { display: false }, ticks: { autoSkip: false, maxRotation: 0, callback: String, ...text } },
            y: { min: data.y.from, max: data.y.to, afterBuildTicks: fixTicks(data.y.ticks), afterFit: (axis) => void (axis.width = scaled(size.left)(axis)), grid: { color: token("--rule"), tickLength: 0 }, ticks: { autoSkip: false, padding: 6, callback: (_, i) => data.y.texts[i] ?? "", ...text } },
          },
          plugins: {
            tooltip: {
              filter: (item) => (item.raw as Point).date !== "",
              displayColors: false,
              callbacks: {
                title: (items) => items.map((item) => shortDate((item.raw as Point).date)).join(", "),
                label: (item) => `${(item.raw as Point).label}, ${item.dataset.label ?? ""}`,
              },
            },
          },
        },
      }),
    ];
  });

const figures = [...document.querySelectorAll<HTMLElement>("figure[data-trend]")];
let charts: Chart[] = [];

const drawAll = (): void => {
  charts.forEach((chart) => chart.destroy());
  document.querySelectorAll(".plot .live").forEach((box) => box.remove());
  charts = figures.flatMap((figure) => {
    const source = figure.querySelector(".chart-data")?.textContent;
    return source ? draw(figure, JSON.parse(source) as ChartData) : [];
  });
};

drawAll();
matchMedia("(prefers-color-scheme: dark)").addEventListener("change", drawAll);
