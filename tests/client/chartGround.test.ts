import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import type { Chart } from "chart.js";
import { ground, noise } from "../../src/client/chartGround.ts";
import { chartModel } from "../../src/views/trends/chartData.ts";
import { drawPanel } from "../../src/views/trends/trendDrawing.ts";
import { model, panel } from "../support/drawnTrend.ts";

const drawing = drawPanel(model, panel);
const data = chartModel(model, [drawing]);
const [told] = data.panels;

beforeAll(() => {
  vi.stubGlobal("document", { documentElement: {} });
  vi.stubGlobal("getComputedStyle", () => ({ getPropertyValue: (name: string) => name }));
});
afterAll(() => vi.unstubAllGlobals());

type Plugin = ReturnType<typeof ground>;

/** What a plugin draws behind the lines, on a canvas `k` times as large as the drawn figure: in that figure's pixels. */
const behind = (k: number, plugin: Plugin) => {
  const drawn = { rects: [] as unknown[], texts: [] as unknown[], paths: [] as [number, number][][] };
  const to = (n: number): number => Math.round((n / k) * 10) / 10;
  const ctx = {
    fillStyle: "",
    strokeStyle: "",
    textAlign: "start",
    save: () => undefined,
    restore: () => undefined,
    beginPath: () => void drawn.paths.push([]),
    moveTo: (x: number, y: number) => void drawn.paths.at(-1)!.push([to(x), to(y)]),
    lineTo: (x: number, y: number) => void drawn.paths.at(-1)!.push([to(x), to(y)]),
    closePath: () => undefined,
    stroke: () => undefined,
    fill: () => undefined,
    fillRect(this: { fillStyle: string }, x: number, y: number, width: number, height: number) {
      drawn.rects.push([this.fillStyle, to(x), to(y), to(width), to(height)]);
    },
    fillText(this: { textAlign: string }, text: string, x: number, y: number) {
      if (text !== "") drawn.texts.push([this.textAlign, text, to(x), to(y)]);
    },
  };
  const chart = {
    ctx,
    width: 320 * k,
    chartArea: { left: 42 * k, right: 248 * k, top: 34 * k, bottom: 208 * k },
    // A year and a unit are a pixel each in the drawn figure.
    scales: { x: { getPixelForValue: (year: number) => (year - 1944) * k }, y: { getPixelForValue: (value: number) => (208 - value) * k, min: 0, max: 174 } },
  };
  void plugin.beforeDatasetsDraw!(chart as unknown as Chart<"line">, {} as never, {});
  return drawn;
};

/** The drawn figure, which a test of its own holds to figures worked by hand, is what the canvas takes the place of. */
describe.each([1, 0.75, 2])("the ground of a chart %d times as large as the drawn figure", (k) => {
  const drawn = () => behind(k, ground(told!, data));

  it("has the classes of the figure, and the gaps of its breaks", () => {
    expect(drawn().rects).toEqual([
      ...drawing.bands.map((b) => [b.css.replace("b-", "--band-"), b.x, b.y, b.width, b.height]),
      // From 18 px above the plot, which is from 34 to 208, as components/trendPanel.ts writes it.
      ...drawing.breaks.map((b) => ["--sheet", b.x - 2, 16, 4, 192]),
    ]);
  });

  it("has its words where the figure has them", () => {
    const align = { start: "left", middle: "center", end: "right" } as const;
    expect(drawn().texts).toEqual([
      ...drawing.bandNames.map((b) => ["start", b.text, 254, b.y]),
      ...drawing.breaks.flatMap((b) => [["right", b.left, b.x - 7, 24], ["left", b.right, b.x + 7, 24]]).filter(([, text]) => text !== ""),
      ...drawing.events.filter((e) => e.text !== "").map((e) => [align[e.anchor], e.text, e.x, e.y]),
    ]);
  });

  it("has its rules at the breaks, and a flag at each liming", () => {
    expect(drawn().paths).toEqual([
      ...drawing.breaks.flatMap(({ x }) => [-2.5, 2.5].map((side) => [[x + side, 14], [x + side, 208]])),
      ...drawing.events.flatMap(({ x }) => [[[x, 28], [x, 208]], [[x - 4, 28], [x + 4, 28], [x, 34]]]),
    ]);
  });

  it("has the noise of the figure, also around a single result", () => {
    const ribbons = drawing.noise.map((path) => path.slice(1, -1).split("L").map((point) => point.split(" ").map(Number)));
    expect(behind(k, noise(told!, data, "--d-a")).paths).toEqual(ribbons);
  });
});
