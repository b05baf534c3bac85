import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { advise } from "../../src/interpretation/advise.ts";
import type { Measurement } from "../../src/interpretation/measurement.ts";
import { rate } from "../../src/interpretation/rating.ts";
import type { Sample } from "../../src/interpretation/sample.ts";
import type { CropId, NutrientId } from "../../src/interpretation/vocabulary.ts";
import { fullSample } from "../support/fullSample.ts";
import { measured } from "../support/measured.ts";
import { answered, expectRefusal } from "../support/outcomes.ts";
import { installedPacks } from "../support/packs.ts";
import type { Facts } from "../../src/interpretation/rules/facts.ts";

/** What publications hold ready for a program that reads them too quickly. The numbers stand in tests/cases with their sources. */
const six = { depth: { from: 0, to: 6, unit: "in" } } as const;
const uk = { unit: "mg/l", depth: { from: 0, to: 15, unit: "cm" } } as const;
const ie = { method: "morgan", unit: "mg/l", depth: { from: 0, to: 10, unit: "cm" } } as const;

const ask = (id: string, tests: readonly Measurement[], facts: Facts, yieldGoal?: Sample["yieldGoal"]) =>
  advise({ ...fullSample, packs: [installedPacks.get(id)], own: undefined, facts, yieldGoal, measurements: tests });
const rateOf = (id: string, nutrient: NutrientId, test: Measurement, facts: Facts, yieldGoal?: Sample["yieldGoal"]) =>
  ask(id, [test], facts, yieldGoal).rates.find((r) => r.nutrient === nutrient)!.outcome;
const pounds = (...args: Parameters<typeof rateOf>): number => answered(rateOf(...args)).value.rate.value;
const classOf = (id: string, test: Measurement, facts: Facts = {}) => answered(rate({ facts, packs: [installedPacks.get(id)], own: undefined }, test).outcome);
const bushels = (value: number) => ({ value, unit: "bu/ac" }) as const;
const tonnes = (value: number) => ({ value, unit: "t/ha" }) as const;

describe("classes", () => {
  it("printed in whole numbers leave gaps: the result is rounded first, and the sum says so", () => {
    const at = (value: number) => classOf("us-newjersey-rutgers", measured("P", value, { unit: "lb/ac" }));
    expect([45, 45.4, 45.5, 46].map((v) => at(v).value.band)).toEqual(["low", "low", "medium", "medium"]);
    expect(at(45.4).steps.at(-1)!.note).toMatch(/^read as 45, since the printed classes leave gaps between them; /);
    expect(at(45).steps.at(-1)!.note).not.toMatch(/read as/);
  });

  it("are placed by what they mean: a critical level may be the bottom of the range to be in, its top, or where rates end", () => {
    const corn: Facts = { crop: "corn", texture: "siltLoam" };
    expect([19.9, 20].map((v) => classOf("us-tristate-974-2020", measured("P", v), corn).value.position)).toEqual(["below", "within"]);
    expect([20, 21].map((v) => classOf("us-wisconsin-a2809", measured("P", v, { method: "bray1" }), corn).value.position)).toEqual(["within", "above"]);
    expect([15, 15.1].map((v) => classOf("us-nebraska-ec155", measured("P", v, { method: "bray1" }), corn).value.position)).toEqual(["below", "above"]);
  });

  it("called high are the target in New Jersey and above it in Iowa", () => {
    expect(classOf("us-newjersey-rutgers", measured("P", 100, { unit: "lb/ac" })).value).toMatchObject({ band: "high", position: "within" });
    expect(classOf("us-iowa-pm1688-2013", measured("P", 25, { method: "bray1", ...six }), { crop: "corn" }).value).toMatchObject({ band: "high", position: "above" });
  });

  it("that are the target of one rotation lie below that of another, and without a crop those of arable land count", () => {
    const potassium = measured("K", 150, { method: "ammoniumNitrate", ...uk });
    const phosphorus = measured("P", 30, { method: "olsen", ...uk });
    const positions = (facts: Facts) => [potassium, phosphorus].map((test) => classOf("uk-rb209-2023", test, facts).value.position);
    expect(positions({ crop: "cabbage" })).toEqual(["below", "within"]);
    expect(positions({ crop: "oats" })).toEqual(["within", "above"]);
    expect(positions({})).toEqual(["within", "above"]);
    expect(rateOf("uk-rb209-2023", "P2O5", measured("P", 50, { method: "olsen", ...uk }), { crop: "lettuce" })).toMatchObject({ kind: "noAnswer", because: expect.stringMatching(/up to 60 kg\/ha as a starter may help, and no rate is printed/) as string });
    expect(pounds("uk-rb209-2023", "P2O5", measured("P", 50, { method: "olsen", ...uk }), { crop: "celery" })).toBe(50);
  });

  // RB209 (June 2023), section 4, pages 23 and 35, and section 3, forage maize and magnesium of grass.
  it("where a dressing is printed for three or four years are told in those words, as no rate for one", () => {
    const magnesia = (mg: number, crop: CropId) => rateOf("uk-rb209-2023", "MgO", measured("Mg", mg, { method: "ammoniumNitrate", ...uk, ...(crop === "grassHay" && { depth: { from: 0, to: 7.5, unit: "cm" } }) }), { crop });
    for (const [mg, crop] of [[25, "winterWheat"], [25, "rye"], [50, "linseed"], [25, "forageMaize"], [25, "grassHay"]] as const) {
      expectRefusal(magnesia(mg, crop), /^RB209 2023 gives 50 to 100 kg\/ha every three or four years, and no rate for one season$/);
      expect(answered(magnesia(mg + 1, crop)).value.rate.value).toBe(0);
    }
  });

  it("may be halves of one, which only some crops read", () => {
    const potash = (value: number, crop: "potatoes" | "forageMaize", yieldGoal: number) => pounds("uk-rb209-2010", "K2O", measured("K", value, { method: "ammoniumNitrate", ...uk }), { crop }, tonnes(yieldGoal));
    expect([150, 200].map((k) => potash(k, "forageMaize", 40))).toEqual([175, 145]);
    expect([150, 200].map((k) => potash(k, "potatoes", 50))).toEqual([300, 300]);
  });

  it("overlap where the printer slipped, and the reading is stated", () => {
    const { value, steps } = classOf("ie-teagasc", measured("Mg", 50, ie));
    expect(value.band).toBe("index 2");
    expect(steps.at(-1)!.note).toMatch(/50 stands in two classes/);
    expectRefusal(rateOf("us-montana-alfalfa", "P2O5", measured("P", 18, { method: "olsen", ...six }), { crop: "alfalfa" }, { value: 5, unit: "ton/ac" }), /the page prints 2 to 4 lb a ton above 18 ppm, “especially” for silt loams/, "the rate of Montana alfalfa in the class “18 ppm or more”");
  });
});

