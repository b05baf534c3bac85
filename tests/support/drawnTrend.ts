import type { Band } from "../../src/interpretation/rules/bands.ts";
import type { TrendModel } from "../../src/views/trends/trend.ts";
import type { TrendPanel, TrendPoint } from "../../src/views/trends/trendPanel.ts";

const at = (x: number, y: number, reach?: number, bags: number[] = []): TrendPoint => ({ x, y, label: String(y), date: "2020-10-01", bags, reach });
const bands = (...each: object[]): Band[] => each as Band[];
/** A panel with every kind of thing that may stand in one. */
export const panel = {
  zone: { id: "z", letter: "B", name: "Zone" },
  segments: [
    { method: "old", points: [at(2010, 50, 10), at(2030, 60, 20)], bands: bands({ name: "low", position: "below" }, { name: "enough", position: "within", from: 100 }, { name: "high", position: "above", above: 150 }) },
    { method: "new", points: [at(2080, 100, 30, [90, 110]), at(2120, 120)], bands: [] },
    { method: "newest", points: [at(2150, 40, 200)], bands: bands({ name: "low", position: "below" }, { name: "thin", position: "within", from: 20 }, { name: "very strongly alkaline", position: "above", from: 28 }) },
  ],
  others: [at(2089, 10)],
  breaks: [{ x: 2060, left: "old", right: "new", because: "" }, { x: 2140, left: "new", right: "newest", because: "" }],
  events: [{ x: 2045, label: "lime one" }, { x: 2046, label: "lime two" }, { x: 2133, label: "lime three" }],
} as unknown as TrendPanel;
/** A year and a unit are a pixel each: the plot is 206 px wide, less 14 at both ends, from 42; and 174 px high, down to 208. */
export const model = { analyte: "K", panels: [panel], x: { from: 2000, to: 2178, ticks: [2000, 2089, 2178] }, y: { from: 0, to: 174, ticks: [0, 87, 174] } } as unknown as TrendModel;
