import { describe, expect, it } from "vitest";
import { manureOf } from "../../../src/interpretation/manure.ts";
import { convert } from "../../../src/interpretation/units.ts";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Application, Composite, Farm, Field, PlannedCrop } from "../../../src/records/model.ts";
import type { AudienceRecord } from "../../../src/records/schemas/audience.ts";
import { readSecretFarm } from "../../support/secretFarm.ts";

const whole = readSecretFarm();
const quay = whole.fields.find((f) => f.id === "quay")!;
const shown = (audience: Partial<AudienceRecord>, field: Field = quay): Farm => forAudience({ ...whole, fields: [field] }, { name: "A reader", leaveOut: [], ...audience });
const fieldOf = (...asked: Parameters<typeof shown>): Field => shown(...asked).fields[0]!;

describe("without nitrogen", () => {
  const without = (field?: Field): Field => fieldOf({ leaveOut: ["nitrogen"] }, field);
  const spread = (change: Partial<Application>): Application | undefined => {
    const season = quay.seasons.find((s) => s.season === 2019)!;
    return without({ ...quay, seasons: [{ ...season, applications: [{ ...season.applications[0]!, ...change }] }] }).seasons[0]!.applications[0];
  };
  const product = (id: string) => whole.products.get(id)!;

  it.each(["nitrateN", "mineralN"] as const)("a result of %s goes, whatever the sampling was for", (analyte) => {
    const withNitrate = (c: Composite): Composite => ({ ...c, measurements: [...c.measurements, { ...c.measurements[0]!, analyte, value: 17.5 }] });
    const field = { ...quay, samplings: quay.samplings.map((s) => ({ ...s, composites: s.composites.map(withNitrate) })) };
    const analytes = (f: Field) => new Set(f.samplings.flatMap((s) => s.composites.flatMap((c) => c.measurements.map((m) => m.analyte))));
    expect(analytes(fieldOf({}, field))).toContain(analyte);
    expect(analytes(without(field))).toEqual(new Set(["pH", "bufferPh", "P", "K", "organicMatter", "cec"]));
  });

  it("advice from a nitrate test goes, and other advice stays", () => {
    const nitrate = quay.samplings.find((s) => s.purpose === "nitrate")!;
    const [advice] = quay.recommendations;
    const field = { ...quay, recommendations: [...quay.recommendations, { ...advice!, id: "june", record: { ...advice!.record, sampling: { ...advice!.record.sampling, id: nitrate.id } } }] };
    expect(without(field).recommendations.map((r) => r.id)).toEqual(quay.recommendations.map((r) => r.id));
    expect(fieldOf({}, field).recommendations).toHaveLength(3);
  });

  it("what a product brought besides stays, in kilograms where it was spread in them", () => {
    // 100 kg with 44.91 % of P2O5; 10 t of manure with 7.13 and 11.53 lb a ton, 0.3565 and 0.5765 %.
    expect(spread({ rate: { value: 100, unit: "kg/ha" } })).toMatchObject({ rate: { value: 45, unit: "kg/ha" }, product: { fertilizer: { analysis: { N: 0, P2O5: 100 } } } });
    expect(spread({ product: product("zqcovemanure"), rate: { value: 10, unit: "t/ha" } })).toMatchObject({ rate: { value: 93, unit: "kg/ha" }, product: { fertilizer: { analysis: { N: 0, P2O5: 38.2101, K2O: 61.7899 } } } });
    // 30 m³ of 1.02 kg/l are 30.6 t; 1.2 and 2.5 kg in each m³ are 36 and 75 kg. The analysis and the volume, by which its nitrogen could be looked up, go.
    const slurry = { ...product("zqcovemanure"), manure: manureOf("perCubicMeter", { N: 2.6, P2O5: 1.2, K2O: 2.5 }, convert(1.02, "kg/l", "lb/gal")) };
    const left = spread({ product: slurry, rate: { value: 30.6, unit: "t/ha" }, volume: { value: 30, unit: "m3/ha" } });
    // A day follows the name: "… of nutrients … on 1 March 2025" must not tell when it was left out.
    expect(left!.product.product.name).toBe("nutrients of a product that also held nitrogen (left out for this reader)");
    expect(left).toMatchObject({ rate: { value: 111, unit: "kg/ha" }, volume: undefined, product: { fertilizer: { analysis: { N: 0, P2O5: 32.4324, K2O: 67.5676 } } } });
    expect(JSON.stringify(left)).not.toMatch(/2\.6|m3|manure"/);
    expect(spread({ product: product("zqurea") })).toBeUndefined();
  });

  it("a product that holds none stays as it is", () => {
    const rate = { value: 123.7, unit: "lb/ac" } as const;
    expect(spread({ product: product("potash"), rate })).toMatchObject({ rate, product: { id: "potash" } });
    expect(spread({ product: product("limestone"), rate })).toMatchObject({ rate, product: { id: "limestone" } });
  });

  it("a planned starter that holds any goes, and one that holds none stays", () => {
    const starter = (id: string): PlannedCrop["starter"] => ({ fertilizer: product(id).fertilizer!, rate: { value: 100, unit: "lb/ac" }, placement: "band", rowSpacing: { value: 30, unit: "in" }, source: "common-practice" });
    const planned = (id: string) => without({ ...quay, plan: quay.plan.map((p) => ({ ...p, starter: starter(id) })) }).plan[0]!.starter?.fertilizer.id;
    expect([planned("zqcompound"), planned("potash")]).toEqual([undefined, "potash"]);
  });

  it("a laboratory's package that tests nothing else goes", () => {
    expect(Object.keys(shown({}).labs.get("sand-lab")!.packages)).toEqual(["basic", "zqnitrate"]);
    expect(Object.keys(shown({ leaveOut: ["nitrogen"] }).labs.get("sand-lab")!.packages)).toEqual(["basic"]);
  });
});

it.each([
  [[], ["limestone", "potash", "zqurea", "zqcompound", "shells", "zqsolution", "zqstarter"]],
  [["notes", "positions"], ["limestone", "potash", "zqurea", "zqcompound", "shells", "zqsolution", "zqstarter"]],
  [["costs"], ["limestone", "shells"]],
  [["yields"], ["limestone", "shells"]],
  [["nitrogen"], ["limestone", "shells"]],
] as const)("without %j the list of products holds what can still be chosen from it", (leaveOut, products) => expect([...shown({ leaveOut: [...leaveOut] }).products.keys()]).toEqual(products));

it("holds the farm's own guidelines that its fields are read by, those they rest on and their publications, and no other of its own", () => {
  const cove = whole.fields.find((f) => f.id === "zqcove")!;
  const own = whole.allGuidelines.get("zqrules")!;
  const [base, other] = ["base", "other"].map((id) => ({ ...own, id, publication: `letter-${id}` })) as [typeof own, typeof own];
  const rules = { ...own, extends: "base" };
  const references = new Map([...whole.references, ...[base, other].map(({ publication }) => [publication, { ...whole.references.get("zqletter")!, id: publication }] as const)]);
  const farm = forAudience(
    { ...whole, fields: [{ ...cove, guidelines: [rules] }], allGuidelines: new Map([...whole.allGuidelines, ["zqrules", rules], ["base", base], ["other", other]]), ownGuidelines: new Set(["zqrules", "base", "other"]), references },
    { name: "A reader", leaveOut: [] },
  );
  const has = (ids: readonly string[], held: ReadonlyMap<string, unknown>): boolean[] => ids.map((id) => held.has(id));
  expect(has(["zqrules", "base", "other", "us-tristate-974-2020", "us-iowa-nitrate"], farm.allGuidelines)).toEqual([true, true, false, true, true]);
  expect(has(["zqletter", "letter-base", "letter-other"], farm.references)).toEqual([true, true, false]);
});

it("without positions tells areas to the nearest 100 square meters, and that no location is published", () => {
  const farm = shown({ leaveOut: ["positions"] });
  expect(farm.publish.location).toBe(false);
  quay.zones.forEach((zone, i) => {
    const told = farm.fields[0]!.zones[i]!.squareMeters!;
    expect(told % 100).toBe(0);
    expect(Math.abs(told - zone.squareMeters!)).toBeLessThanOrEqual(50);
  });
});

it("without yields says of which crop one is left out, and of none that had none", () => {
  const bare = { ...quay, plan: [...quay.plan, { ...quay.plan[0]!, yieldGoal: undefined }], seasons: quay.seasons.map((s) => (s.season === 2025 ? { ...s, crops: s.crops.map((c) => ({ ...c, yield: undefined })) } : s)) };
  const { plan, seasons } = fieldOf({ leaveOut: ["yields"] }, bare);
  expect(plan.map((p) => p.yieldWithheld)).toEqual([true, false]);
  expect(seasons.map((s) => [s.season, s.crops[0]!.yieldWithheld])).toEqual([[2017, true], [2018, true], [2019, true], [2025, false], [2026, true]]);
});

describe("of some years", () => {
  it("shows the first and the last whole, and says that the first season may have begun before", () => {
    const { samplings, seasons, plan, recommendations } = fieldOf({ seasons: { from: 2019, to: 2025 } });
    expect(samplings.map((s) => s.id)).toEqual(["2019-10-15", "2025-06-11-nitrate", "2025-10-18"]);
    expect(seasons.map((s) => [s.season, s.part])).toEqual([[2019, true], [2025, undefined]]);
    expect(recommendations.map((r) => r.id)).toEqual(["2019-12-05"]);
    expect(plan).toEqual([]);
    expect(fieldOf({ seasons: { to: 2026 } }).plan).toHaveLength(1);
  });

  it("holds no advice from a sampling before the first, though it was issued in it", () => {
    const late = { ...quay, recommendations: quay.recommendations.map((r) => ({ ...r, record: { ...r.record, issued: "2019-12-05" } })) };
    expect(fieldOf({ seasons: { from: 2019 } }, late).recommendations.map((r) => r.record.sampling.date)).toEqual(["2019-10-15"]);
  });
});
