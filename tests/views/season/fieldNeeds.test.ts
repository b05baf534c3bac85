import { expect, it } from "vitest";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { fieldView } from "../../../src/views/field/field.ts";
import { farmNeeds } from "../../../src/views/season/fieldNeeds.ts";
import type { SeasonZone } from "../../../src/views/season/seasonZones.ts";
import { seasonZonesByField } from "../../../src/views/season/seasonZones.ts";
import { lowWhy } from "../../../src/views/season/whyWords.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { answeredSampling, awaitingSampling } from "../../support/awaitingFarm.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";
import { paths } from "../../support/tinyFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const needsOf = (name: string) => farmNeeds(demo).get(demo.fields.find((f) => f.name === name)!)!;

it("says in words what each field of the demo farm needs, most urgent first", () => {
  expect(needsOf("Netloft").map((n) => n.words)).toEqual(["sampling overdue, last October 2021"]);
  expect(needsOf("Causeway").map((n) => n.words)).toEqual(["lime due on Outwash", "potassium low on Knoll and Outwash", "phosphorus low on Knoll and Outwash"]);
  expect(needsOf("Saltings").map((n) => n.words)).toEqual(["potassium low"]);
  expect(needsOf("Ropewalk").map((n) => n.words)).toEqual(["no rate of lime, phosphate or potash"]);
});

it("calls nothing low that the zone's advice does not call low, and no lime due that it does not ask for", () => {
  let checked = 0;
  for (const [field, needs] of farmNeeds(demo))
    for (const need of needs)
      for (const zone of need.zones) {
        const advice = latestAdvice(demo, field, zone)!.advice;
        if (need.kind === "lime") expect(advice.lime.needed).toMatchObject({ kind: "answer", value: { requirement: { value: expect.any(Number) as number } } });
        if (need.kind === "potassium") expect(advice.ratings.find((r) => r.measurement.analyte === "K")!.outcome).toMatchObject({ value: { position: "below" } });
        checked += 1;
      }
  expect(checked).toBeGreaterThan(6);
});

it("gives a field that was never sampled its sampling, and no other need", () => {
  const { farm } = farmFolder().remove("fields/north/samplings").remove("fields/north/seasons").read();
  expect([...farmNeeds(farm!).values()].map((needs) => needs.map((n) => [n.kind, n.words]))).toEqual([[["sampling", "never sampled"]]]);
  // Its crop is planned all the same.
  const [field] = farm!.fields;
  expect(fieldView(farm!, field!).facts).toContainEqual({ term: "Next crop", value: "corn, 2026" });
  const plan = field!.zones.map((z, i) => ({ ...field!.plan[0]!, crop: i === 0 ? ("corn" as const) : ("wheat" as const), zones: [z.id] }));
  expect(fieldView(farm!, { ...field!, plan }).facts).toContainEqual({ term: "Next crop", value: "corn and wheat, 2026" });
});

it("tells that results are awaited beside whatever an older sampling calls for, and no more once they are in", () => {
  const needs = (sampling: string) => [...farmNeeds(farmFolder().write(paths.sampling, sampling).read().farm!).values()][0]!.map((n) => n.words);
  expect(needs(awaitingSampling)).toContain("results awaited");
  expect(needs(answeredSampling)).not.toContain("results awaited");
});

it("counts the zones where naming them would fill the line", () => {
  const zones = ["a", "b", "c", "d"].map((id, i) => `  ${id}: { letter: ${"ABCD"[i]!}, name: Zone ${id} }`).join("\n");
  const bags = ["a", "b", "c", "d"].map((id, i) => `  - { label: "${i}", zone: ${id}, results: { pH: ${i === 3 ? "6.9" : "5.1"}, bufferPh: 6.5, K: 150 } }`).join("\n");
  const folder = farmFolder().remove("fields/north").write("fields/north/field.yaml", `name: North Field\nsoil: { texture: siltLoam, cec: 14, subsoilPh: 6.5 }\nzones:\n${zones}\ntargetPh: { value: 6.5, reason: a test }\nplan:\n  - { season: 2026, crop: corn }\n`);
  folder.write("fields/north/samplings/2025-10-18.yaml", `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n${bags}\n`);
  const { farm } = folder.change(paths.farm, "guidelines: [small-guide]", "guidelines: [us-tristate-974-2020, us-oregon-lime-2025]").read({ library });
  expect([...farmNeeds(farm!).values()][0]!.find((n) => n.kind === "lime")!.words).toBe("lime due on three of four zones");
});

