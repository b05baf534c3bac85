import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { indexConversionsCheck, indexOfftakeCheck } from "../../../src/interpretation/checks/indexOfftakeCheck.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import { nutrientRates } from "../../../src/interpretation/nutrientRates.ts";
import { buildUpByIndexOfftake, rateByIndexOfftake } from "../../../src/interpretation/rules/indexOfftake.ts";
import { rateByIndex } from "../../../src/interpretation/rules/indexClasses.ts";
import { targetPhFor } from "../../../src/interpretation/rules/targetPh.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { strawIds } from "../../../src/interpretation/vocabulary.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measuredFor } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";
import type { Facts } from "../../../src/interpretation/rules/facts.ts";
import type { IndexOfftakeRule } from "../../../src/interpretation/rules/indexRule.ts";
import { indexOfftakeRule } from "../../../src/interpretation/rules/indexRule.ts";

const tonnes = (value: number | undefined) => (value === undefined ? undefined : ({ value, unit: "t/ha" } as const));
const ask = (rule: IndexOfftakeRule, m: Measurement, facts: Facts, yieldGoal?: number) =>
  rateByIndexOfftake(rule, m, { facts, yieldGoal: tonnes(yieldGoal), removal: undefined, pack: "the manual" });

describe("index, table, offtake and yield, as published", () => {
  checkedAsPublished(indexOfftakeCheck);
  checkedAsPublished(indexConversionsCheck);
});

const uk = pack("uk-rb209-2010");
const ireland = pack("ie-teagasc");
const ontario = pack("ca-ontario-pub811");
const allRules = [uk, ireland, ontario].flatMap((p) => p.sections.flatMap((s) => (s.kind === "indexOfftake" ? [{ name: `${p.id}/${s.id}`, rule: s }] : [])));
const phosphate = ruleIn(uk, "phosphate", "indexOfftake");
const potash = ruleIn(uk, "potash", "indexOfftake");
const sodium = ruleIn(uk, "sodium", "indexOfftake");
const grassPotash = ruleIn(uk, "potash-grass", "indexOfftake");
const phosphorus = ruleIn(ireland, "phosphorus", "indexOfftake");
const potassium = ruleIn(ireland, "potassium", "indexOfftake");

describe("phosphorus on organic soil in Ireland", () => {
  const at = (value: number, facts: Partial<Facts>) => ask(phosphorus, measuredFor(phosphorus.limits, "P", value), { crop: "grassSilageSecondCut", ...facts });
  const rate = (value: number, facts: Partial<Facts>): number => answered(at(value, facts)).value.rate.value;

  it("is no more than at index 3, where muck or more than 20 percent organic matter is on record", () => {
    expect([2, 4, 7, 12].map((p) => rate(p, { texture: "loam" }))).toEqual([30, 20, 10, 0]);
    expect([2, 4, 7, 12].map((p) => rate(p, { texture: "muck" }))).toEqual([10, 10, 10, 0]);
    expect(rate(2, { organicMatter: 20 })).toBe(30);
    expect(rate(2, { organicMatter: 20.1 })).toBe(10);
    expect(answered(at(2, { texture: "muck" })).steps.map((s) => s.what)).toContain("On organic soil no more than at index 3");
  });

  it("keeps the class of the test itself, and says what was taken for granted where nothing tells", () => {
    expect(answered(at(2, { texture: "muck" })).value.rating?.band).toBe("index 1");
    expect(answered(at(2, {})).steps.find((s) => s.what === "Taken for granted")!.result).toMatch(/^a mineral soil/);
    expect(answered(at(7, {})).steps.map((s) => s.what)).not.toContain("Taken for granted");
  });

  it("is refused where the record contradicts itself, and owes the soil no build-up", () => {
    expectRefusal(at(2, { texture: "muck", organicMatter: 4 }), /contradict each other\) is not known, and the manual gives organic soil less phosphorus$/, "texture and organicMatter that agree");
    const owed = buildUpByIndexOfftake(phosphorus, measuredFor(phosphorus.limits, "P", 2), { facts: { crop: "grassSilageSecondCut", texture: "muck" }, yieldGoal: undefined, removal: undefined, pack: "the manual" });
    expect(answered(owed).value.amount.value).toBe(0);
  });
});

it("tells of a crop that no table names before the depth of the sample, which would settle nothing", () => {
  const grazed = { crop: "grassPasture" } as const;
  expectRefusal(ask(phosphate, { ...measuredFor(phosphate.limits, "P", 14), depth: { from: 0, to: 7.5, unit: "cm" } }, grazed), /^the manual has no phosphate table for grass pasture$/, "a guideline for grass pasture");
});

