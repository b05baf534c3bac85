import { describe, expect, it } from "vitest";
import type { Farm } from "../../../src/records/model.ts";
import { awaitedOf, awaitedWords, isAnswered } from "../../../src/views/results/awaited.ts";
import { fieldView } from "../../../src/views/field/field.ts";
import { homeView } from "../../../src/views/home/home.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { samplingView } from "../../../src/views/sampling/samplingView.ts";
import { seasonGaps } from "../../../src/views/season/seasonGaps.ts";
import { summaryLines } from "../../../src/views/summary/summaryLines.ts";
import { timelineYears } from "../../../src/views/field/timeline.ts";
import { advisedFarm, farmIn } from "../../support/archived.ts";
import type { FarmFolder } from "../../support/farmFolder.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";

const event = (west: string, east: string): string => `date: 2026-10-03
purpose: routine
lab: north-lab
package: basic
depth: { from: 0, to: 8, unit: in }
composites:
  - { label: "NO-A-2610-1", zone: west, results: ${west} }
  - { label: "NO-B-2610-1", zone: east, results: ${east} }
`;
const file = "fields/north/samplings/2026-10-03.yaml";
const farmWith = (west: string, east: string): Farm => farmIn(farmFolder(Object.entries(advisedFarm)).write(file, event(west, east)));
const alone = (): Farm => {
  const folder: FarmFolder = farmFolder(Object.entries(advisedFarm)).remove("fields/north/samplings").write(file, event("{}", "{}"));
  return farmIn(folder);
};
const newest = (farm: Farm) => farm.fields[0]!.samplings.at(-1)!;
const zonesOf = (farm: Farm) => farm.fields[0]!.zones.map((zone) => latestAdvice(farm, farm.fields[0]!, zone)?.sampling.date);

describe("a bag that has not come back", () => {
  it("gives no advice, and the sampling before goes on giving it", () => {
    const farm = farmWith("{}", "{ pH: 6.0, K: 90 }");
    expect(zonesOf(farm)).toEqual(["2025-10-18", "2026-10-03"]);
    expect([isAnswered(newest(farm), "west"), isAnswered(newest(farm), "east")]).toEqual([false, true]);
  });

  it("is told on the sampling's page, the field's, the home page and the timeline", () => {
    const farm = farmWith("{}", "{ pH: 6.0 }");
    const field = farm.fields[0]!;
    const view = samplingView(farm, field, newest(farm));
    expect(view.lede).toMatch(/; results of one bag awaited\.$/);
    expect(view.results.map((r) => r.cells.map((c) => c.value))).toEqual([["awaited", "6.0"]]);
    expect(fieldView(farm, field).facts).toContainEqual({ term: "Results awaited", value: "One bag of 3 October 2026 is at North Laboratory." });
    expect(homeView(farm).tasks).toContainEqual(expect.objectContaining({ text: "Results awaited", urgent: false, job: false, detail: "One bag of 3 October 2026 is at North Laboratory." }));
    expect(timelineYears(field).flatMap((y) => y.entries.map((e) => e.text))).toContain("Routine sampling, two bags, North Laboratory, results of one bag awaited");
  });

  it("is all there is to say of a field sampled for the first time", () => {
    const farm = alone();
    const field = farm.fields[0]!;
    expect(zonesOf(farm)).toEqual([undefined, undefined]);
    expect(fieldView(farm, field).lede).toBe("Results are awaited. Two bags of 3 October 2026 are at North Laboratory.");
    expect(samplingView(farm, field, newest(farm))).toMatchObject({ lede: "North Field, every zone: 2 bags, sent to North Laboratory; results awaited.", results: [], classesNote: "No result yet: every bag is awaited, and until they come back the sampling before goes on speaking." });
    expect(homeView(farm).zones!.fields[0]!.zones.map((z) => z.sampled)).toEqual(["results awaited", "results awaited"]);
  });

  it("is why such a field has no advice, wherever a page says that it has none", () => {
    const farm = alone();
    const field = farm.fields[0]!;
    const view = fieldView(farm, field);
    expect(view.noAdvice).toBe("No advice, because the laboratory's results are awaited.");
    expect(view.worth.zones.map((z) => z.says)).toEqual(["No comparison, because its results are awaited.", "No comparison, because its results are awaited."]);
    expect(seasonGaps(farm)).toMatchObject([{ text: "No advice, because the laboratory's results are awaited.", missing: ["the results of its bags"] }]);
    const dated = farmFolder().change("farm.yaml", "[small-guide]", "[us-tristate-974-2020]").remove("fields/north/samplings").write(file, event("{}", "{}")).read({ library }).farm!;
    expect(summaryLines(dated, dated.fields).fields[0]).toMatchObject({ sampled: "results awaited", inTime: "results awaited" });
  });

  it("is said of no event whose bags all came back", () => {
    const farm = farmWith("{ pH: 6.1 }", "{ pH: 6.0 }");
    expect(awaitedWords(newest(farm))).toBeUndefined();
    expect(awaitedOf(farm.fields[0]!)).toEqual([]);
  });
});
