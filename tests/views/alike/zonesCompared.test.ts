import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { comparedView, pairsTold } from "../../../src/views/alike/comparedView.ts";
import { testingRow } from "../../../src/views/calendar/testingCosts.ts";
import { openQuestions } from "../../../src/views/alike/openQuestions.ts";
import type { ZonePair } from "../../../src/views/alike/zonesCompared.ts";
import { zonePairs } from "../../../src/views/alike/zonesCompared.ts";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Farm, Field } from "../../../src/records/model.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

type Bag = readonly [zone: "west" | "east", pH: number, P: number, K: number];

const sampling = (date: string, bags: readonly Bag[], packageId = "basic"): string =>
  [
    `date: ${date}`,
    "purpose: routine",
    "lab: north-lab",
    `package: ${packageId}`,
    "depth: { from: 0, to: 8, unit: in }",
    "composites:",
    ...bags.map(([zone, pH, P, K], i) => `  - { label: "${date}-${i}", zone: ${zone}, cores: 20, results: { pH: ${pH}, P: ${P}, K: ${K} } }`),
  ].join("\n");

/** Two zones, and what their bags gave on each day. */
const pairOf = (events: Readonly<Record<string, readonly Bag[]>>, spoil: (text: string, date: string) => string = (text) => text) => {
  const folder = farmFolder().remove("fields/north/samplings");
  folder.write(paths.lab, `${tinyFarm[paths.lab]!}  other:\n    name: Another test\n    measures:\n      pH: { method: water1to1, unit: pH }\n      P: { method: bray1, unit: ppm }\n      K: { method: ammoniumAcetate, unit: ppm }\n      Zn: { method: mehlich3, unit: ppm }\n`);
  for (const [date, bags] of Object.entries(events)) folder.write(`fields/north/samplings/${date}.yaml`, spoil(sampling(date, bags), date));
  const { farm, problems } = folder.read({ library: join(installation, "content") });
  expect(problems).toEqual([]);
  const [pair, ...rest] = zonePairs(farm!, farm!.fields[0]!);
  expect(rest).toEqual([]);
  return pair!;
};

/** Five autumns; the zones differ by 0.02 pH, 0.2 ppm P and 1 ppm K on average, and both rose by far more than that. */
const alike = {
  "2009-10-14": [["west", 5.8, 20, 100], ["east", 5.8, 20.5, 102]],
  "2013-10-14": [["west", 6.0, 24, 110], ["east", 6.1, 23.5, 111]],
  "2017-10-14": [["west", 6.3, 28, 121], ["east", 6.3, 29, 120]],
  "2021-10-14": [["west", 6.5, 31, 133], ["east", 6.5, 31, 135]],
  "2025-10-14": [["west", 6.8, 35, 141], ["east", 6.8, 35, 142]],
} as const satisfies Record<string, readonly Bag[]>;

