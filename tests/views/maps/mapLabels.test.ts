import type { Area } from "../../../src/exchange/geometry.ts";
import { describe, expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { fieldMap } from "../../../src/views/maps/fieldMap.ts";
import type { Label } from "../../../src/views/maps/mapLabels.ts";
import { fittingWay } from "../../../src/views/maps/mapLabels.ts";
import { mapModel } from "../../../src/views/maps/map.ts";
import { mapParts } from "../../../src/views/maps/mapPages.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { yearMaps } from "../../../src/views/maps/yearMaps.ts";
import { library } from "../../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const label = (x: number, y: number): Label => ({ x, y, ways: [["A Knoll", "6.4", "neutral"], ["A", "6.4"], ["A"]] });

it("leave the name of a field free, where a patch beside large fields is lower than its value", () => {
  const square = (west: number, side: number) => ({ type: "Polygon" as const, coordinates: [[[west, 42], [west + side, 42], [west + side, 42 + side], [west, 42 + side], [west, 42]]] });
  const drawn = [square(-93, 0.02), square(-92.97, 0.0002)].map((area, i) => ({ id: `z${i}`, area, css: "c-v2", lines: ["6.4"], title: "" }));
  const { zones, names } = mapModel(drawn, 560, 620, "us", [], drawn.map(({ id, area }) => ({ text: id, areas: [area] })))!;
  // The patch is 2 px high; its value reaches 10.5 px above its middle, and a name 6 px beneath its foot.
  expect(zones[1]!.labelY - names[1]!.y).toBeCloseTo(16.5, 0);
  expect(zones[0]!.labelY - names[0]!.y).toBeGreaterThan(100);
});

describe("the labels of a map", () => {
  // Seven letters of 10.5 px are 73.5 px wide; three lines are 71 px high; three digits of 15 px 45 px; one letter 10.5 px.
  it.each([
    ["full, where there is room", [label(100, 100), label(200, 100)], 0],
    ["full, one below the other", [label(100, 100), label(100, 172)], 0],
    ["a letter and a value, where names would meet", [label(100, 100), label(150, 100)], 1],
    ["a letter and a value, where a name would run over the edge", [label(30, 100)], 1],
    ["a letter, where values would meet", [label(100, 100), label(130, 100)], 2],
    ["a letter, where not even that has room, for there is no less", [label(100, 100), label(105, 100)], 2],
    ["nothing, where there is nothing", [], 0],
  ])("are %s", (_, labels, way) => expect(fittingWay(labels, 560)).toBe(way));

  it("are full on every map of the demo farm, and letters where twelve zones lie in strips a few feet wide", () => {
    for (const field of demo.fields) {
      const advised = new Map(field.zones.flatMap((zone) => { const found = latestAdvice(demo, field, zone); return found ? [[zone.id, found] as const] : []; }));
      expect(fieldMap(demo, field, "pH", advised)!.model.way, field.id).toBe(0);
      mapParts(field).forEach((_, i) => expect(yearMaps(demo, field, i + 1).outline.way, `${field.id} ${i + 1}`).toBe(0));
    }
    const [field] = demo.fields;
    const [zone] = field!.zones;
    const full = fieldMap(demo, field!, "pH", new Map(field!.zones.map((z) => [z.id, latestAdvice(demo, field!, z)!])))!;
    expect(full.model.zones.map((z) => z.lines)).toEqual([["A Knoll", "6.3", "9.7 acres"], ["B Apron", "6.5", "17.2 acres"], ["C Outwash", "5.7", "6.1 acres"]]);
    const strips = Array.from({ length: 12 }, (_, i) => ({ ...zone!, id: `strip-${i}`, letter: String.fromCharCode(65 + i), area: { type: "Polygon" as const, coordinates: [[[i, 0], [i + 1, 0], [i + 1, 8], [i, 8], [i, 0]].map(([x, y]) => [-93 + x! / 1e4, 42 + y! / 1e4])] } }));
    const map = fieldMap(demo, { ...field!, zones: strips }, "pH", new Map(strips.map((s) => [s.id, latestAdvice(demo, field!, zone!)!])))!;
    expect(map.model.zones.map((z) => z.lines)).toEqual(strips.map((s) => [s.letter]));
    expect(map.note).toContain("The values have no room on the map and stand in the table below.");
  });
});

it("moves the name of a field at the right edge in, so that a phone shows all of it, and leaves the others above their fields", () => {
  const square = (west: number, south: number): Area => ({ type: "Polygon", coordinates: [[[west, south], [west + 0.001, south], [west + 0.001, south + 0.001], [west, south + 0.001], [west, south]]] });
  const [far, near] = [square(-37.01, 44.003), square(-37, 44)];
  const draw = (name: string) => mapModel([{ id: "far", area: far, css: "", lines: [], title: "" }, { id: "near", area: near, css: "", lines: [], title: "" }], 560, 620, "us", [], [{ text: "Hay Lot", areas: [far] }, { text: name, areas: [near] }])!.names.map((n) => n.x);
  const [left, short] = draw("Hop");
  const [, long] = draw("Brassica Block");
  expect(left).toBe(26);
  expect(short).toBeGreaterThan(480);
  expect(long).toBeLessThanOrEqual(560 - 14 * 9);
  expect(draw("A name longer than any that a map of this width can hold in one line")[1]).toBe(0);
});
