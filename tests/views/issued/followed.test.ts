import { describe, expect, it } from "vitest";
import type { FollowedRow } from "../../../src/views/issued/followed.ts";
import { followed } from "../../../src/views/issued/followed.ts";
import { advisedFarm, archivedFarm, read } from "../../support/archived.ts";
import type { FarmFolder } from "../../support/farmFolder.ts";

/** Corn of 2026, and what was spread for it; the next sampling is of 12 October 2026. */
const after = (applications: string, extra = ""): FarmFolder =>
  archivedFarm()
    .write("fields/north/seasons/2026.yaml", `season: 2026\ncrops:\n  - { crop: corn, planted: 2026-05-04, harvested: 2026-10-02, yield: { value: 176, unit: bu/ac } }\napplications:\n${applications}`)
    .write(
      "fields/north/samplings/2026-10-12.yaml",
      `date: 2026-10-12
purpose: routine
lab: north-lab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
  - label: "0031"
    zone: west
    results: { pH: 6.5, bufferPh: 6.9, P: 4, K: 111 }
  - label: "0032"
    zone: east
    results: { pH: 6.4, K: 130 }
${extra}`,
    );

const rowsOf = (folder: FarmFolder, zone = 0): FollowedRow[] => {
  const { farm, field, frozen } = read(folder);
  return [...followed(frozen, farm, field)[zone]!.rows];
};
const row = (folder: FarmFolder, subject: string, zone = 0): FollowedRow => rowsOf(folder, zone).find((r) => r.subject.startsWith(subject))!;
const periodOf = (folder: FarmFolder): string => {
  const { farm, field, frozen } = read(folder);
  return followed(frozen, farm, field)[0]!.period;
};
const spread = (product: string, rate: string, day = "2026-04-20", zones = "[west]"): string => `  - { date: ${day}, product: ${product}, zones: ${zones}, rate: ${rate} }\n`;