it.each(["grassPasture", "grassHay"] as const)("classes %s as the grassland it is, though no rate is printed for it", (crop) => {
  expect(answered(rateByIndex(phosphorus, measuredFor(phosphorus.limits, "P", 5.5), { crop }, "the manual")).value.band).toBe("index 3");
  for (const id of ["uk-rb209-2010", "ie-teagasc"])
    expect(answered(targetPhFor(ruleIn(pack(id), "target-ph", "targetPh"), { crop, texture: "loam" }, undefined, id)).value.target).toBe(id === "ie-teagasc" ? 6.3 : 6.2);
});

const cropsOf = (rule: IndexOfftakeRule): CropId[] => [...new Set(rule.crops.flatMap((c) => c.when?.crops ?? []))];
const shipped = allRules.flatMap(({ name, rule }) => cropsOf(rule).map((crop) => ({ name: `${name}, ${crop}`, rule, crop })));

// Teagasc prints 120 kg/ha of potash at 8.5 t/ha and index 2, where every other row rises by 10 for each t.
it("a doubtful cell is told wherever the line touches it, from above and from below, and nowhere else", () => {
  const barley = (goal: number, rule = potassium) => answered(ask(rule, measuredFor(rule.limits, "K", 70), { crop: "springBarley" }, goal)).steps.map((s) => s.note).join();
  const [first, ...others] = potassium.crops;
  const [part] = first!.parts;
  const moved = { ...potassium, crops: [{ ...first!, parts: [{ ...part!, doubtful: part!.doubtful!.map((d) => ({ ...d, yield: 7.5 })) }] }, ...others] };
  expect([6.5, 7, 7.5, 8, 8.5].map((goal) => /120 is printed/.test(barley(goal)))).toEqual([false, false, false, true, true]);
  expect([6.5, 7, 7.5, 8, 8.5].map((goal) => /120 is printed/.test(barley(goal, moved)))).toEqual([false, true, true, true, false]);
});

describe("properties of every shipped table", () => {
  // Only the yields a table is for, or more: a correction holds at the target and below, so that a small yield can bring
  // the corrected rate under the uncorrected one above it, and the publication says no more.
  it.each(shipped)("$name: a higher test never gets a higher rate, and no rate is below zero", ({ rule, crop }) =>
    always([between(0, 500), between(0, 500), fc.constantFrom(...strawIds), between(0, 1), between(0, 60)], (a, b, straw, share, na) => {
      const irish = rule.nutrient === "P" || rule.nutrient === "K";
      const least = Math.max(0, ...rule.crops.filter((c) => c.when?.crops?.includes(crop)).map((c) => c.tableYield?.value ?? 0));
      const goal = irish ? 6.5 + share * 2 : least + share * 30;
      const at = (value: number) => ask(rule, measuredFor(rule.limits, rule.analyte, value), { crop, straw, soilPh: 6.5, sodium: na }, goal);
      const [low, high] = [at(Math.min(a, b)), at(Math.max(a, b))];
      for (const each of [low, high]) if (each.kind === "answer") expect(each.value.rate.value).toBeGreaterThanOrEqual(0);
      if (low.kind === "answer" && high.kind === "answer") expect(high.value.rate.value).toBeLessThanOrEqual(low.value.rate.value + 1e-9);
    }));

  it.each(shipped)("$name: doses sum to the rate, and no yield makes a rate negative", ({ rule, crop }) =>
    always([between(0, 500), between(0, 120)], (value, goal) => {
      const outcome = ask(rule, measuredFor(rule.limits, rule.analyte, value), { crop, straw: "removed", soilPh: 7.2, sodium: 10 }, goal);
      if (outcome.kind === "noAnswer") return;
      const { rate, doses } = outcome.value;
      expect(rate.value).toBeGreaterThanOrEqual(0);
      expect(Number.isFinite(rate.value)).toBe(true);
      if (doses) expect(doses.reduce((sum, d) => sum + d.value, 0)).toBeCloseTo(rate.value, 9);
    }));

  it("the whole class is read where a crop's table is not split, and the half where it is", () => {
    const at = (value: number, crop: CropId, goal: number) => answered(ask(potash, measuredFor(potash.limits, "K", value), { crop }, goal)).value.rate.value;
    expect([at(150, "potatoes", 50), at(210, "potatoes", 50)]).toEqual([300, 300]);
    expect([at(150, "forageMaize", 40), at(210, "forageMaize", 40)]).toEqual([175, 145]);
  });

  it("doses keep their times, and a dose of nothing is not shown", () => {
    const at = (value: number, crop: CropId) => answered(ask(grassPotash, measuredFor(grassPotash.limits, "K", value), { crop })).value;
    expect(at(90, "grassSilageOneCut").doses).toEqual([
      { when: "in the autumn before", value: 30 },
      { when: "in spring for the first cut", value: 80 },
      { when: "after the last cut or by autumn", value: 60 },
    ]);
    expect(at(450, "grassSilageOneCut")).toEqual({ rate: { value: 0, unit: "kg/ha" }, rating: { band: "index 4+", position: "above", rank: 5 } });
  });

  it("a yield in another unit of weight is turned into t/ha", () => {
    const rate = rateByIndexOfftake(potash, measuredFor(potash.limits, "K", 90), { facts: { crop: "potatoes" }, yieldGoal: { value: 60_000, unit: "kg/ha" }, removal: undefined, pack: "the manual" });
    expect(answered(rate).value.rate.value).toBeCloseTo(388, 9);
  });

  it("a table that names a class which no index has is refused", () => {
    const wrong = indexOfftakeRule.safeParse({ ...potash, crops: [{ ...potash.crops[0]!, parts: [{ rates: { "2±": 10 } }] }] });
    expect(wrong.error?.issues[0]?.message).toBe('names class "2±", which no index table has');
  });
});