describe("two zones of a field", () => {
  it("may share a bag where every result is surely alike, and a bag less saves its fee", () => {
    // What a year brings to both zones cancels in their difference: over five events pH rose by 1.0, and the zones stay within 0.2.
    const pair = pairOf(alike);
    expect(pair.verdict).toBe("may be sampled together next time");
    expect(pair.words.says).toBe("West end and East end may be sampled together next time: they are alike in potassium, phosphorus and soil pH.");
    expect(pair.saves).toBe("One bag less saves $12 each time.");
    expect(pair.analytes.map((a) => a.name)).toEqual(["Potassium", "Phosphorus", "Soil pH"]);
    expect(pair.analytes.find((a) => a.name === "Potassium")!.numbers.join(" ")).toMatch(/^Difference −1 ppm,.*Five samplings, 4 degrees of freedom\.$/);
  });

  it("stay apart where one result differs, however alike the others", () => {
    const pair = pairOf(Object.fromEntries(Object.entries(alike).map(([date, bags]) => [date, bags.map(([zone, pH, P, K]): Bag => [zone, pH, P, zone === "east" ? K + 60 : K])])));
    expect(pair.verdict).toBe("keep apart");
    expect(pair.words.says).toBe("Keep West end and East end apart: they differ in potassium.");
    expect(pair.saves).toBeUndefined();
  });

  it("are not called alike for want of data, and the page says what would settle it", () => {
    const pair = pairOf({ "2025-10-14": [["west", 6.4, 30, 120], ["east", 6.4, 30, 121]] });
    expect(pair.verdict).toBe("not enough data");
    const phosphorus = pair.analytes.find((a) => a.name === "Phosphorus")!;
    expect(phosphorus.says).toMatch(/more samples of each area would settle it four times out of five.*Judged by the noise of one sample/);
  });

  it("are not called alike where the laboratory only bounds a result: events left out for it would be those that differ, and two bounds are no two equal numbers", () => {
    const bounded = (which: RegExp, days: RegExp) => pairOf(alike, (text, date) => (days.test(date) ? text.replaceAll(which, '$1P: { value: 60, qualifier: "<" }') : text));
    for (const pair of [bounded(/(zone: east.*)P: [\d.]+/g, /^2013/), bounded(/()P: [\d.]+/g, /^2025/), bounded(/()P: [\d.]+/g, /./)]) {
      expect(pair.verdict).toBe("not enough data");
      expect(pair.words.says).toBe("Keep West end and East end apart for now: there is not enough data on phosphorus to call them alike.");
      expect(pair.analytes.find((a) => a.name === "Phosphorus")!.says).toBe("Phosphorus is open, because a result of one of the areas is only bounded by the laboratory, or missing.");
    }
  });

  it("are judged by the bags of one day where there are more of them than events", () => {
    const bags = [[6.4, 30, 120], [6.5, 31, 124], [6.4, 29, 119]].flatMap(([pH, P, K]): Bag[] => [["west", pH!, P!, K!], ["east", pH! - 1, P! + 30, K! + 100]]);
    const pair = pairOf({ "2021-10-14": [["west", 6, 20, 100], ["east", 6, 20, 100]], "2025-10-14": bags });
    expect(pair.verdict).toBe("keep apart");
    expect(pair.analytes.find((a) => a.name === "Potassium")!.numbers.join(" ")).toMatch(/Three composites and three composites, 4 degrees of freedom\./);
  });

  // Twenty cores of 39 % and a laboratory of 6 % leave a result 10.6 % of itself, and on one side at 5 % 17.4 %: 243 ppm is surely above 200, and 242 is not.
  it.each([
    { west: 243, east: 330, says: "Both are surely high by Small all the same." },
    { west: 242, east: 330, says: undefined },
    { west: 330, east: 242, says: undefined },
    { west: 130, east: 160, says: "Both are surely enough by Small all the same." },
    { west: 160, east: 330, says: undefined },
    { west: 40, east: 80, says: undefined },
  ])("whose limit leaves $west and $east ppm open or apart hear it where one class is sure of both, and wants nothing", ({ west, east, says }) => {
    const pair = pairOf({ "2025-10-14": [["west", 6.4, 30, west], ["east", 6.4, 30, east]] });
    expect(/Both are surely .* all the same\./.exec(pair.analytes.find((a) => a.name === "Potassium")!.says)?.[0]).toBe(says);
    expect(pair.words.numbers.some((n) => n.startsWith("Where you farm by the class alone"))).toBe(says !== undefined);
  });

  it("hear of no class where the laboratory only bounds a result, nor where they are alike anyway", () => {
    const bounded = pairOf({ "2025-10-14": [["west", 6.4, 30, 260], ["east", 6.4, 30, 330]] }, (text) => text.replace("K: 330", 'K: { value: 330, qualifier: ">" }'));
    expect(bounded.analytes.find((a) => a.name === "Potassium")!.says).toMatch(/is open, because .* missing\.$/);
    const enough = pairOf(Object.fromEntries(Object.entries(alike).map(([date, bags]) => [date, bags.map(([zone, pH, P, K]): Bag => [zone, pH, P, K + 200])])));
    expect(enough.analytes.find((a) => a.name === "Potassium")!.says).toMatch(/^Potassium is alike: .* less than 25 ppm\.$/);
  });

  it("say which results have no limit, and so are not compared", () => {
    const pair = pairOf(alike, (text) => text.replace("package: basic", "package: other").replace(/K: (\d+) /g, "K: $1, Zn: 2 "));
    expect(pair.notCompared).toBe("Zinc is not compared, because no limit was found published for it and the farm sets none.");
    expect(pair.analytes.map((a) => a.name)).toEqual(["Potassium", "Phosphorus", "Soil pH"]);
    expect(pairOf(alike).notCompared).toBeUndefined();
  });

  it("never take a result of another method into the comparison", () => {
    // The two oldest events were by other extractants, and would bring the zones' potassium 100 ppm apart.
    const old = ["2009-10-14", "2013-10-14"];
    const events = Object.fromEntries(Object.entries(alike).map(([date, bags]) => [date, bags.map(([zone, pH, P, K]): Bag => [zone, pH, P, old.includes(date) && zone === "east" ? K + 100 : K])]));
    const pair = pairOf(events, (text, date) => (old.includes(date) ? text.replace("package: basic", "package: other") : text));
    const potassium = pair.analytes.find((a) => a.name === "Potassium")!;
    expect(potassium.numbers.join(" ")).toMatch(/Three samplings, 2 degrees of freedom\.$/);
    expect(potassium.says).toMatch(/^Potassium is alike: 132 ppm on West end and 132 ppm on East end/);
  });

  it("cannot be judged where they were never sampled on one day", () => {
    const pair = pairOf({ "2021-10-14": [["west", 6, 20, 100]], "2025-10-14": [["east", 6, 20, 100]] });
    expect(pair).toMatchObject({ verdict: "cannot be said", words: { says: "West end and East end were never sampled on one day." } });
  });

  it("of many are counted by what is said of them, and by one number where it is the same of all", () => {
    const of = (verdicts: readonly ZonePair["verdict"][]) => pairsTold({ zones: [] } as unknown as Field, verdicts.map((verdict) => ({ verdict }) as ZonePair)).counts;
    const eleven = Array.from({ length: 11 }, () => "keep apart" as const);
    expect(of(eleven)).toBe("All 11 pairs of zones are better kept apart.");
    expect(of([...eleven.slice(2), "not enough data", "may be sampled together next time"])).toBe("Of 11 pairs of zones, 1 may be sampled together next time; 1 cannot be judged for want of data; 9 are better kept apart.");
    expect(of(eleven.slice(1))).toBeUndefined();
  });
});

