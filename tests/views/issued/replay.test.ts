import { describe, expect, it } from "vitest";
import { canonicalJson } from "../../../src/records/sealing/canonicalJson.ts";
import type { ZoneReplay } from "../../../src/views/issued/replay.ts";
import { answersFromKept, replay } from "../../../src/views/issued/replay.ts";
import { advisedFarm, archivedFarm, archivedText, frozenPath, issuedText, read } from "../../support/archived.ts";
import type { FarmFolder } from "../../support/farmFolder.ts";
import { paths } from "../../support/tinyFarm.ts";

const changed = (folder: FarmFolder, file: string, from: string, to: string): FarmFolder => {
  const text = advisedFarm[file];
  if (!text?.includes(from)) throw new Error(`${file} does not hold ${from}`);
  return folder.write(file, text.replace(from, to));
};

const replayed = (folder: FarmFolder): ZoneReplay[] => {
  const { farm, frozen } = read(folder);
  return replay(frozen, farm);
};

/** "west k2o: 83 lb/ac ... -> 86 lb/ac ..." for every difference after one change in the records. */
const differencesAfter = (file: string, from: string, to: string): { told: string[]; because: string[]; changes: string[] } => {
  const zones = replayed(changed(archivedFarm(), file, from, to));
  const all = zones.flatMap((z) => z.differences);
  return {
    told: all.map((d) => `${d.zone} ${d.question}: ${d.then ?? "-"} -> ${d.now ?? "-"}`),
    because: [...new Set(all.flatMap((d) => d.because))],
    changes: [...new Set(zones.flatMap((z) => z.changes))],
  };
};

describe("with nothing changed", () => {
  it("every answer is the same, and nothing is told", () => {
    const zones = replayed(archivedFarm());
    expect(zones.map((z) => [z.zone.zone, z.differences, z.changes, z.note])).toEqual([["west", [], [], undefined], ["east", [], [], undefined]]);
    expect(zones[0]!.asked).toBe(8);
  });

  // What to buy was once "supplies 83 of K₂O" with the solver's dust in the figures, and is "supplies 83 lb/ac of K₂O" without.
  const olderWords = (folder: FarmFolder): ZoneReplay[] => {
    const { farm, frozen } = read(folder);
    const older = (a: (typeof frozen.record.zones)[number]["answers"][number]) => {
      if (a.question !== "product") return a;
      const figures = JSON.parse(JSON.stringify(a.figures), (key, value: unknown) => (key === "given" ? Number(value) + 2e-9 : value)) as typeof a.figures;
      return { ...a, figures, detail: a.detail!.replace(/(supplies \d+) lb\/ac of/, "$1 of") };
    };
    const zones = frozen.record.zones.map((zone) => ({ ...zone, answers: zone.answers.map(older) }));
    expect(JSON.stringify(zones)).not.toBe(JSON.stringify(frozen.record.zones));
    return replay({ ...frozen, record: { ...frozen.record, zones } }, farm);
  };

  it("nor where the program only words an answer otherwise, whatever guideline was edited", () => {
    expect(olderWords(archivedFarm()).flatMap((z) => z.differences)).toEqual([]);
    const edited = changed(archivedFarm(), "guidelines/full-guide.yaml", "target: { value: 6.5", "target: { value: 6.4");
    expect(olderWords(edited).flatMap((z) => z.differences.map((d) => d.question))).not.toContain("product");
  });

  it("but one item more in a list is no other wording", () => {
    const { farm, frozen } = read(archivedFarm());
    const fewer = (a: (typeof frozen.record.zones)[number]["answers"][number]) =>
      a.question === "product" ? { ...a, figures: { ...a.figures, supplies: [] }, detail: a.detail!.replace(/; supplies [^;]+/, "") } : a;
    const zones = frozen.record.zones.map((zone) => ({ ...zone, answers: zone.answers.map(fewer) }));
    expect(replay({ ...frozen, record: { ...frozen.record, zones } }, farm).flatMap((z) => z.differences.map((d) => d.question))).toEqual(["product", "product"]);
  });

  it("and of what is otherwise besides, the words are no cause", () => {
    const [west] = olderWords(changed(archivedFarm(), paths.farm, "value: 400", "value: 500"));
    expect(west!.differences.map((d) => d.because)).toEqual([["the price of muriate of potash was $400 a ton and is $500 a ton now"]]);
    expect(west!.differences[0]!.then).toMatch(/supplies 83 of K₂O/);
  });

  it("nor where its zones were merged since", () => {
    const merged = archivedFarm()
      .write(paths.field, advisedFarm[paths.field]!.replace("name: West end }", "name: West end, until: 2026-10-01 }").replace("name: East end }", "name: East end, until: 2026-10-01 }\n  long: { letter: C, name: Long piece, since: 2026-10-01, formerly: [west, east] }"))
      .write("fields/north/samplings/2026-10-14.yaml", 'date: 2026-10-14\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n  - { label: "41", zone: long, results: { K: 90 } }\n');
    const { farm } = read(merged);
    expect([farm.fields[0]!.zones, farm.fields[0]!.formerZones].map((zones) => zones.map((z) => z.id))).toEqual([["long"], ["west", "east"]]);
    expect(replayed(merged).map((z) => [z.zone.zone, z.differences, z.changes, z.note])).toEqual([["west", [], [], undefined], ["east", [], [], undefined]]);
  });

  it("the kept inputs alone give the kept answers, to the last digit", () => {
    const { farm, frozen } = read(archivedFarm());
    expect(canonicalJson(answersFromKept(frozen, farm))).toBe(canonicalJson(frozen.record.zones.map((z) => z.answers)));
  });

  it("the kept inputs alone give the kept answers where the records say something else by now", () => {
    const farm = archivedFarm().write(paths.farm, advisedFarm[paths.farm]!.replace("400", "900"));
    changed(farm, paths.sampling, "K: 104", "K: 54");
    changed(farm, paths.field, "value: 180", "value: 90");
    const kept = read(farm);
    expect(canonicalJson(answersFromKept(kept.frozen, kept.farm))).toBe(canonicalJson(kept.frozen.record.zones.map((z) => z.answers)));
  });

  it("a line that moved down changes nothing", () => {
    const farm = changed(archivedFarm(), paths.sampling, "purpose:", "# Taken in the rain.\npurpose:");
    expect(replayed(farm).flatMap((z) => [...z.differences, ...z.changes])).toEqual([]);
  });
});

