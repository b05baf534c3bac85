import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { sectionsOf } from "../../../src/interpretation/guideline.ts";
import { shownGuidelines } from "../../../src/views/guidelines/comparison.ts";
import { compareView } from "../../../src/views/guidelines/compareView.ts";
import { samplingView } from "../../../src/views/sampling/samplingView.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { ruleIn, pack } from "../../support/packs.ts";

const demo = readFarm({ content: join(installation, "content"), library: join(installation, "content") }).farm!;

describe("what another test would read, on the comparison page", () => {
  const [section] = compareView(demo).sections;

  it("is told beside the laboratory's own result, with the soils it was found on and its evidence", () => {
    const row = section!.otherTests.find((t) => t.pack.id === "us-ohio-test-relations" && t.text.startsWith("Phosphorus"))!;
    expect(row.text).toMatch(/^Phosphorus, \d+ ppm by Mehlich-3, is about \d+ ppm by Bray P1, as found on soils of Ohio and Indiana\.$/);
    expect(row.evidence?.grade).toBe("derived");
  });

  it("comes with a page of the relation", () => expect([...shownGuidelines(demo).keys()]).toContain("us-ohio-test-relations"));
});

it("names each guideline that the comparison asks alone: others that are chosen hold what it lacks", () => {
  const causeway = demo.fields.find((f) => f.id === "causeway")!;
  const said = new Map(compareView({ ...demo, fields: [causeway] }).sections[0]!.silent.flatMap((s) => s.names.split(/, | and /).map((name) => [name, s.reasons] as const)));
  expect(compareView({ ...demo, fields: [causeway] }).sections[0]!.silentCount).toBe(said.size);
  expect(said.get("western Oregon 2013")).toBe("the guideline holds no lime table");
  expect(said.get("Penn State turf")).toBe("the guideline holds no lime table for this crop");
  expect(said.get("Iowa 2002")).toBe("the buffer used was the Sikora buffer, and the guideline reads the SMP buffer; a buffer pH is never read in another buffer's table");
  expect(said.get("Ontario Publication 811")).toBe("phosphorus was measured by Mehlich-3, ICP and the guideline is calibrated for Olsen; the guideline has no phosphate table for soybean");
  expect([...said.values()].filter((reasons) => reasons.includes("chosen"))).toEqual([]);
});

describe("a base that may be short, on a sampling's page", () => {
  const [field, sampling] = demo.fields.flatMap((f) => f.samplings.flatMap((each) => (samplingView(demo, f, each).cations.shown.length > 0 ? [[f, each] as const] : [])))[0]!;
  const michigan = pack("us-michigan-base-saturation");
  const asking = (least: number) => ({ ...field, guidelines: [...field.guidelines, { ...michigan, sections: [{ ...ruleIn(michigan, "magnesium", "baseShare"), least }] }] });

  it("is named where its guideline is chosen and its share is too small", () => {
    const views = samplingView(demo, asking(60), sampling).cations.shown;
    expect(views.length).toBeGreaterThan(0);
    for (const view of views) expect(view.short).toEqual([expect.stringMatching(/^Magnesium should hold more than 60 percent of the bases, and more than potassium does\. It holds [\d.]+ percent, and potassium [\d.]+: it may be short\.$/)]);
  });
  it("is not named otherwise", () => {
    expect(sectionsOf(field.guidelines[0]!, "baseShare")).toEqual([]);
    for (const view of samplingView(demo, field, sampling).cations.shown) expect(view.short).toEqual([]);
  });
  it("has no sum where the acidity of its buffer is not known, said once for all zones alike", () => {
    const causeway = demo.fields.find((f) => f.id === "causeway")!;
    const newest = causeway.samplings.findLast((each) => each.purpose === "routine")!;
    expect(samplingView(demo, causeway, newest).cations).toEqual({ shown: [], silent: ["No sum of cations for Knoll, Apron and Outwash, because no acidity term is known for the Sikora buffer, and each term belongs to its own buffer."] });
  });
});