describe("rates", () => {
  // RB209, section 5 (2021), timing of application.
  it("over 300 kg/ha of potash for potatoes are two dressings, but on light sand", () => {
    const dosesOf = (k: number, texture: Facts["texture"], goal = 50) => answered(rateOf("uk-rb209-2023", "K2O", measured("K", k, { method: "ammoniumNitrate", ...uk }), { crop: "potatoes", texture }, tonnes(goal))).value.doses;
    expect(dosesOf(90, "clayLoam")).toEqual([{ when: "in late autumn or winter", value: 165 }, { when: "in spring", value: 165 }]);
    expect(dosesOf(90, undefined)).toHaveLength(2);
    expect(dosesOf(90, "loamySand")).toBeUndefined();
    expect(dosesOf(150, "clayLoam")).toBeUndefined();
    expect(dosesOf(150, "clayLoam", 51)).toHaveLength(2);
  });

  // RB209 (June 2023), section 3, taking soil samples: 7.5 cm in long-term grass, 15 cm in leys of less than five years.
  it("of grass are read from either depth that the guide samples it to, and the sum says whose the deeper one is", () => {
    const grass = (to: number) => rateOf("uk-rb209-2023", "P2O5", measured("P", 12, { method: "olsen", unit: "mg/l", depth: { from: 0, to, unit: "cm" } }), { crop: "grassHay" });
    const deeper = (to: number) => answered(grass(to)).steps.filter((s) => s.what === "Depth sampled").map((s) => `${s.result}: ${s.note}`);
    expect(deeper(7.5)).toEqual([]);
    expect(deeper(15)).toEqual(["0 to 15 cm: leys of less than five years, and grass about to be ploughed; longer-standing grass is sampled to 7.5 cm"]);
    expectRefusal(grass(23), /^the sample was taken 0 to 23 cm deep and RB209 2023 is calibrated for 0 to 7.5 cm or 0 to 15 cm$/, "a sample 0 to 7.5 cm or 0 to 15 cm deep");
  });

  it("at optimum replace removal and are not nothing", () => {
    expect(pounds("us-tristate-974-2020", "P2O5", measured("P", 30), { crop: "corn" }, bushels(200))).toBeCloseTo(70, 9);
    expect(pounds("us-iowa-pm1688-2013", "P2O5", measured("P", 18, { method: "bray1", ...six }), { crop: "corn" }, bushels(180))).toBeCloseTo(57.6, 9);
    expect(pounds("uk-rb209-2010", "P2O5", measured("P", 20, { method: "olsen", ...uk }), { crop: "winterWheat", straw: "incorporated" }, tonnes(8))).toBe(60);
  });

  it("are elements in Ireland and oxides in Britain, and neither is turned into the other", () => {
    const irish = ask("ie-teagasc", [measured("P", 5, ie), measured("K", 80, ie)], { crop: "springBarley", soilPh: 6.5 }, tonnes(6.5)).rates;
    expect(irish.map((r) => [r.nutrient, answered(r.outcome).value.rate.value])).toEqual([["P", 35], ["K", 90]]);
    // A second guideline that prints oxides for other crops must not say that there is no phosphate rate for this one.
    const both = advise({ ...fullSample, packs: [installedPacks.get("ie-teagasc"), installedPacks.get("ca-ontario-pub811")], facts: { crop: "springBarley" }, yieldGoal: tonnes(6.5), measurements: [measured("P", 5, ie)] });
    expect(both.rates.map((r) => r.nutrient)).toEqual(["P", "K"]);
    // Nor one that prints them for this crop and reads another extractant; and where nobody answers, each says why.
    const neighbors = (facts: Facts, tests = [measured("P", 5, ie)]) => advise({ ...fullSample, packs: [installedPacks.get("ie-teagasc"), installedPacks.get("uk-rb209-2010")], own: undefined, facts, yieldGoal: facts.yieldWithheld ? undefined : tonnes(6.5), measurements: tests }).rates;
    const barley = { crop: "springBarley", straw: "removed", soilPh: 6.5 } as const;
    const olsen = measured("P", 20, { method: "olsen", ...uk });
    const said = (rates: ReturnType<typeof neighbors>) => rates.filter((r) => r.analyte === "P").map((r) => [r.nutrient, r.outcome.kind === "answer" ? r.outcome.value.rate.value : r.outcome.because]);
    expect(said(neighbors(barley))).toEqual([["P", 35]]);
    expect(said(neighbors(barley, [measured("P", 5, ie), olsen]))).toEqual([["P", 35]]);
    expect(said(neighbors(barley, [olsen])).map(([nutrient]) => nutrient)).toEqual(["P2O5"]);
    expect(said(neighbors({ crop: "grassSilageTwoCuts" })).map(([nutrient]) => nutrient)).toEqual(["P2O5", "P"]);
    expect(said(neighbors({ ...barley, yieldWithheld: true }))).toEqual([["P", "it rests on a yield, which is left out for this reader"]]);
    const british = ask("uk-rb209-2010", [measured("P", 20, { method: "olsen", ...uk })], { crop: "potatoes" }, tonnes(50)).rates;
    expect(british.filter((r) => r.outcome.kind === "answer").map((r) => r.nutrient)).toEqual(["P2O5"]);
  });

  it("are rounded where the publication's own table is, and only there: 106 and not 108", () =>
    expect(pounds("uk-rb209-2010", "P2O5", measured("P", 12, { method: "olsen", ...uk }), { crop: "winterWheat", straw: "incorporated" }, tonnes(10))).toBeCloseTo(105.6, 9));

  it("along a parabola end at its vertex and never fall below zero, and the misprinted equation is not there", () => {
    const plot = (index: number) => pounds("us-northcarolina-circular1-2014", "P2O5", measured("P", index, { unit: "index" }), { crop: "deerTurkeyFoodPlot", soilClass: "mineral" });
    expect([85, 86, 118, 119, 240, 400].map(plot)).toEqual([expect.closeTo(0.06, 9), 0, 0, 0, 0, 0]);
    const equations = installedPacks.get("us-northcarolina-circular1-2014").sections.flatMap((s) => (s.kind === "quadraticIndex" ? s.equations.map((e) => e.number) : []));
    expect(equations).not.toContain(22);
  });

  it("along a line never fall below zero", () => {
    expect(pounds("us-minnesota-agronomic", "P2O5", measured("P", 40, { method: "bray1", ...six }), { crop: "corn" }, bushels(200))).toBe(0);
    expect(pounds("us-southdakota-s-cl", "Cl", measured("Cl", 90, { method: "calciumNitrate", unit: "lb/ac", depth: { from: 0, to: 24, unit: "in" } }), { crop: "wheat" })).toBe(0);
  });

  it("may be doses, and ranges", () => {
    const silage = answered(rateOf("uk-rb209-2010", "K2O", measured("K", 90, { method: "ammoniumNitrate", unit: "mg/l", depth: { from: 0, to: 7.5, unit: "cm" } }), { crop: "grassSilageTwoCuts" })).value;
    expect(silage.doses).toEqual([
      { when: "in the autumn before", value: 30 },
      { when: "in spring for the first cut", value: 80 },
      { when: "for the second cut", value: 100 },
      { when: "after the last cut or by autumn", value: 60 },
    ]);
    expect(silage.rate.value).toBe(270);
    expect(answered(rateOf("us-oregon-alfalfa-1965", "P2O5", measured("P", 18, { method: "olsen", unit: "lb/ac" }), { crop: "alfalfa" })).value).toMatchObject({ rate: { value: 60 }, to: 80 });
  });

  it("are corrected for yield by nutrient, and not above the target", () => {
    const potatoes = (nutrient: "P2O5" | "K2O", value: number, goal: number) =>
      pounds("uk-rb209-2010", nutrient, measured(nutrient === "P2O5" ? "P" : "K", value, { method: nutrient === "P2O5" ? "olsen" : "ammoniumNitrate", ...uk }), { crop: "potatoes" }, tonnes(goal));
    expect([50, 60].map((goal) => potatoes("P2O5", 20, goal))).toEqual([170, 170]);
    expect([50, 60].map((goal) => potatoes("K2O", 150, goal))).toEqual([300, 358]);
    expect([50, 60].map((goal) => potatoes("K2O", 300, goal))).toEqual([150, 150]);
  });

  it("of nothing may be reopened by a second condition, which must then be known", () => {
    const barley = (facts: Facts) => rateOf("ie-teagasc", "P", measured("P", 12, ie), { crop: "springBarley", ...facts }, tonnes(6.5));
    expect([6.9, 7].map((soilPh) => answered(barley({ soilPh })).value.rate.value)).toEqual([0, 20]);
    expectRefusal(barley({}), /the soil pH is not known, and Teagasc decides by it in this class/, "soilPh");
    const beet = (facts: Facts) => rateOf("uk-rb209-2010", "Na2O", measured("K", 150, { method: "ammoniumNitrate", ...uk }), { crop: "sugarBeet", ...facts });
    expect([24, 25].map((sodium) => answered(beet({ sodium })).value.rate.value)).toEqual([100, 0]);
  });

  it("that look like a slip of the press are kept, and flagged", () =>
    expect(answered(rateOf("ie-teagasc", "K", measured("K", 80, ie), { crop: "springBarley" }, tonnes(8.5))).value).toMatchObject({ rate: { value: 120 }, doubt: expect.stringMatching(/110 would fit/) as string }));
});

