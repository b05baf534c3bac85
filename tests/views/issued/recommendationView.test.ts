import { describe, expect, it } from "vitest";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Farm, Recommendation } from "../../../src/records/model.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import type { FrozenAnswer } from "../../../src/records/schemas/recommendation.ts";
import { recommendationView } from "../../../src/views/issued/recommendationView.ts";
import { allPaths } from "../../../src/views/site/routes.ts";
import { advisedFarm, archivedFarm, frozenPath, read } from "../../support/archived.ts";
import type { FarmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";

const viewOf = (folder: FarmFolder) => {
  const { farm, field, frozen } = read(folder);
  return recommendationView(farm, field, frozen);
};
const edited = (from: string, to: string): FarmFolder => archivedFarm().write("guidelines/full-guide.yaml", advisedFarm["guidelines/full-guide.yaml"]!.replace(from, to));

describe("the page of advice as issued", () => {
  it("begins with what it is, and whether it would be the same today", () => {
    const view = viewOf(archivedFarm());
    expect(view.title).toBe("Advice of 10 November 2025");
    expect(view.why).toBe("Worked out again today, all 14 questions are answered as they were. None of its guidelines has been edited since.");
    expect(Object.fromEntries(view.facts.map((f) => [f.term, f.value]))).toMatchObject({ For: "the landlord", Issued: "10 November 2025", "From the sampling of": "18 October 2025, North Laboratory", Zones: "West end and East end", "Kept in": frozenPath });
    expect(view.facts.at(-1)!.value).toMatch(/^sha256:[0-9a-f]{64}$/);
  });

  it("shows every answer as it was shown, with its steps, sources and marks", () => {
    const potash = viewOf(archivedFarm()).zones[0]!.rows.find((r) => r.id === "west-k2o")!;
    expect(potash).toMatchObject({ subject: "Potash (K₂O)", shown: "83 lb/ac", detail: "for corn 2026, 180 bu/ac", guideline: { short: "Full", id: "full-guide" }, evidence: { grade: "read" } });
    expect(potash.steps.map((s) => s.source?.text)).toContain("A publisher, A bulletin, Table 3");
    expect(potash.steps.map((s) => s.source?.text)).toContain("fields/north/samplings/2025-10-18.yaml:14");
  });

  it("shows a refusal in words, results with their lines, and the prices of the day", () => {
    const view = viewOf(archivedFarm());
    expect(view.zones[0]!.rows.find((r) => r.id === "west-p2o5")).toMatchObject({ shown: "", detail: "No phosphate rate, because none of the chosen guidelines gives a rate from this test." });
    expect(view.zones[0]!.results[3]).toEqual({ test: "Potassium, Mehlich-3, ICP, 0 to 8 in", value: "104 ppm", at: "fields/north/samplings/2025-10-18.yaml:14" });
    expect(view.prices).toEqual([{ name: "ground limestone", price: "$40 a ton" }, { name: "muriate of potash", price: "$400 a ton" }]);
  });

  it("names the sections of a guideline that were edited since", () => {
    const view = viewOf(edited("from: 1.5", "from: 1.6"));
    expect(view.why).toBe("Worked out again today, for the day it was issued, 4 of 14 questions are answered otherwise. One of its two guidelines has been edited since.");
    expect(view.guidelines.map((g) => `${g.short}: ${g.since}`)).toEqual(["Full: has been edited since: section potash", "Small: not edited since"]);
    expect(viewOf(edited("region: nowhere", "region: somewhere")).guidelines[0]!.since).toBe("has been edited since: no rule of it, but its description");
  });

  it("links nothing that has no page any more, and tells the publication by its kept citation", () => {
    const folder = archivedFarm().remove("guidelines/full-guide.yaml").remove("guidelines/small-guide.yaml");
    folder.write("farm.yaml", advisedFarm["farm.yaml"]!.replace("[full-guide, small-guide]", "[other-guide]"));
    folder.write("references.yaml", "bulletin-2:\n  title: Another bulletin\n  publisher: A publisher\n");
    folder.write("guidelines/other-guide.yaml", advisedFarm["guidelines/small-guide.yaml"]!.replaceAll("bulletin-1", "bulletin-2"));
    const view = viewOf(folder);
    const potash = view.zones[0]!.rows.find((r) => r.id === "west-k2o")!;
    expect(potash.guideline).toEqual({ short: "Full", id: undefined });
    expect(potash.steps.map((s) => s.source).filter((s) => s?.text.startsWith("A bulletin"))).toEqual([{ text: "A bulletin. A publisher, Table 3" }]);
    expect(view.guidelines.map((g) => g.since)).toEqual(["no longer in the records", "no longer in the records"]);
    expect(view.why).toMatch(/ None of its guidelines has been edited since; two are no longer in the records\.$/);
  });

  it("does not call a guideline edited that is no longer in the records", () => {
    const one = (path: string) => archivedFarm().remove(path).write("farm.yaml", advisedFarm["farm.yaml"]!.replace("[full-guide, small-guide]", path.includes("full") ? "[small-guide]" : "[full-guide]"));
    expect(viewOf(one("guidelines/small-guide.yaml")).why).toMatch(/ None of its guidelines has been edited since; one is no longer in the records\.$/);
    const both = one("guidelines/small-guide.yaml").write("guidelines/full-guide.yaml", advisedFarm["guidelines/full-guide.yaml"]!.replace("from: 1.5", "from: 1.6"));
    expect(viewOf(both).why).toMatch(/ One of its two guidelines has been edited since; one is no longer in the records\.$/);
  });

  it("has an address of its own", () => expect(allPaths(read(archivedFarm()).farm).get("fields/north/recommendations/2025-11-10.html")).toBe(frozenPath));
});

describe("its first sentence", () => {
  const demo = readFarm({ content: library, library }).farm!;
  const first = (farm: Farm, id: string, change: (frozen: Recommendation) => Recommendation = (frozen) => frozen): string => {
    const field = farm.fields.find((f) => f.id === id)!;
    return recommendationView(farm, field, change(field.recommendations[0]!)).lede;
  };
  const only = (...kinds: readonly FrozenAnswer["kind"][]) => (frozen: Recommendation): Recommendation => ({ ...frozen, record: { ...frozen.record, zones: frozen.record.zones.map((z) => ({ ...z, answers: z.answers.filter((a) => kinds.includes(a.kind)) })) } });

  it("says what was to be spread and where, lime first", () => {
    expect(first(demo, "causeway")).toMatch(/^On 5 November 2020 the advice for Causeway was lime on Outwash; phosphate on Knoll and Outwash; potash on .*Outwash\.$/);
    expect(first(demo, "causeway", only("rating"))).toBe("On 5 November 2020 nothing was advised to be spread on Causeway.");
  });

  it("counts the nitrogen of a nitrate test", () => {
    const nitrogen: FrozenAnswer = { question: "n", kind: "nitrogen", subject: "Nitrogen (N)", shown: "72 lb/ac", steps: [] };
    const june = (frozen: Recommendation): Recommendation => ({ ...frozen, record: { ...frozen.record, zones: frozen.record.zones.map((z, i) => ({ ...z, answers: [i === 2 ? nitrogen : { ...nitrogen, shown: "0 lb/ac" }] })) } });
    expect(first(demo, "causeway", june)).toBe("On 5 November 2020 the advice for Causeway was nitrogen on Outwash.");
  });

  it("claims of an excerpt no more than its reader is shown", () => {
    const farm = forAudience(demo, demo.audiences.get("landlord")!);
    const saltings = farm.fields.find((f) => f.id === "saltings")!;
    expect(recommendationView(farm, saltings, saltings.recommendations[0]!).prices).toEqual([{ name: "ground limestone", price: "left out for this reader" }, { name: "Fertilizers", price: "left out for this reader" }]);
    expect(first(farm, "saltings")).toBe("On 25 July 2019 the advice for Saltings that this reader is shown was lime on West lea.");
    expect(first(farm, "saltings", only("rating"))).toBe("On 25 July 2019 nothing that this reader is shown was advised to be spread on Saltings.");
  });
});
