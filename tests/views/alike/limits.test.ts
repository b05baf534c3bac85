import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { comparedView } from "../../../src/views/alike/comparedView.ts";
import { openQuestions } from "../../../src/views/alike/openQuestions.ts";
import { zonePairs } from "../../../src/views/alike/zonesCompared.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { paths, tinyFarm } from "../../support/tinyFarm.ts";

const years = ["2005", "2010", "2015", "2020", "2025"] as const;

/** Two zones of permanent grass, sampled alike five times: how they differ in phosphorus, by one extractant and in one unit. */
const grass = (guideline: string, measures: string, phosphorus: readonly [number, number], depth = "{ from: 0, to: 10, unit: cm }") => {
  const folder = farmFolder().remove("fields/north/samplings");
  folder.change(paths.farm, "guidelines: [small-guide]", `guidelines: [${guideline}]`);
  folder.change(paths.field, "crop: corn\n    yieldGoal: { value: 180, unit: bu/ac }", "crop: grassPasture");
  folder.write(paths.lab, `name: North Laboratory\npackages:\n  basic:\n    name: Basic test\n    measures:\n      pH: { method: water1to2, unit: pH }\n      P: ${measures}\n`);
  years.forEach((year, i) => {
    const bag = (zone: string, P: number): string => `  - { label: "${zone}-${year}", zone: ${zone}, cores: 20, results: { pH: ${6.2 + (i % 2) / 10}, P: ${P + (i % 2) / 10} } }\n`;
    folder.write(`fields/north/samplings/${year}-11-10.yaml`, `date: ${year}-11-10\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: ${depth}\ncomposites:\n${bag("west", phosphorus[0])}${bag("east", phosphorus[1])}`);
  });
  const { farm, problems } = folder.read({ library: join(installation, "content") });
  expect(problems.filter((p) => p.severity === "error")).toEqual([]);
  const field = farm!.fields[0]!;
  const [pair] = zonePairs(farm!, field);
  return { farm: farm!, field, pair: pair!, says: pair!.analytes.find((a) => a.name === "Phosphorus")!.says };
};

describe("a limit that was published for another extractant", () => {
  // Ireland's Soil Index System: on grass P index 1 is 0 to 3.0 mg/l by Morgan, index 2 3.1 to 5.0, index 3 5.1 to 8.0. The limit of 5 mg/l is Olsen's.
  it("is not taken over where a whole class is narrower: index 1 and index 3 would be 'too little to farm by'", () => {
    const { pair, says } = grass("ie-teagasc", "{ method: morgan, unit: mg/l }", [2.4, 5.6]);
    expect(says).toBe(
      "Phosphorus is open, because the margin for phosphorus, 5 mg/l, is published for Olsen, and by Morgan a whole class is narrower: Teagasc has index 2 from 3.1 to 5.1 mg/l.",
    );
    expect(pair.verdict).toBe("not enough data");
    expect(pair.words.says).toBe("Keep West end and East end apart for now: no limit is known by which to call them alike in phosphorus. More bags would not change that, a limit of your own would.");
  });

  it("counts the lowest class from nothing up, since no test reads less", () => {
    // UMass: below optimum is under 4 ppm by modified Morgan, which no other class is narrower than.
    expect(grass("us-umass-modified-morgan", "{ method: modifiedMorgan, unit: ppm }", [2, 5], "{ from: 0, to: 7, unit: in }").says).toContain("UMass has below optimum from 0 to 4 ppm");
  });

  it("is taken over where every class is as wide, and in its own extractant whatever the classes", () => {
    expect(grass("us-iowa-pm1688-2013", "{ method: mehlich3, finish: icp, unit: ppm }", [24, 25]).says).toMatch(/^Phosphorus (is alike|differs a little)/);
    expect(grass("uk-rb209-2023", "{ method: olsen, unit: mg/l }", [24, 25]).says).toMatch(/^Phosphorus (is alike|differs a little)/);
  });
});

describe("results in a unit that no limit is in", () => {
  const pounds = () => grass("us-kentucky-agr16-sampling", "{ method: mehlich3, finish: icp, unit: lb/ac }", [60, 61]);

  it("are not said to want data, of which no amount would call the zones alike", () => {
    const { pair } = pounds();
    expect(pair.words.says).toBe("Keep West end and East end apart for now: no limit is known by which to call them alike in phosphorus. More bags would not change that, a limit of your own would.");
    expect(pair.words.numbers.join(" ")).toContain("To set one, extend soil-variability in a guideline of your own: a margin for P in lb/ac.");
  });

  it("are counted so, and no calendar asks for more bags", () => {
    const { farm, field } = pounds();
    expect(openQuestions(farm, field).filter((q) => q.includes("share a bag"))).toEqual([]);
    const three = { ...field, zones: [...field.zones, { ...field.zones[0]!, id: "south", name: "South end" }] };
    expect(comparedView(farm, three, 1).lede).toBe("Of 3 pairs of zones, 1 cannot be judged for want of a limit; 2 cannot be compared.");
  });

  it("beside want of data, both are told", () => {
    const { farm, field } = pounds();
    const lost = { ...field, samplings: field.samplings.slice(-1).map((s) => ({ ...s, composites: s.composites.map((c, i) => ({ ...c, measurements: c.measurements.map((m) => (m.analyte === "pH" ? { ...m, value: 6.2 + 0.3 * i } : m)) })) })) };
    expect(zonePairs(farm, lost)[0]!.words.says).toBe(
      "Keep West end and East end apart for now: there is not enough data on soil pH to call them alike, and no limit is known for phosphorus.",
    );
  });
});

it("means of less than ten are told to a tenth: 2.4 and 1.6 by Morgan are not both '2'", () => {
  const own = "title: Own\nshort: Own\npublication: bulletin-1\nregion: here\nstatus: current\nabout: For a test.\nextends: soil-variability\nsections:\n  - { id: morgan-margin, kind: margin, analyte: P, methods: [morgan], unit: mg/l, within: { value: 1, source: { reference: bulletin-1 }, evidence: read } }\n";
  const folder = farmFolder().remove("fields/north/samplings").write("guidelines/own.yaml", own);
  folder.change(paths.farm, "guidelines: [small-guide]", "guidelines: [ie-teagasc, own]");
  folder.write(paths.lab, "name: North Laboratory\npackages:\n  basic:\n    name: Basic test\n    measures:\n      P: { method: morgan, unit: mg/l }\n");
  expect(tinyFarm[paths.sampling]).toBeDefined();
  folder.write("fields/north/samplings/2025-11-10.yaml", 'date: 2025-11-10\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 10, unit: cm }\ncomposites:\n  - { label: "1", zone: west, cores: 20, results: { P: 2.4 } }\n  - { label: "2", zone: east, cores: 20, results: { P: 1.6 } }\n');
  const { farm, problems } = folder.read({ library: join(installation, "content") });
  expect(problems.filter((p) => p.severity === "error")).toEqual([]);
  expect(zonePairs(farm!, farm!.fields[0]!)[0]!.analytes[0]!.says).toContain("2.4 mg/l on West end and 1.6 mg/l on East end");
});