// Advised for west: 83 lb/ac of K2O and 1.9 ton/ac of lime (worked by hand in recommendation.test.ts); for east: 22 lb/ac and no lime.
describe("what was applied against what was advised", () => {
  it.each([
    // 138 lb of a product with 60 % K2O: 82.8 lb.
    ["as advised", "{ value: 138, unit: lb/ac }", "83 lb/ac", "followed"],
    // 100 lb: 60 lb.
    ["less", "{ value: 100, unit: lb/ac }", "60 lb/ac", "followed in part: 23 lb/ac less than advised"],
    // 200 lb: 120 lb.
    ["more", "{ value: 200, unit: lb/ac }", "120 lb/ac", "followed, with 37 lb/ac more than advised"],
    // 112.0851 kg/ha is 100 lb/ac.
    ["in other units", "{ value: 112.0851, unit: kg/ha }", "60 lb/ac", "followed in part: 23 lb/ac less than advised"],
  ])("%s", (_, rate, applied, verdict) => expect(row(after(spread("potash", rate)), "Potash")).toMatchObject({ advised: "83 lb/ac", applied, verdict }));

  it("not at all", () => {
    const farm = after(spread("potash", "{ value: 50, unit: lb/ac }", "2026-04-20", "[east]"));
    expect(row(farm, "Potash")).toMatchObject({ applied: "0 lb/ac", spread: "", verdict: "not followed: none applied" });
    // 50 lb x 60 % = 30, where 22 were advised.
    expect(row(farm, "Potash", 1)).toMatchObject({ advised: "22 lb/ac", applied: "30 lb/ac", verdict: "followed, with 8 lb/ac more than advised" });
  });

  it("in two goes, both named", () => {
    const both = row(after(spread("potash", "{ value: 100, unit: lb/ac }") + spread("potash", "{ value: 38, unit: lb/ac }", "2026-06-01")), "Potash");
    expect(both).toMatchObject({ applied: "83 lb/ac", verdict: "followed", spread: "100 lb/ac of muriate of potash on 20 April 2026 and 38 lb/ac of muriate of potash on 1 June 2026" });
  });

  it("lime, in tons as spread", () => {
    expect(row(after(spread("ground-limestone", "{ value: 1.5, unit: ton/ac }", "2025-11-20")), "Lime")).toMatchObject({ advised: "1.9 ton/ac", applied: "1.5 ton/ac", verdict: "followed in part: 0.4 ton/ac less than advised" });
    const none = after(spread("potash", "{ value: 1, unit: lb/ac }"));
    expect(row(none, "Lime", 1)).toMatchObject({ advised: "0 ton/ac", verdict: "followed: none was called for, and none applied" });
  });

  it("without a rate advised", () => expect(row(after(spread("potash", "{ value: 138, unit: lb/ac }")), "Phosphate")).toMatchObject({ advised: "no rate", verdict: "no rate was advised, and none applied" }));

  it("leaves out what was spread before the issue and after the next sampling", () => {
    const farm = after(spread("potash", "{ value: 138, unit: lb/ac }", "2025-11-09") + spread("potash", "{ value: 138, unit: lb/ac }", "2026-10-20"));
    expect(row(farm, "Potash").applied).toBe("0 lb/ac");
    expect(row(after(spread("potash", "{ value: 138, unit: lb/ac }", "2025-11-10")), "Potash").applied).toBe("83 lb/ac");
  });

  it("counts what was spread on the day of the next sampling", () => expect(row(after(spread("potash", "{ value: 138, unit: lb/ac }", "2026-10-12")), "Potash").applied).toBe("83 lb/ac"));

  it.each([
    ["200", "37 lb/ac more than advised for one crop, over two crops"],
    ["100", "23 lb/ac less than advised for one crop, over two crops"],
    ["138", "as much as advised for one crop, over two crops"],
  ])("says of %s lb of potash for how many crops, where it was more than one", (pounds, verdict) => {
    const farm = after(spread("potash", `{ value: ${pounds}, unit: lb/ac }`)).write("fields/north/seasons/2025.yaml", "season: 2025\ncrops:\n  - { crop: wheat, harvested: 2025-12-01, yield: { value: 60, unit: bu/ac } }\n");
    expect(row(farm, "Potash")).toMatchObject({ kind: "over crops", verdict });
  });

  it("counts the cuts of one season, and straw with its grain, as one crop", () => {
    const cuts = ["2026-05-30", "2026-07-10", "2026-08-25"].map((day) => `  - { crop: alfalfa, harvested: ${day}, yield: { value: 1.5, unit: ton/ac } }\n`).join("");
    const hay = after(spread("potash", "{ value: 100, unit: lb/ac }")).write("fields/north/seasons/2026.yaml", `season: 2026\ncrops:\n${cuts}applications:\n${spread("potash", "{ value: 100, unit: lb/ac }")}`);
    expect(row(hay, "Potash")).toMatchObject({ kind: "in part", verdict: "followed in part: 23 lb/ac less than advised" });
    expect(periodOf(hay)).toContain("Harvested in that time: alfalfa 2026.");
    const baled = `  - { crop: wheat, harvested: 2026-07-20, straw: removed, yield: { value: 70, unit: bu/ac } }\n  - { crop: wheatStraw, harvested: 2026-07-24, yield: { value: 1.4, unit: ton/ac } }\n`;
    const straw = after("").write("fields/north/seasons/2026.yaml", `season: 2026\ncrops:\n${baled}applications:\n${spread("potash", "{ value: 138, unit: lb/ac }")}`);
    expect(row(straw, "Potash")).toMatchObject({ kind: "followed", verdict: "followed" });
  });

  it("names a harvest without its day, and says nothing of seasons that are not recorded", () => {
    const later = after("").remove("fields/north/samplings/2026-10-12.yaml");
    const sampled = (...seasons: number[]) => {
      const folder = later.write("fields/north/samplings/2028-10-12.yaml", "date: 2028-10-12\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 8, unit: in }\ncomposites:\n  - { label: \"0031\", zone: west, results: { pH: 6.5, K: 111 } }\n");
      for (const season of seasons) folder.write(`fields/north/seasons/${season}.yaml`, `season: ${season}\ncrops:\n  - { crop: corn, yield: { value: 170, unit: bu/ac } }\n`);
      return folder;
    };
    const one = sampled(2026);
    expect(row(one, "Potash")).toMatchObject({ kind: "unrecorded", verdict: "cannot be told: seasons 2027 and 2028 are not recorded" });
    expect(row(one, "Lime")).toMatchObject({ kind: "unrecorded" });
    expect(periodOf(one)).toContain("Harvested in that time: corn 2026.");
    const all = sampled(2027, 2028);
    expect(row(all, "Potash")).toMatchObject({ kind: "not", verdict: "not followed: none applied" });
    expect(periodOf(all)).toContain("Harvested in that time: corn 2026 and corn 2027. The day of the harvest of corn 2028 is not recorded.");
  });

  it("leaves open what may still be spread: nutrients until their crop is harvested, lime until the next sampling", () => {
    const unsampled = (season: string) => archivedFarm().write("fields/north/seasons/2026.yaml", `season: 2026\n${season}`);
    const standing = unsampled(`crops:\n  - { crop: corn, planted: 2026-05-04 }\napplications:\n${spread("potash", "{ value: 100, unit: lb/ac }")}`);
    expect(row(standing, "Potash")).toMatchObject({ kind: "open", verdict: "open: 23 lb/ac less than advised so far" });
    expect(row(standing, "Potash", 1)).toMatchObject({ kind: "open", verdict: "open: none applied so far" });
    expect(row(standing, "Lime")).toMatchObject({ kind: "open", verdict: "open: none applied so far" });
    expect(row(standing, "Lime", 1)).toMatchObject({ kind: "open", verdict: "open: none was called for, and none applied so far" });
    const fed = unsampled(`crops:\n  - { crop: corn, planted: 2026-05-04 }\napplications:\n${spread("potash", "{ value: 138, unit: lb/ac }")}`);
    expect(row(fed, "Potash")).toMatchObject({ kind: "followed", verdict: "followed" });
    const harvested = unsampled("crops:\n  - { crop: corn, planted: 2026-05-04, harvested: 2026-10-02 }\n");
    expect(row(harvested, "Potash")).toMatchObject({ kind: "not", verdict: "not followed: none applied" });
    expect(row(harvested, "Lime")).toMatchObject({ kind: "open" });
  });

  it("counts what was done on all the ground of a zone that was merged since", () => {
    const { farm, field, frozen } = read(after(spread("potash", "{ value: 138, unit: lb/ac }")));
    const whole = { ...field.zones[0]!, id: "whole", name: "Whole", since: "2026-03-01", formerly: ["west", "east"] };
    const on = <T extends { zones: readonly string[] }>(all: readonly T[]): T[] => all.map((each) => ({ ...each, zones: ["whole"] }));
    const merged = {
      ...field,
      zones: [whole],
      formerZones: field.zones.map((z) => ({ ...z, until: "2026-03-01" })),
      seasons: field.seasons.map((s) => (s.season === 2026 ? { ...s, crops: on(s.crops), applications: on(s.applications) } : s)),
      samplings: field.samplings.map((s) => (s.date === "2026-10-12" ? { ...s, composites: s.composites.slice(0, 1).map((c) => ({ ...c, zone: "whole" })) } : s)),
    };
    const [west] = followed(frozen, { ...farm, fields: [merged] }, merged);
    expect(west!.period).toMatch(/to the next sampling, 12 October 2026\. Harvested in that time: corn 2026\.$/);
    expect(west!.rows.find((r) => r.subject.startsWith("Potash"))).toMatchObject({ applied: "83 lb/ac", verdict: "followed", next: { text: "potassium has not been tested again" } });
    expect(west!.rows.find((r) => r.subject === "Lime")).toMatchObject({ verdict: "not followed: none applied" });
    // Neither a check of pH nor bags whose results are awaited end the time.
    const next = (change: object) => ({ ...merged, samplings: merged.samplings.map((s) => (s.date === "2026-10-12" ? { ...s, ...change } : s)) });
    const awaited = merged.samplings.at(-1)!.composites.map((c) => ({ ...c, measurements: [] }));
    for (const open of [next({ purpose: "phCheck" }), next({ composites: awaited })]) {
      expect(open.samplings.at(-1)!.date).toBe("2026-10-12");
      expect(followed(frozen, { ...farm, fields: [open] }, open)[0]!.period).not.toContain("to the next sampling");
    }
  });

  it("counts what was recorded of each part of a zone that was split since, and judges nothing where its parts were spread apart", () => {
    const split = (loads: string) => {
      const { farm, field, frozen } = read(after(loads));
      const [first] = field.zones;
      const parts = ["crest", "shoulder"].map((id) => ({ ...first!, id, name: id, since: "2026-03-01", formerly: ["west"] }));
      const seasons = field.seasons.map((s) => ({
        ...s,
        crops: s.season === 2026 ? s.crops.flatMap((c) => ["crest", "shoulder"].map((zone) => ({ ...c, zones: [zone] }))) : s.crops,
        applications: s.applications.map((a, i) => (a.date < "2026-03-01" ? a : { ...a, zones: [["crest", "shoulder"][i]!] })),
      }));
      const apart = { ...field, zones: [...parts, field.zones[1]!], formerZones: [{ ...first!, until: "2026-03-01" }], seasons };
      return followed(frozen, { ...farm, fields: [apart] }, apart)[0]!;
    };
    const [load, less] = [138, 100].map((pounds) => (day: string) => spread("potash", `{ value: ${pounds}, unit: lb/ac }`, day));
    const told = (of: ReturnType<typeof split>) => of.rows.find((r) => r.subject.startsWith("Potash"));
    const both = split(load!("2026-04-20") + load!("2026-04-21"));
    expect(both.period).toContain("Harvested in that time: corn 2026.");
    expect(told(both)).toMatchObject({ applied: "83 lb/ac", spread: "138 lb/ac of muriate of potash on 20 April 2026", verdict: "followed" });
    expect(told(split(load!("2026-04-20")))).toMatchObject({ kind: "apart", applied: "0 lb/ac", verdict: "cannot be told: the parts of its ground were not spread alike" });
    expect(told(split(load!("2026-04-20") + less!("2026-04-21")))).toMatchObject({ kind: "apart", spread: "138 lb/ac of muriate of potash on 20 April 2026 and 100 lb/ac of muriate of potash on 21 April 2026" });
    expect(split(load!("2026-04-20")).rows.find((r) => r.subject === "Lime")).toMatchObject({ kind: "not" });
  });

  it("counts manure by all that it holds, and names under a subject only what holds some of it", () => {
    const manured = advisedFarm["farm.yaml"]!.replace("products:\n", "products:\n  manure:\n    kind: manure\n    name: cattle manure\n    perTon: { N: 10, P2O5: 4, K2O: 8 }\n");
    const farm = after(spread("manure", "{ value: 10, unit: ton/ac }") + spread("ground-limestone", "{ value: 1.9, unit: ton/ac }")).write("farm.yaml", manured);
    // 10 tons x 8 lb of K2O, x 4 lb of P2O5.
    expect(row(farm, "Potash")).toMatchObject({ applied: "80 lb/ac", spread: "10 ton/ac of cattle manure on 20 April 2026", verdict: "followed in part: 3 lb/ac less than advised" });
    expect(row(farm, "Phosphate")).toMatchObject({ applied: "40 lb/ac", verdict: "applied without a rate advised" });
    expect(row(farm, "Lime")).toMatchObject({ spread: "1.9 ton/ac of ground limestone on 20 April 2026", verdict: "followed" });
    // Asked for as the element: 80 lb of K2O hold 66.4 lb of K.
    const { farm: manuredFarm, field, frozen } = read(farm);
    const zones = frozen.record.zones.map((z) => ({ ...z, answers: z.answers.map((a) => (a.question === "k2o" ? { ...a, question: "k", figures: { value: 66, unit: "lb/ac" } } : a)) }));
    expect(followed({ ...frozen, record: { ...frozen.record, zones } }, manuredFarm, field)[0]!.rows.at(-1)).toMatchObject({ applied: "66 lb/ac", verdict: "followed", next: { change: 7 } });
  });

  it("counts slurry by its cubic meters, and names them", () => {
    const slurry = advisedFarm["farm.yaml"]!.replace("units: us", "units: metric").replace("products:\n", "products:\n  slurry:\n    kind: manure\n    name: cattle slurry\n    perCubicMeter: { N: 2.6, P2O5: 1.2, K2O: 2.5 }\n    density: { value: 1.02, unit: kg/l }\n");
    const farm = after(spread("slurry", "{ value: 30, unit: m3/ha }")).write("farm.yaml", slurry);
    // 30 x 2.5 = 75 kg/ha of K2O, told in the pounds that the advice was issued in: 66.9.
    expect(row(farm, "Potash")).toMatchObject({ applied: "67 lb/ac", spread: "30 m³/ha of cattle slurry on 20 April 2026", verdict: "followed in part: 16 lb/ac less than advised" });
  });

  it("says where another lime was spread than the one advised", () => {
    const two = advisedFarm["farm.yaml"]!.replace("products:\n", "products:\n  marl:\n    kind: lime\n    name: marl\n    stated: { cce: 60 }\n");
    const verdict = (zone: number) => row(after(spread("marl", "{ value: 1.9, unit: ton/ac }", "2026-04-20", "[west, east]")).write("farm.yaml", two), "Lime", zone).verdict;
    expect(verdict(0)).toBe("followed; some of it was another material than advised");
    expect(verdict(1)).toBe("more than advised: none was called for");
  });
});

