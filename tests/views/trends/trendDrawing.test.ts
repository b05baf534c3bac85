import { expect, it } from "vitest";
import { trendPanel } from "../../../src/components/trendPanel.ts";
import { chartModel } from "../../../src/views/trends/chartData.ts";
import { drawPanel, type PanelDrawing } from "../../../src/views/trends/trendDrawing.ts";
import { model, panel } from "../../support/drawnTrend.ts";

const drawing = drawPanel(model, panel);

it("a panel is drawn to scale: ticks, points, lines, the bags of a pair, the noise around lines, clipped to the plot", () => {
  expect(drawing.xTicks).toEqual([{ x: 56, text: "2000" }, { x: 145, text: "2089" }, { x: 234, text: "2178" }]);
  expect(drawing.yTicks).toEqual([{ y: 208, text: "0" }, { y: 121, text: "87" }, { y: 34, text: "174" }]);
  expect(drawing.points).toEqual([[66, 158], [86, 148], [136, 108], [176, 88], [206, 168]].map(([x, y]) => ({ x, y, open: x === 136 })));
  expect(drawing.lines).toEqual(["M66 158L86 148", "M136 108L176 88"]);
  expect(drawing.bags).toEqual([{ x: 133, y: 118 }, { x: 139, y: 98 }]);
  expect(drawing.crosses).toEqual([{ x: 145, y: 198 }]);
  expect(drawing.noise).toEqual(["M66 148L86 128L86 168L66 168Z", "M201 34L211 34L211 208L201 208Z"]);
  expect(drawing.labels.map((l) => l.text)).toEqual(["50", "60", "100", "120", "40", "10"]);
  // The mean of a pair has its value above its bags, not on the upper one.
  expect(drawing.labels[2]).toEqual({ x: 136, y: 88, anchor: "middle", text: "100" });
});

it("classes fill the plot up to the break, those of the newest results are named where they are high enough, and breaks that are near have no label between them", () => {
  expect(drawing.bands).toMatchObject([
    { x: 42, width: 74, y: 108, height: 100, css: "b-low" },
    { x: 42, width: 74, y: 58, height: 50, css: "b-ok" },
    { x: 42, width: 74, y: 34, height: 24, css: "b-high" },
    { x: 196, width: 52, y: 188, height: 20, css: "b-low" },
    { x: 196, width: 52, y: 180, height: 8, css: "b-ok" },
    { x: 196, width: 52, y: 34, height: 146, css: "b-high" },
  ]);
  expect(drawing.bandNames).toEqual([{ y: 202, text: "low" }, { y: 99, text: "very" }, { y: 111, text: "strongly" }, { y: 123, text: "alkaline" }]);
  expect(drawing.breaks).toEqual([{ x: 116, left: "old", right: "" }, { x: 196, left: "", right: "newest" }]);
  expect(drawPanel(model, { ...panel, breaks: [{ ...panel.breaks[0]!, x: 2000 }, { ...panel.breaks[1]!, x: 2150 }] }).breaks).toMatchObject([{ right: "new" }, { left: "new" }]);
  // What was limed stands above the words of a break that it would run into, and is left out where that row is taken too.
  expect(drawing.events).toEqual([{ x: 101, y: 10, text: "lime one", anchor: "start" }, { x: 102, y: 22, text: "", anchor: "middle" }, { x: 189, y: 22, text: "lime three", anchor: "end" }]);
});

