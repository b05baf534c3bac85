import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { pairsTold } from "../../../src/views/alike/comparedView.ts";
import type { ZonePair } from "../../../src/views/alike/zonesCompared.ts";
import { zonePairs } from "../../../src/views/alike/zonesCompared.ts";
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

  it("are judged by the bags of one day where there are more of them than events", () => {
    const bags = [[6.4, 30, 120], [6.5, 31, 124], [6.4, 29, 119]].flatMap(([pH, P, K]): Bag[] => [["west", pH!, P!, K!], ["east", pH! - 1, P! + 30, K! + 100]]);
    const pair = pairOf({ "2021-10-14": [["west", 6, 20, 100], ["east", 6, 20, 100]], "2025-10-14": bags });
    expect(pair.verdict).toBe("keep apart");
    expect(pair.analytes.find((a) => a.name === "Potassium")!.numbers.join(" ")).toMatch(/Three composites and three composites, 4 degrees of freedom\./);
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
    const of = (verdicts: readonly ZonePair["verdict"][]) => pairsTold(verdicts.map((verdict) => ({ verdict }) as ZonePair)).counts;
    const eleven = Array.from({ length: 11 }, () => "keep apart" as const);
    expect(of(eleven)).toBe("All 11 pairs of zones are better kept apart.");
    expect(of([...eleven.slice(2), "not enough data", "may be sampled together next time"])).toBe("Of 11 pairs of zones, 1 may be sampled together next time; 1 cannot be judged for want of data; 9 are better kept apart.");
    expect(of(eleven.slice(1))).toBeUndefined();
  });
});
