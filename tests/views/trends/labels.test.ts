import { expect, test } from "vitest";
import type { Label } from "../../../src/views/trends/labels.ts";
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

/** The box of a label, as the 11.5 px face fills it. */
const boxOf = ({ x, y, anchor, text }: Label) => {
  const width = text.length * 6.6;
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: y - 9, bottom: y + 1 };
};

test("of a crowd the newest, the first, the highest and the lowest keep their values; of the others those that cover nothing", () => {
  // A result a year over thirty years in 160 px, as a field that was tested every year has them; sorted by no means.
  const wide = { left: 0, right: 220, top: 0, bottom: 200 };
  const heights = [12, 30, 3, 22, 18, 27, 9, 15, 33, 21, 6, 24, 19, 28, 11, 36, 14, 25, 8, 20, 31, 16, 23, 10, 29, 17, 26, 13, 32, 7];
  const crowd = heights.map((h, i) => ({ x: 30 + i * 5.4, y: 80 + h, text: String(100 + i) }));
  const shown = placeLabels(crowd, wide).filter((l) => l.text !== "");
  expect(shown.map((l) => l.text)).toEqual(expect.arrayContaining(["129", "100", "102", "115"]));
  expect(shown.length).toBeGreaterThan(6);
  expect(shown.length).toBeLessThan(crowd.length);
  const boxes = shown.map(boxOf);
  const covers = boxes.flatMap((a, i) => boxes.slice(i + 1).map((b) => Math.max(0, Math.min(a.right, b.right) - Math.max(a.left, b.left)) * Math.max(0, Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top))));
  expect(Math.max(...covers)).toBe(0);
});

test("of equal values the newer is told, and results of one day at one height keep one value", () => {
  const same = Array.from({ length: 12 }, (_, i) => ({ x: 100 + i, y: 100, text: `${i}` }));
  const shown = placeLabels(same, plot).map((l) => l.text);
  expect(shown[11]).toBe("11");
  expect(shown[0]).toBe("0");
  expect(shown.filter((text) => text !== "").length).toBeLessThan(12);
});

test("the first, the highest and the lowest keep their values where every free place is newer results' otherwise; of two equally high the newer", () => {
  const pack = Array.from({ length: 40 }, (_, i) => ({ x: 60 + i * 0.7, y: i === 3 || i === 6 ? 99 : i === 9 ? 101 : 100, text: String(100 + i) }));
  const shown = placeLabels(pack, plot).map((l) => l.text);
  expect([shown[0], shown[6], shown[9], shown[39]]).toEqual(["100", "106", "109", "139"]);
  expect(shown[3]).toBe("");
});

test("a label whose corner covers another's by less than a digit is still read, and none is left out for it", () => {
  const marks = [[64, 101], [65, 93], [66, 112], [66, 101], [70, 118], [94, 101], [98, 111]].map(([x, y], i) => ({ x: x!, y: y!, text: ["104", "101", "103", "106", "102", "105", "100"][i]! }));
  expect(placeLabels(marks, plot).map((l) => l.text)).toEqual(marks.map((m) => m.text));
});
