import { Chart, type ChartDataset, LinearScale, LineController, LineElement, PointElement, Tooltip } from "chart.js";
import type { ChartData } from "../views/trends/chartData.ts";
import { ground, noise, type Point, scaleOf, token } from "./chartGround.ts";

Chart.register(LinearScale, LineController, LineElement, PointElement, Tooltip);

const looks: Record<string, { color: string; dash: number[]; point: "circle" | "rect" | "triangle" }> = {
  A: { color: "--d-a", dash: [], point: "circle" },
  B: { color: "--d-b", dash: [7, 3], point: "rect" },
  C: { color: "--d-c", dash: [2.5, 2.5], point: "triangle" },
};

const months = ["Jan", "Feb", "Mar", "Apr", "May", "June", "July", "Aug", "Sept", "Oct", "Nov", "Dec"];
const shortDate = (date: string): string => `${Number(date.slice(8))} ${months[Number(date.slice(5, 7)) - 1] ?? ""} ${date.slice(0, 4)}`;

/** The ticks of the drawn figure, not a second opinion. */
const fixTicks =
  (ticks: readonly number[]) =>
  (axis: { ticks: { value: number }[] }): void => {
    axis.ticks = ticks.map((value) => ({ value }));
  };

/**
 * On screen, a canvas takes the drawn figure's place so that values can be read by pointing at them. The figure stays
 * in the page for print, and for readers without a script; the same rows stand in the table below.
 */
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
    const text = {
      color: token("--ink-3"),
      font: (at: { chart: Chart }) => ({ family: token("--sans"), size: 11.5 * scaleOf(at.chart, data) }),
    };
    const scaled = (length: number) => (axis: { chart: Chart }) => length * scaleOf(axis.chart, data);
    return [
      new Chart(canvas, {
        type: "line",
        data: { datasets: [...lines, others, bags].filter((set) => set.data.length > 0) },
        plugins: [ground(panel, data), noise(panel, data, color)],
        options: {
          animation: false,
          clip: false,
          parsing: false,
          maintainAspectRatio: false,
          layout: {
            autoPadding: false,
            padding: (at: { chart: Chart }) => ({
              top: scaled(size.top)(at),
              right: scaled(size.width - size.right)(at),
              bottom: 0,
              left: 0,
            }),
          },
          interaction: { mode: "nearest", intersect: false },
          scales: {
            x: {
              type: "linear",
              min: data.x.from - edge,
              max: data.x.to + edge,
              afterBuildTicks: fixTicks(data.x.ticks),
              afterFit: (axis) => void (axis.height = scaled(size.height - size.bottom)(axis)),
              grid: { display: false },
              ticks: { autoSkip: false, maxRotation: 0, callback: String, ...text },
            },
            y: {
              min: data.y.from,
              max: data.y.to,
              afterBuildTicks: fixTicks(data.y.ticks),
              afterFit: (axis) => void (axis.width = scaled(size.left)(axis)),
              grid: { color: token("--rule"), tickLength: 0 },
              ticks: { autoSkip: false, padding: 6, callback: (_, i) => data.y.texts[i] ?? "", ...text },
            },
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
