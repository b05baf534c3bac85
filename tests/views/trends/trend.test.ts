import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { seasonOf } from "../../../src/interpretation/season.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import type { Field } from "../../../src/records/model.ts";
import { chartModel } from "../../../src/views/trends/chartData.ts";
import type { ZoneAdvice } from "../../../src/views/advice/sample.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { trendModel, type TrendModel } from "../../../src/views/trends/trend.ts";
import { finding, trendNotes } from "../../../src/views/trends/trendCaption.ts";
import { trendFigure } from "../../../src/views/trends/trendFigure.ts";
import { drawPanel } from "../../../src/views/trends/trendDrawing.ts";

const { farm } = readFarm({ content: join(installation, "content") });
const fieldOf = (id: string): Field => farm!.fields.find((f) => f.id === id)!;
/** A field of the demo farm with every single bag's results changed. */
const demoField = (id: string, change: (m: Measurement) => Measurement): Field => {
  const field = fieldOf(id);
  return { ...field, samplings: field.samplings.map((s) => ({ ...s, composites: s.composites.map((c) => ({ ...c, measurements: c.measurements.map(change) })) })) };
};
const trendOf = (id: string, analyte: "pH" | "K" | "P" | "nitrateN" | "cec"): TrendModel => {
  const field = fieldOf(id);
  const advice = new Map(field.zones.flatMap((z) => {
    const found = latestAdvice(farm!, field, z);
    return found ? [[z.id, found] as const] : [];
  }));
  return trendModel(farm!, field, analyte, advice)!;
};

describe("the change of laboratory in 2018", () => {
  it.each(["K", "P"] as const)("parts the line of %s in every zone, with the reason", (analyte) => {
    for (const id of ["causeway", "saltings"])
      for (const panel of trendOf(id, analyte).panels) {
        expect(panel.segments).toHaveLength(2);
        const [before, after] = panel.segments;
        expect(before!.points.every((p) => p.date < "2018")).toBe(true);
        expect(after!.points.every((p) => p.date >= "2018")).toBe(true);
        expect(panel.breaks).toHaveLength(1);
        expect(panel.breaks[0]!.because).toMatch(/^the method changed from .* to Mehlich-3, ICP$/);
      }
  });

  it("does not part the line of pH, which both laboratories measure in 1:1 water", () => {
    for (const panel of trendOf("causeway", "pH").panels) {
      expect(panel.segments).toHaveLength(1);
      expect(panel.breaks).toEqual([]);
    }
  });

  it("gives bands only on the side that the guideline reads", () => {
    for (const panel of trendOf("causeway", "K").panels) {
      expect(panel.segments[0]!.bands).toEqual([]);
      expect(panel.segments[1]!.bands.map((b) => b.name)).toEqual(["deficient", "optimal", "sufficient"]);
    }
  });
});

it("spring readings stand beside the line and are never joined to it", () => {
  const { panels } = trendOf("causeway", "pH");
  const others = panels.flatMap((p) => p.others);
  expect(others.length).toBeGreaterThan(3);
  expect(others.every((p) => seasonOf(p.date) === "spring")).toBe(true);
  expect(panels.flatMap((p) => p.segments.flatMap((s) => s.points)).every((p) => seasonOf(p.date) === "autumnToWinter")).toBe(true);
});

it("duplicate bags are both kept, and the line runs through their mean", () => {
  const [knoll] = trendOf("causeway", "K").panels;
  const doubled = knoll!.segments.at(-1)!.points.find((p) => p.date === "2023-10-17")!;
  expect(doubled.bags).toEqual([124, 110]);
  expect(doubled.y).toBe(117);
});

it("noise carries the mean of two bags less far than one bag, by the root of two, and a result that is only a bound has none", () => {
  const { points } = trendOf("causeway", "K").panels[0]!.segments.at(-1)!;
  const perPpm = points.map((p) => (p.reach! / p.y) * Math.sqrt(Math.max(1, p.bags.length)));
  expect(points.map((p) => p.bags.length)).toContain(2);
  for (const one of perPpm) expect(one).toBeCloseTo(perPpm[0]!, 6);
  const bound = demoField("causeway", (m) => (m.analyte === "K" ? { ...m, qualifier: "<" } : m));
  const model = trendModel(farm!, bound, "K", new Map())!;
  for (const p of model.panels[0]!.segments.at(-1)!.points) expect(p.reach).toBeUndefined();
  // No shade is drawn, and none is explained.
  expect(model.panels.flatMap((p) => drawPanel(model, p).noise)).toEqual([]);
  expect(model.caption).not.toContain("Noise by");
});

it("marks the liming of 2019 on the pH panels", () => {
  expect(trendOf("causeway", "pH").panels.map((p) => p.events.map((e) => e.label))).toEqual([["lime, 1.5 ton/ac"], ["lime, 1.5 ton/ac"], ["lime, 1.5 ton/ac"]]);
});