it("the script is told the same values, years and words, and where each label stands beside its mark", () => {
  const { panels: [told], ...data } = chartModel(model, [drawing]);
  expect(data).toEqual({ size: { width: 320, height: 236, left: 42, right: 248, top: 34, bottom: 208, inset: 14, lone: 5 }, x: model.x, y: { ...model.y, texts: ["0", "87", "174"] } });
  expect(told!.segments.map((s) => [s.method, ...s.points.map((p) => [p.x, p.y, p.reach, p.open])])).toEqual([
    ["old", [2010, 50, 10, false], [2030, 60, 20, false]],
    ["new", [2080, 100, 30, true], [2120, 120, undefined, false]],
    ["newest", [2150, 40, 200, false]],
  ]);
  const marks = [...drawing.points, ...drawing.crosses];
  expect([...told!.segments.flatMap((s) => s.points), ...told!.others].map((p) => [p.label, p.dx, p.dy, p.anchor])).toEqual(drawing.labels.map((l, i) => [l.text, Math.round(l.x - marks[i]!.x), Math.round(l.y - marks[i]!.y), l.anchor]));
  expect(told!.bags).toEqual([[2077, 90], [2083, 110]]);
  expect(told!.bands).toEqual([
    [0, 100, "low", "", 2000, 2060],
    [100, 150, "ok", "", 2000, 2060],
    [150, 174, "high", "", 2000, 2060],
    [0, 20, "low", "low", 2140, 2178],
    [20, 28, "ok", "thin", 2140, 2178],
    [28, 174, "high", "very\nstrongly\nalkaline", 2140, 2178],
  ]);
  expect(told!.breaks).toEqual([[2060, "old", ""], [2140, "", "newest"]]);
  expect(told!.events).toEqual([[2045, "lime one", 24, "start"], [2046, "", 12, "middle"], [2133, "lime three", 12, "end"]]);
});

it("is written down as it is laid out, each zone with a mark of its own, and names as text", () => {
  const svg = (letter: string, more: Partial<PanelDrawing> = {}): string => trendPanel({ ...drawing, ...more }, letter, 'K "of" & <Zone>');
  for (const part of [
    '<svg viewBox="0 0 320 236" width="320" height="236" role="img" aria-label="K &#34;of&#34; &#38; <Zone>" class="zb">',
    '<rect class="b-low" x="42" y="108" width="74" height="100"></rect>',
    '<path class="hair" d="M42 121H248"></path><text class="q" x="36" y="125" text-anchor="end">87</text>',
    '<path class="ax" d="M42 208H248"></path>',
    '<path class="ax" d="M145 208v4"></path><text class="q" x="145" y="226" text-anchor="middle">2089</text>',
    '<text class="q" x="254" y="202">low</text>',
    '<rect class="gap" x="114" y="16" width="4" height="192"></rect><path class="brk" d="M113.5 14V208M118.5 14V208"></path><text x="109" y="24" text-anchor="end">old</text><text x="123" y="24"></text>',
    '<path class="ev-l" d="M101 28V208"></path><path class="ev-m" d="M97 28h8l-4 6Z"></path><text x="101" y="10" text-anchor="start">lime one</text>',
    '<path class="case" d="M66 158L86 148"></path><path class="ln" d="M66 158L86 148"></path>',
    '<path class="op" d="M129 114h8v8h-8Z"></path>',
    '<path class="mean" d="M132 104h8v8h-8Z"></path>',
    '<path class="pt" d="M62 154h8v8h-8Z"></path>',
    '<path class="cross" d="M141 194l8 8M149 194l-8 8"></path>',
  ])
    expect(svg("B")).toContain(part);
  expect(svg("A")).toContain('<path class="pt" d="M61.6 158a4.4 4.4 0 1 0 8.8 0a4.4 4.4 0 1 0 -8.8 0Z"></path>');
  expect(svg("C")).toContain('<path class="pt" d="M66 153l5 9h-10Z"></path>');
  expect(svg("D")).toContain('<path class="pt" d="M61.6 158a4.4');
  expect(svg("B", { bandNames: [{ y: 1, text: "a < b & c" }] })).toContain(">a &lt; b &amp; c<");
});

it("a value that has no room is left out of the drawing and of the script's labels, and still told at the pointer", () => {
  const points = Array.from({ length: 40 }, (_, i) => ({ ...panel.segments[0]!.points[0]!, x: 2010 + i / 4, y: 50 + (i % 3), label: `v${i}`, bags: [], reach: undefined }));
  const crowded = { ...panel, segments: [{ ...panel.segments[0]!, points }], others: [], breaks: [], events: [] };
  const drawn = drawPanel(model, crowded);
  const without = drawn.labels.filter((l) => l.text === "").length;
  expect(without).toBeGreaterThan(20);
  expect(trendPanel(drawn, "A", "").match(/<text class="v"/g)).toHaveLength(40 - without);
  const told = chartModel({ ...model, panels: [crowded] }, [drawn]).panels[0]!.segments[0]!.points;
  expect(told.filter((p) => p.anchor === "")).toHaveLength(without);
  expect(told.map((p) => p.label)).toEqual(points.map((p) => p.label));
});