it("calls lime due below the field's own target, where no chosen guideline holds a lime table", () => {
  const folder = farmFolder().change(paths.farm, "guidelines: [small-guide]", "guidelines: [us-oklahoma-osu]").change(paths.field, "plan:", "targetPh: { value: 6.0, reason: a test }\nplan:").remove("fields/north/samplings");
  folder.write(paths.sampling, "date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 6, unit: in }\ncomposites:\n  - { label: A1, zone: west, results: { pH: 4.8 } }\n  - { label: B1, zone: east, results: { pH: 6.0 } }\n");
  const { farm } = folder.read({ library });
  expect([...farmNeeds(farm!).values()][0]!.map((n) => n.words)).toContain("lime due on West end");
  expect(latestAdvice(farm!, farm!.fields[0]!, farm!.fields[0]!.zones[0]!)!.advice.lime.needed).toMatchObject({ because: "Oklahoma holds no lime table" });
});

it("says of each rate that is lacking on which zones it is", () => {
  // West end was not tested for phosphorus, East end for neither; whether a soil of pH 6.1 needs lime hangs on the subsoil's, which is not on record.
  const folder = farmFolder().change(paths.farm, "guidelines: [small-guide]", "guidelines: [us-tristate-974-2020]").remove("fields/north/samplings");
  folder.write(paths.sampling, "date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n  - { label: A1, zone: west, results: { pH: 6.1, K: 150 } }\n  - { label: B1, zone: east, results: { pH: 6.1 } }\n");
  const { farm } = folder.read({ library });
  expect([...farmNeeds(farm!).values()][0]!.filter((n) => n.kind === "question").map((n) => n.words)).toEqual(["no rate of lime or phosphate", "no rate of potash on East end"]);
});

it("tells the classes of a field in one sentence, the lowest result first, zones in the field's order", () => {
  const said = (["K", "P"] as const).flatMap((analyte) => lowWhy(zonesOf([["Hill", 140, "low"], ["Flat", 110, "very low"], ["Draw", 150, "low"], ["Bottom", 200, undefined]], analyte)));
  expect(said).toEqual(["Potassium is very low on Flat, and low on Hill and Draw.", "Phosphorus is very low on Flat, and low on Hill and Draw."]);
  expect(lowWhy(zonesOf([["Hill", 140, "low"], ["Flat", 110, "low"]], "K"))).toEqual(["Potassium is low."]);
  expect(lowWhy(zonesOf([["Hill", 3, "c"], ["Flat", 1, "a"], ["Draw", 2, "b"]], "P"))).toEqual(["Phosphorus is a on Flat, b on Draw and c on Hill."]);
  expect(lowWhy(zonesOf([["Hill", 300, undefined]], "K"))).toEqual([]);
});

/** Zones with one result each; `band` is a class below the range, or none. */
const zonesOf = (found: readonly (readonly [string, number, string | undefined])[], analyte: "P" | "K"): SeasonZone[] => {
  const [, base] = [...seasonZonesByField(demo)].find(([f]) => f.name === "Causeway")!;
  return found.map(([name, value, band], i): SeasonZone => {
    const zone = { ...base[0]!.zone, id: `z${i}`, name };
    const advised = base[0]!.advised!;
    const ratings = advised.advice.advice.ratings
      .filter((r) => r.measurement.analyte === analyte)
      .map((r) => ({ ...r, measurement: { ...r.measurement, value }, outcome: r.outcome.kind === "answer" ? { ...r.outcome, value: { ...r.outcome.value, band: band ?? "high", position: band === undefined ? ("above" as const) : ("below" as const) } } : r.outcome }));
    return { ...base[0]!, zone, advised: { ...advised, advice: { ...advised.advice, advice: { ...advised.advice.advice, ratings } } } };
  });
};

it("names potassium and phosphorus together only where the very zones are the same", () => {
  const cells = (low: (i: number) => boolean) => Array.from({ length: 16 }, (_, i) => [`Cell ${i}`, 100, low(i) ? "low" : undefined] as const);
  const [K, P, other] = [zonesOf(cells((i) => i < 8), "K"), zonesOf(cells((i) => i < 8), "P"), zonesOf(cells((i) => i >= 8), "P")];
  const joined = (zones: readonly SeasonZone[]): SeasonZone[] =>
    K.map((z, i) => ({ ...z, advised: { ...z.advised!, advice: { ...z.advised!.advice, advice: { ...z.advised!.advice.advice, ratings: [z, zones[i]!].flatMap((each) => each.advised!.advice.advice.ratings) } } } }));
  expect(lowWhy(joined(P))).toEqual(["Potassium and phosphorus are low on 8 of 16 zones."]);
  expect(lowWhy(joined(other))).toEqual(["Potassium is low on 8 of 16 zones.", "Phosphorus is low on 8 of 16 zones."]);
});