const at = (rule: IndexOfftakeRule, value: number, facts: Facts, goal?: number, over: Partial<Measurement> = {}) => ask(rule, measuredFor(rule.limits, rule.analyte, value, over), facts, goal);

describe("refusals", () => {
  it("another extractant", () =>
    expectRefusal(at(phosphate, 20, { crop: "potatoes" }, 50, { method: "mehlich3" }), /phosphorus was measured by Mehlich-3 and the manual is calibrated for Olsen/, "P by Olsen"));
  it("another unit", () => expectRefusal(at(phosphate, 20, { crop: "potatoes" }, 50, { unit: "ppm" }), /the result is in ppm and the manual reads mg\/l/, "P in mg/l"));
  it("a sample of grass depth for arable land", () =>
    expectRefusal(at(phosphate, 20, { crop: "potatoes" }, 50, { depth: { from: 0, to: 7.5, unit: "cm" } }), /the sample was taken 0 to 7.5 cm deep/, "a sample 0 to 15 cm deep"));
  it("no crop", () => expectRefusal(at(phosphate, 20, {}), /no crop is planned/, "crop"));
  it("no crop, where the classes depend on it", () => expectRefusal(at(phosphorus, 4, {}), /the crop is not known, and the manual sets the classes by it/, "crop"));
  it("a crop that the tables lack", () => expectRefusal(at(phosphate, 20, { crop: "alfalfa" }), /the manual has no phosphate table for alfalfa/, "a guideline for alfalfa"));
  it("no yield, where the rate is corrected for it", () => expectRefusal(at(potash, 90, { crop: "potatoes" }), /no yield goal is set, and the rate depends on the yield/, "yieldGoal"));
  it("but above the class that is corrected no yield is asked for", () => expect(answered(at(potash, 300, { crop: "potatoes" })).value.rate.value).toBe(150));
  it("no yield for offtake", () => expectRefusal(at(potash, 90, { crop: "winterWheat", straw: "removed" }), /no yield goal is set/, "yieldGoal"));
  it("a yield in bushels", () =>
    expectRefusal(
      rateByIndexOfftake(potash, measuredFor(potash.limits, "K", 90), { facts: { crop: "potatoes" }, yieldGoal: { value: 90, unit: "bu/ac" }, removal: undefined, pack: "the manual" }),
      /the yield of potatoes is in bu\/ac and the manual reads t\/ha/,
      "a yield in t/ha",
    ));
  it("the straw, where it decides", () => {
    expect(answered(at(potash, 300, { crop: "winterWheat" })).steps).toContainEqual({ what: "What becomes of the straw", result: "not known", note: "it makes no difference: the rate is the same" });
    expectRefusal(at(potash, 90, { crop: "winterWheat" }, 8), /what becomes of the straw is not known, and the potash table of the manual depends on it/, "straw");
  });
  it("a class that the copy lacks", () => expectRefusal(at(potash, 210, { crop: "winterWheat", straw: "removed" }, 8), /the cereals table was read only up to index 2-/));
  it("a class left out because its printed rate is doubtful", () => expectRefusal(at(phosphate, 35, { crop: "winterOilseedRape" }, 3.5), /the printed 40 is doubtful/));
  it("a yield below the printed ones", () => expectRefusal(at(phosphorus, 2, { crop: "springBarley" }, 6.4), /the yield of 6.4 t\/ha is outside the table of the manual, which runs from 6.5 to 8.5 t\/ha/, "a yield from 6.5 to 8.5 t/ha"));
  it("a yield above the printed ones", () => expectRefusal(at(potassium, 80, { crop: "springBarley" }, 8.6), /the yield of 8.6 t\/ha is outside/, "a yield from 6.5 to 8.5 t/ha"));
  it("but the ends are inside", () => expect([6.5, 8.5].map((goal) => answered(at(phosphorus, 2, { crop: "springBarley" }, goal)).value.rate.value)).toEqual([45, 53]));
  it("a yield beside a printed one whose class the table leaves out", () => {
    const gap = { ...phosphorus, crops: phosphorus.crops.map((c) => ({ ...c, parts: c.parts.map((p) => ({ ...p, byYield: p.byYield?.map((y) => (y.yield === 7.5 ? { ...y, rates: { "2": 39 } } : y)) })) })) };
    for (const goal of [7, 8]) expectRefusal(at(gap, 2, { crop: "springBarley" }, goal), /the manual gives no phosphorus rate for spring barley at index 1/, "a phosphorus rate at index 1");
    expect(answered(at(gap, 4, { crop: "springBarley" }, 7)).value.rate.value).toBe(37);
  });
  it("soil pH, where it can reopen a zero", () => expectRefusal(at(phosphorus, 12, { crop: "springBarley" }), /the soil pH is not known, and the manual decides by it in this class/, "soilPh"));
  it("soil sodium, where it can reopen a zero", () => expectRefusal(at(sodium, 150, { crop: "sugarBeet" }), /the soil's sodium is not known, and the manual decides by it/, "sodium"));
  it("but sodium is asked for at no other index", () => expect([90, 300].map((k) => answered(at(sodium, k, { crop: "sugarBeet" })).value.rate.value)).toEqual([200, 0]));
  it("a less-than that spans classes", () => expectRefusal(at(phosphate, 12, { crop: "potatoes" }, 50, { qualifier: "<" }), /the laboratory says < 12 mg\/l, which spans more than one class/, "P as a number"));
  it("a less-than within the lowest class has its rate", () => expect(answered(at(phosphate, 5, { crop: "potatoes" }, 50, { qualifier: "<" })).value.rate.value).toBe(250));
  it("a more-than that may lie on either side of a cut-off", () =>
    expectRefusal(at(phosphorus, 11, { crop: "potatoes" }, undefined, { qualifier: ">" }), /the laboratory says > 11 mg\/l, and the manual decides by whether it is above 15/, "P as a number"));
  it("a more-than above the cut-off", () => expect(answered(at(phosphorus, 15, { crop: "potatoes" }, undefined, { qualifier: ">" })).value.rate.value).toBe(0));
});

describe("nutrients as a guideline prints them", () => {
  const sample = (measurements: Measurement[], packs: (typeof uk)[], crop: CropId, goal: number) =>
    nutrientRates({ measurements, packs, facts: { crop, straw: "removed", soilPh: 6.5 }, yieldGoal: tonnes(goal), incorporated: true, materials: [] });

  it("elements are answered as elements, and nobody then says that phosphate has no rate", () => {
    const tests = [measuredFor(phosphorus.limits, "P", 4.5), measuredFor(potassium.limits, "K", 80)];
    const rates = sample(tests, [ireland], "springBarley", 7.5);
    expect(rates.map((r) => [r.nutrient, answered(r.outcome).value.rate.value])).toEqual([
      ["P", 39],
      ["K", 100],
    ]);
  });

  it("magnesium and sodium are asked for only of crops that have a table", () => {
    const tests = [measuredFor(phosphate.limits, "P", 12), measuredFor(potash.limits, "K", 90)];
    expect(sample(tests, [uk], "winterWheat", 8).map((r) => r.nutrient)).toEqual(["P2O5", "K2O"]);
    expect(sample(tests, [uk], "sugarBeet", 60).map((r) => r.nutrient)).toEqual(["P2O5", "K2O", "MgO", "Na2O"]);
  });

  it("a refusal on grass comes from the table of grass", () => {
    const tests = [measuredFor(phosphate.limits, "P", 12)];
    expectRefusal(sample(tests, [uk], "grassSilageTwoCuts", 38)[0]!.outcome, /the sample was taken 0 to 15 cm deep and RB209 2010 is calibrated for 0 to 7.5 cm/, "a sample 0 to 7.5 cm deep");
  });
});