describe("of many zones", () => {
  /** Zones in strips from west to east, a neighbor on each side. */
  const strips = (zones: number, change: (text: string) => string = (text) => text): { farm: Farm; field: Field } => {
    const folder = farmFolder().remove("fields/north");
    const strip = (i: number): [number, number][] => [[-150 + i / 1000, 40], [-150 + (i + 1) / 1000, 40], [-150 + (i + 1) / 1000, 40.002], [-150 + i / 1000, 40.002], [-150 + i / 1000, 40]];
    const ids = Array.from({ length: zones }, (_, i) => `z${i + 1}`);
    folder.write("fields/north/field.yaml", `name: North\nzones:\n${ids.map((id, i) => `  ${id}: { letter: ${String.fromCharCode(65 + i)}, name: Strip ${i + 1} }\n`).join("")}`);
    folder.write("fields/north/zones.geojson", change(JSON.stringify({ type: "FeatureCollection", features: ids.map((zone, i) => ({ type: "Feature", properties: { zone }, geometry: { type: "Polygon", coordinates: [strip(i)] } })) })));
    folder.write("fields/north/samplings/2025-10-14.yaml", `date: 2025-10-14\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n${ids.map((id, i) => `  - { label: "${i}", zone: ${id}, results: { pH: 6.1, P: ${20 + i}, K: ${100 + i} } }\n`).join("")}`);
    const { farm, problems } = folder.read({ library: join(installation, "content") });
    expect(problems.filter((p) => p.severity === "error")).toEqual([]);
    return { farm: farm!, field: farm!.fields[0]! };
  };
  const named = ({ farm, field }: ReturnType<typeof strips>): string[] => zonePairs(farm, field).map((p) => p.zones.map((z) => z.id).join(" "));

  it("up to twelve, every two are compared", () => {
    expect(named(strips(12))).toHaveLength(66);
  });
  it("of thirteen, those side by side, and the pages say so", () => {
    const many = strips(13);
    expect(named(many).toSorted()).toEqual(Array.from({ length: 12 }, (_, i) => `z${i + 1} z${i + 2}`).toSorted());
    const { counts } = pairsTold(many.field, zonePairs(many.farm, many.field));
    expect(counts).toBe("All 12 pairs of zones side by side cannot be judged for want of data.");
    expect(comparedView(many.farm, many.field, 1)).toMatchObject({ parts: 1, lede: counts, left: expect.stringContaining("only those side by side are compared") as string });
    expect(comparedView(strips(12).farm, strips(12).field, 1).left).toBeUndefined();
  });
  it("without outlines, none, since nobody can tell what lies beside what", () => {
    const { farm, field } = strips(13);
    expect(named({ farm, field: { ...field, zones: field.zones.map((z) => ({ ...z, area: undefined })) } })).toEqual([]);
    // One has none: eleven pairs of neighbors are left.
    expect(named({ farm, field: { ...field, zones: field.zones.map((z, i) => (i === 0 ? { ...z, area: undefined } : z)) } })).toHaveLength(11);
    expect(named({ farm, field: { ...field, zones: field.zones.slice(1).map((z) => ({ ...z, area: undefined })) } })).toHaveLength(66);
  });
  it("are not compared for a reader who is not shown where they lie, whom the pairs would tell the shape of the field", () => {
    const { farm } = strips(13);
    const excerpt = forAudience(farm, { name: "A lender", leaveOut: ["positions"] });
    expect(zonePairs(excerpt, excerpt.fields[0]!)).toEqual([]);
  });
  it("questions that are open are counted where a sentence cannot hold them", () => {
    const [few, many] = [strips(3), strips(13)].map(({ farm, field }) => openQuestions(farm, field)[0]);
    expect(few).toBe("Open: whether Strip 1 and Strip 2, Strip 1 and Strip 3 or Strip 2 and Strip 3 may share a bag. Bags of both from one day add to what is known.");
    expect(many).toBe("Open: whether twelve pairs of zones may share a bag. Bags of both from one day add to what is known.");
  });
  it("what proves alike is named as worth merging, or counted where a sentence cannot hold it", () => {
    // Five autumns in which neighbors take turns at a tenth of pH more: alike beyond doubt. The first and the third never differ at all, which says nothing of how they stray.
    const [few, many] = [3, 13].map((zones) => {
      const { farm, field } = strips(zones);
      const [newest] = field.samplings;
      const samplings = ["2009", "2013", "2017", "2021", "2025"].map((year, i) => ({
        ...newest!,
        id: `${year}-10-14`,
        date: `${year}-10-14`,
        composites: newest!.composites.map((c, k) => ({ ...c, measurements: c.measurements.map((m) => ({ ...m, date: `${year}-10-14`, value: (m.analyte === "pH" ? 6 + ((k + i) % 2) / 10 : 100 + ((k + i) % 2)) })) })),
      }));
      return testingRow(farm, { ...field, samplings, guidelines: [...field.guidelines, farm.allGuidelines.get("us-iowa-sampling")!] }).change;
    });
    expect(few).toMatch(/ Alike by their results, and so to be merged: Strip 1 and Strip 2, which saves \$12, or Strip 2 and Strip 3, which saves \$12\.$/);
    expect(many).toMatch(/ Alike by their results, and so to be merged: twelve pairs of zones\.$/);
  });
});