it("every point of the model is in the drawing and in the script's data, inside the plot", () => {
  for (const id of ["causeway", "saltings", "netloft", "ropewalk"])
    for (const analyte of ["pH", "K", "P"] as const) {
      const model = trendOf(id, analyte);
      const data = chartModel(model, model.panels.map((panel) => drawPanel(model, panel)));
      model.panels.forEach((panel, i) => {
        const drawing = drawPanel(model, panel);
        const points = panel.segments.flatMap((s) => s.points);
        expect(drawing.points).toHaveLength(points.length);
        expect(drawing.crosses).toHaveLength(panel.others.length);
        expect(data.panels[i]!.segments.flatMap((s) => s.points)).toHaveLength(points.length);
        expect(drawing.lines).toHaveLength(panel.segments.filter((s) => s.points.length > 1).length);
        for (const p of [...drawing.points, ...drawing.crosses, ...drawing.bags]) {
          expect(p.x).toBeGreaterThanOrEqual(drawing.plot.left - 4);
          expect(p.x).toBeLessThanOrEqual(drawing.plot.right + 4);
          expect(p.y).toBeGreaterThanOrEqual(drawing.plot.top);
          expect(p.y).toBeLessThanOrEqual(drawing.plot.bottom);
        }
      });
    }
});

describe("the heading of a figure", () => {
  it("says of a test without classes that nobody classes it, but of the June nitrate test what it is read for", () => {
    expect(trendOf("causeway", "nitrateN").title).toBe("Nitrate-N: read for the nitrogen of that year's crop, not as low or high");
    expect(trendOf("causeway", "cec").title).toBe("Cation exchange capacity: no guideline chosen says what is low or high");
  });

  it("tells the time it covers once, and the axis, which has room for the noise and the classes", () => {
    expect(trendOf("causeway", "nitrateN").subtitle).toMatch(/^Nitrate-N, ppm, June 2025\. /);
    // Results of 92 to 198 with their noise, about 70 to 228, and an eighth more: steps of 50.
    expect(trendOf("causeway", "K").subtitle).toBe("Potassium, ppm, 2014 to October 2025. Axis from 50 to 250.");
    expect(trendOf("causeway", "P").subtitle).toBe("Phosphorus, ppm, 2014 to October 2025. Axis from 0 to 100.");
    expect(trendOf("causeway", "pH").subtitle).toBe("Soil pH, 2014 to October 2025. Axis from 4.5 to 7.5.");
    const field = fieldOf("causeway");
    const year = { ...field, samplings: field.samplings.filter((s) => s.date.startsWith("2020")) };
    expect(trendModel(farm!, year, "pH", new Map())!.subtitle).toMatch(/^Soil pH, April to October 2020\. /);
  });
});

// A zone that has ended, or is tested otherwise, has a panel and no class: the others are then named.
it.each([
  [["within", "above"], "Phosphorus is in range or, on B, above it"],
  [["within", "above", undefined], "Phosphorus is in range on A and above it on B"],
  [["within", "within", undefined], "Phosphorus is in the range to stay in on A and B"],
  [["above", "above", undefined], "Phosphorus is above the range to stay in on A and B"],
  [["below", "above", undefined], "Phosphorus is low on A"],
])("the heading over zones that are %j", (positions, words) => {
  const panels = positions.map((_, i) => ({ zone: { id: `${i}`, name: "ABC"[i]! } })) as unknown as TrendModel["panels"];
  const advice = new Map(positions.map((position, i) => [`${i}`, { advice: { ratings: [{ measurement: { analyte: "P" }, outcome: { kind: "answer", value: { position } } }] } } as unknown as ZoneAdvice]));
  expect(finding("P", panels, advice)).toBe(words);
});

it("says that values without room beside their marks stand in the table, and only then", () => {
  const field = fieldOf("causeway");
  const last = field.samplings.findLast((s) => s.purpose === "routine")!;
  const dayOf = (i: number): string => `${2000 + Math.floor(i / 4)}-${["03", "05", "08", "10"][i % 4]!}-15`;
  const often = Array.from({ length: 80 }, (_, i) => dayOf(i)).map((date) => ({ ...last, id: date, date, composites: last.composites.map((c) => ({ ...c, measurements: c.measurements.map((m) => ({ ...m, date })) })) }));
  const caption = (of: Field): string => trendFigure(farm!, of, "K", new Map(), [])!.model.caption;
  const told = / Values that have no room beside their marks stand in the table below\.$/;
  expect(caption({ ...field, samplings: often })).toMatch(told);
  expect(caption({ ...field, samplings: [last] })).not.toMatch(told);
});

it("a page explains once the marks that its figures hold, and no others", () => {
  const notes = (...analytes: ("pH" | "K" | "cec")[]) => trendNotes(analytes.flatMap((a) => trendOf("causeway", a).panels)).join(" ");
  expect(notes("pH")).toMatch(/A cross is a reading of the other season\. Open marks are duplicate bags of one day; .* The ground shows the classes/);
  expect(notes("K")).not.toContain("A cross");
  expect(notes("cec")).not.toContain("The ground");
  expect(notes("cec", "pH")).toBe(notes("pH"));
  expect(trendOf("causeway", "pH").caption).not.toMatch(/cross|Open marks|ground|19 times/);
  expect(notes()).not.toMatch(/One panel|shade/);
});
