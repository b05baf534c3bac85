import { join } from "node:path";
import { expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { eventQualityView } from "../../../src/views/sampling/eventQualityView.ts";
import { fieldView } from "../../../src/views/field/field.ts";
import { careOf, careOfAdvice } from "../../../src/views/advice/samplingQuality.ts";
import { samplingView } from "../../../src/views/sampling/samplingView.ts";
import type { Field } from "../../../src/records/model.ts";
import { pack } from "../../support/packs.ts";

const read = (...folder: string[]) => readFarm({ content: join(installation, ...folder), library: join(installation, "content") }).farm!;
const demo = read("content");
const labchange = read("tests", "fixtures", "labchange");
const causeway = demo.fields.find((f) => f.id === "causeway")!;
const says = (id: string): string => eventQualityView(demo, causeway, causeway.samplings.find((s) => s.id === id)!).says;

it("says of a sampling taken well that nothing speaks against it", () => {
  expect(says("2025-10-18")).toBe("Nothing in how it was taken speaks against it; eleven things were looked at.");
});

it("says what to read with care where laboratory and methods changed", () => {
  expect(says("2018-10-23")).toBe("Read with care: laboratory and methods. The other nine are fine.");
});

// Iowa's late-spring test: at least 24 cores where more than 50 lb N/ac was banded as anhydrous ammonia, else 16 to 24. Nothing but ammonia is 82-0-0.
it("judges the cores of a June test by the nitrogen that the season records, as the rate beside it does", () => {
  const june = causeway.samplings.find((s) => s.id === "2025-06-11-nitrate")!;
  const cores = (seasons: Field["seasons"]) => {
    const { composites, ...rest } = june;
    const field = { ...causeway, seasons, samplings: [{ ...rest, composites: [...composites] }] };
    return samplingView({ ...demo, fields: [field] }, field, field.samplings[0]!).quality.rows.find((r) => r.id === "cores");
  };
  expect(cores(causeway.seasons)).toMatchObject({ verdict: "fine", words: "18 cores a bag; the guideline asks for 16 to 24." });
  const asAmmonia = (pounds: number) =>
    causeway.seasons.map((s) => ({
      ...s,
      applications: s.applications.map((a) => (s.season === 2025 && a.product.fertilizer ? { ...a, rate: { value: pounds, unit: "lb/ac" as const }, product: { ...a.product, fertilizer: { ...a.product.fertilizer, analysis: { N: 82, P2O5: 0, K2O: 0 } } } } : a)),
    }));
  expect(cores(asAmmonia(100))).toMatchObject({ verdict: "read with care", words: "18 cores a bag, where the guideline asks for at least 24: the results stray more than they would have." });
  // 60 x 0.82 is 49 lb.
  expect(cores(asAmmonia(60))).toMatchObject({ verdict: "fine" });
  expect(cores(causeway.seasons.filter((s) => s.season !== 2025))).toMatchObject({ verdict: "not judged" });
});

it("stands on the sampling's page, each line with its verdict and source", () => {
  const { quality } = samplingView(demo, causeway, causeway.samplings[0]!);
  expect(quality.rows.find((r) => r.id === "pail")).toMatchObject({ verdict: "fine", words: "Mixed in a metal pail; zinc, the test that it spoils, was not made.", evidence: { grade: "read" } });
  expect(quality.rows.find((r) => r.id === "area")!.source!.text).toContain("Bulletin 974");
});

it("lowers the words beside the newest results and their advice on the field's page", () => {
  const [field] = labchange.fields;
  const view = fieldView(labchange, field!);
  const care = view.trends.flatMap((t) => t.model.panels.map((p) => [t.model.analyte, p.zone.name, p.verdict.care]));
  expect(care).toContainEqual(["pH", "East half", "Taken shallower than before and tested by another laboratory than before: read soil pH with care."]);
  expect(care.filter(([, zone]) => zone === "West half").every(([, , words]) => words === undefined)).toBe(true);
  expect(view.advice.map((a) => [a.zone.name, a.care])).toContainEqual(["East half", "Taken shallower than before: read soil pH, phosphorus and potassium with care."]);
});

it("says nothing beside results that were taken well", () => {
  const view = fieldView(demo, causeway);
  expect(view.trends.flatMap((t) => t.model.panels.flatMap((p) => p.verdict.care ?? []))).toEqual([]);
});

it("sets the crop before beside that of the sampling before, once the field's guidelines ask for the same one", () => {
  const asking = { ...causeway, guidelines: [...causeway.guidelines, pack("us-iowa-sampling")], samplings: causeway.samplings.map((s) => ({ ...s })) };
  const row = (id: string): string[] => eventQualityView(demo, asking, asking.samplings.find((s) => s.id === id)!).rows.flatMap((r) => (r.id === "cropBefore" ? [r.verdict, r.words] : []));
  // Corn was harvested eight days before, soybean ten days before the one of 2023; 2020 bore soybean too.
  expect(row("2025-10-18")).toEqual(["read with care", expect.stringMatching(/^Taken after corn, the one before, October 2023, after soybean; /)]);
  expect(row("2023-10-17")).toEqual(["fine", "Taken after soybean, as in October 2020."]);
  // In spring the crop before is last year's: wheat in 2021, corn in 2019.
  expect(row("2022-04-13")[1]).toMatch(/^Taken after wheat, the one before, April 2020, after corn; /);
  // Iowa's six inches are asked too, and Tri-State reads its eight: the depth is no fault. Advice rests on one event and not on the crop before.
  const newest = asking.samplings.at(-1)!;
  expect(careOf(asking, newest, ["K"])).toBe("Taken after corn, the one before after soybean: read potassium with care.");
  expect(careOfAdvice(asking, newest, ["K"])).toBeUndefined();
});
