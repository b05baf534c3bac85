import { expect, test } from "vitest";
import { placeLabels } from "../../../src/views/trends/labels.ts";

const plot = { left: 0, right: 200, top: 0, bottom: 200 };

test("a lone mark has its value above it", () => {
  expect(placeLabels([{ x: 100, y: 100, text: "6.3" }], plot)).toEqual([{ x: 100, y: 90, anchor: "middle", text: "6.3" }]);
});

test("a mark at the top of the plot has its value below it", () => {
  expect(placeLabels([{ x: 100, y: 5, text: "6.3" }], plot)).toEqual([{ x: 100, y: 24, anchor: "middle", text: "6.3" }]);
});

test("two marks close together have their values apart, and neither covers the other's mark", () => {
  const labels = placeLabels([{ x: 100, y: 100, text: "6.4" }, { x: 106, y: 84, text: "6.6" }], plot);
  const [first, second] = labels;
  expect(first).toMatchObject({ x: 100, y: 119 });
  expect(second).toMatchObject({ x: 106, y: 74 });
});

test("where every place is taken, each mark still has its value", () => {
  const crowd = Array.from({ length: 30 }, (_, i) => ({ x: 100 + (i % 6) * 3, y: 100 + i, text: "6.5" }));
  expect(placeLabels(crowd, plot).map((l) => l.text)).toEqual(crowd.map(() => "6.5"));
});