describe("what the next test said", () => {
  it("names both values, the day and the change", () => {
    const farm = after(spread("potash", "{ value: 138, unit: lb/ac }"));
    expect(row(farm, "Potash").next).toEqual({ text: "Potassium 104 ppm then; 111 ppm on 12 October 2026 (+7)", change: 7 });
    expect(row(farm, "Lime").next!.text).toBe("Soil pH 6.2 then; 6.5 on 12 October 2026 (+0.3)");
    // A result of "< 3" has no number to subtract.
    expect(row(farm, "Phosphate").next).toEqual({ text: "Phosphorus < 3 ppm then; 4 ppm on 12 October 2026", change: undefined });
  });

  it("counts from the result as it was corrected since", () => {
    const sampling = advisedFarm["fields/north/samplings/2025-10-18.yaml"]!;
    const farm = after(spread("potash", "{ value: 138, unit: lb/ac }")).write("fields/north/samplings/2025-10-18.yaml", `${sampling}  - { composite: "0021", analyte: K, was: 104, now: 98, reason: a slip, date: 2025-12-01 }\n`);
    expect(row(farm, "Potash").next).toEqual({ text: "Potassium 104 ppm then, corrected since to 98 ppm; 111 ppm on 12 October 2026 (+13)", change: 13 });
  });

  it("says why where the later test cannot be compared", () => {
    const farm = after(spread("potash", "{ value: 138, unit: lb/ac }"), "measured:\n  K: { method: ammoniumAcetate, unit: ppm }\n");
    expect(row(farm, "Potash").next!.text).toBe("potassium was tested again, and cannot be compared: the method changed from Mehlich-3, ICP to ammonium acetate");
  });

  it("says so where there is none yet", () => {
    const { farm, field, frozen } = read(archivedFarm());
    const [west] = followed(frozen, farm, field);
    expect(west!.period).toBe("From 10 November 2025 to 10 November 2025; it has not been sampled again. No harvest is recorded in that time.");
    expect(west!.rows.map((r) => r.next?.text)).toEqual(["soil pH has not been tested again", "phosphorus has not been tested again", "potassium has not been tested again"]);
  });
});