// Potash: (1.5 - 0.01 x test) x yield goal, by the guideline of these tests; see support/archived.ts.
describe("each change in the records is told as the cause of what it changed", () => {
  it("a corrected result", () => {
    // (1.5 - 1.24) x 180 = 46.8.
    const { told, because } = differencesAfter(paths.sampling, 'composite: "0022"', 'composite: "0021"\n    analyte: K\n    was: 104\n    now: 124\n    reason: The sheet was misread.\n    date: 2025-11-20\n  - composite: "0022"');
    expect(told).toEqual([
      "west rating-K: 104 ppm, enough by Mehlich-3, ICP -> 124 ppm, enough by Mehlich-3, ICP",
      "west k2o: 83 lb/ac for corn 2026, 180 bu/ac -> 47 lb/ac for corn 2026, 180 bu/ac",
      expect.stringMatching(/^west product: 138 lb\/ac of muriate of potash; .* -> 78 lb\/ac of muriate of potash; /),
    ]);
    expect(because).toEqual(["the result of potassium was corrected on 20 November 2025 from 104 ppm to 124 ppm: The sheet was misread."]);
  });

  it("a price", () => {
    const { told, because } = differencesAfter(paths.farm, "value: 400", "value: 500");
    // 138 lb of a product at $400 and $500 a ton: $27.6 and $34.5.
    expect(told).toEqual([expect.stringMatching(/^west product: .*\$28 an acre.* -> .*\$35 an acre/), expect.stringMatching(/^east product: .*\$7 an acre.* -> .*\$9 an acre/)]);
    expect(because).toEqual(["the price of muriate of potash was $400 a ton and is $500 a ton now"]);
  });

  it("a crop or its yield goal", () => {
    // 0.46 x 200 = 92; 0.12 x 200 = 24.
    const { told, because } = differencesAfter(paths.field, "value: 180", "value: 200");
    expect(told.filter((t) => t.includes("k2o"))).toEqual(["west k2o: 83 lb/ac for corn 2026, 180 bu/ac -> 92 lb/ac for corn 2026, 200 bu/ac", "east k2o: 22 lb/ac for corn 2026, 180 bu/ac -> 24 lb/ac for corn 2026, 200 bu/ac"]);
    expect(because).toEqual(["the crop was planned as corn 2026, 180 bu/ac as the goal, and the records have corn 2026, 200 bu/ac as the goal now"]);
  });

  it("a target pH of the field", () => {
    const { told, because } = differencesAfter(paths.field, "plan:", "targetPh: { value: 6.0, reason: for a test }\nplan:");
    expect(told).toEqual([expect.stringMatching(/^west rating-pH: 6\.2, lime due .* -> 6\.2, /), expect.stringMatching(/^west lime: 1\.9 ton\/ac of ground limestone, to reach pH 6\.5;/)]);
    expect(because).toEqual(["the target pH set for the field was changed in the records"]);
  });

  it("the list of products", () => {
    const { told, because } = differencesAfter(paths.farm, "  potash:\n", "  cheap-potash:\n    kind: fertilizer\n    name: cheap potash\n    price: { value: 100, per: ton }\n    analysis: { N: 0, P2O5: 0, K2O: 60 }\n  potash:\n");
    expect(told[0]).toMatch(/^west product: 138 lb\/ac of muriate of potash; .* -> 138 lb\/ac of cheap potash; /);
    expect(because).toEqual(["cheap potash was added to the farm's list"]);
  });

  it("what a product holds", () => {
    const { because } = differencesAfter(paths.farm, "cce: 90", "cce: 100");
    expect(because).toEqual(["what ground limestone holds is otherwise in farm.yaml now"]);
  });

  it("the choice of guidelines", () => {
    const { told, because } = differencesAfter(paths.farm, "[full-guide, small-guide]", "[small-guide]");
    expect(told).toContain("west k2o: 83 lb/ac for corn 2026, 180 bu/ac -> No potash rate, because none of the chosen guidelines gives a rate from this test.");
    expect(because).toEqual(["other guidelines are asked now: Small in place of Full and Small"]);
  });

  it("a rule, by the sections that were edited", () => {
    // (1.6 - 1.04) x 180 = 100.8.
    const { told, because } = differencesAfter("guidelines/full-guide.yaml", "from: 1.5", "from: 1.6");
    expect(told).toContain("west k2o: 83 lb/ac for corn 2026, 180 bu/ac -> 101 lb/ac for corn 2026, 180 bu/ac");
    expect(because).toEqual(["Full has been edited since: potash; or the program works it out otherwise now"]);
  });

  it("a rule's evidence, where the figure stays", () => {
    const { told, because } = differencesAfter("guidelines/full-guide.yaml", "at: Table 3 }\n        evidence: read", "at: Table 3 }\n        evidence: memory");
    expect(told[0]).toBe("west k2o: 83 lb/ac for corn 2026, 180 bu/ac (full-guide; read in the publication) -> 83 lb/ac for corn 2026, 180 bu/ac (full-guide; from memory, not yet checked against the publication)");
    expect(told.map((t) => t.split(":")[0])).toEqual(["west k2o", "west product", "east k2o", "east product"]);
    expect(because).toEqual(["Full has been edited since: potash; or the program works it out otherwise now"]);
  });

  it("a soil fact that no answer depends on is told, and no difference is", () => {
    const { told, changes } = differencesAfter(paths.field, "cec: 14", "cec: 15");
    expect(told).toEqual([]);
    expect(changes).toEqual(['the fact "Cation exchange capacity (CEC)" was 14 and is 15 now']);
  });

  it("several at once, each for what it changed", () => {
    const farm = changed(archivedFarm(), paths.farm, "value: 40,", "value: 50,");
    changed(farm, paths.field, "value: 180", "value: 200");
    const west = replayed(farm)[0]!;
    expect(west.differences.map((d) => [d.question, d.because.length])).toEqual([["lime", 1], ["k2o", 1], ["product", 1]]);
    expect(west.differences[0]!.because).toEqual(["the price of ground limestone was $40 a ton and is $50 a ton now"]);
  });
});