describe("editions", () => {
  const packs = readdirSync(new URL("../../content/guidelines/", import.meta.url)).map((name) => installedPacks.get(name.replace(/\.yaml$/, "")));

  it("that are superseded say by what, and are used with a caution", () => {
    const old = packs.filter((p) => p.status === "superseded");
    expect(old.length).toBeGreaterThan(5);
    for (const each of old) expect(each.supersededBy, each.id).toMatch(/\S{4}/);
    const potash = (id: string, method: "ammoniumAcetate" | "mehlich3") => ask(id, [measured("K", 90, { method })], { crop: "corn", cec: 10 }, bushels(150));
    expect(potash("us-tristate-e2567-1995", "ammoniumAcetate").cautions).toContain("superseded");
    expect(potash("us-tristate-974-2020", "mehlich3").cautions).not.toContain("superseded");
  });

  it("give their own rates, each with its own source", () => {
    const at = (id: string, method: "ammoniumAcetate" | "mehlich3") => answered(rateOf(id, "K2O", measured("K", 90, { method }), { crop: "corn", cec: 10 }, bushels(150)));
    expect(at("us-tristate-e2567-1995", "ammoniumAcetate").value.rate.value).toBeCloseTo(10 * 1.5 + 150 * 0.27 + 20, 9);
    expect(at("us-tristate-974-2020", "mehlich3").value.rate.value).toBeCloseTo(30 * 1.5 + 150 * 0.2 + 20, 9);
  });
});