describe("what is no longer there", () => {
  it("a zone: its kept inputs are asked", () => {
    const farm = changed(archivedFarm(), paths.sampling, '  - label: "0022"\n    zone: east', '  - label: "0022"\n    zone: west');
    const east = replayed(farm)[1]!;
    expect(east.note).toBe("a result of this zone is no longer in the records");
    expect(east.differences).toEqual([]);
  });

  it("a guideline: told by name", () => {
    const farm = changed(archivedFarm(), paths.farm, "[full-guide, small-guide]", "[small-guide]").remove("guidelines/full-guide.yaml");
    const because = new Set(replayed(farm).flatMap((z) => z.differences.flatMap((d) => d.because)));
    expect([...because]).toEqual(["the guideline Full is no longer in the records"]);
  });
});

it("advice of an older sampling is for the crop that followed it", () => {
  const farm = archivedFarm();
  farm.write("fields/north/recommendations/2024-11-01.yaml", archivedText(farm, "2024-10-14", "2024-11-01"));
  const { frozen } = read(farm);
  expect(frozen.record.zones[0]!.crop).toBe("corn 2025, 171 bu/ac");
  // (1.5 - 0.01 x 96) x 171 = 92.34.
  expect(frozen.record.zones[0]!.answers.find((a) => a.question === "k2o")!.shown).toBe("92 lb/ac");
  expect(farm.write(frozenPath, issuedText).lines()).toEqual([]);
});
