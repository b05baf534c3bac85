import { describe, expect, it } from "vitest";
import type { Fertilizer, Need } from "../../src/interpretation/products.ts";
import type { Starter } from "../../src/interpretation/starter.ts";
import { starterAdvice } from "../../src/interpretation/starter.ts";
import { farmFile, fieldFile } from "../support/limePlace.ts";
import { answered, expectRefusal } from "../support/outcomes.ts";
import { pack, triState } from "../support/packs.ts";

const polyphosphate: Fertilizer = { id: "app", name: "ammonium polyphosphate, 10-34-0", analysis: { N: 10, P2O5: 34, K2O: 0 }, source: farmFile };
const starter = (pounds: number, placement: Starter["placement"], fertilizer = polyphosphate): Starter => ({ fertilizer, rate: { value: pounds, unit: "lb/ac" }, placement, rowSpacing: { value: 30, unit: "in" }, source: fieldFile });
const needs: Need[] = [
  { nutrient: "P2O5", rate: { value: 60, unit: "lb/ac" }, steps: [] },
  { nutrient: "K2O", rate: { value: 100, unit: "lb/ac" }, steps: [] },
];
const packs = [triState, pack("us-kansas-seed-row"), pack("us-connecticut-starter")];
const corn = { crop: "corn", texture: "siltLoam" } as const;
const left = (advice: ReturnType<typeof starterAdvice>) => Object.fromEntries(advice.left.map((n) => [n.nutrient, Number(n.rate.value.toFixed(6))]));

describe("what a starter leaves to broadcast", () => {
  // 100 lb of 10-34-0 brings 34 lb of P2O5; in the band it stands for 34 x 1.5 = 51.
  it("a band counts one and a half times, where a guideline says so for the crop", () => expect(left(starterAdvice(starter(100, "band"), needs, packs, corn))).toEqual({ P2O5: 9, K2O: 100 }));
  it("and once where none does", () => {
    expect(left(starterAdvice(starter(100, "band"), needs, [triState], corn))).toEqual({ P2O5: 26, K2O: 100 });
    expect(left(starterAdvice(starter(100, "band"), needs, packs, { crop: "soybean" }))).toEqual({ P2O5: 26, K2O: 100 });
    expect(left(starterAdvice(starter(100, "withSeed"), needs, packs, corn))).toEqual({ P2O5: 26, K2O: 100 });
  });
  it("never less than nothing", () => {
    expect(left(starterAdvice(starter(400, "band"), needs, packs, corn)).P2O5).toBe(0);
    expect(left(starterAdvice(starter(400, "withSeed"), needs, packs, corn)).P2O5).toBe(0);
  });
});

describe("whether the seed can bear it", () => {
  it("up to the printed limit: 80 lb of 10-34-0 brings 8 lb of N", () => {
    expect(answered(starterAdvice(starter(80, "withSeed"), needs, packs, corn).seed!).value).toEqual({ limit: 8, salt: 8, safe: true });
    expect(answered(starterAdvice(starter(81, "withSeed"), needs, packs, corn).seed!).value.safe).toBe(false);
    expect(answered(starterAdvice(starter(61, "withSeed"), needs, packs, { crop: "corn", texture: "sand" }).seed!).value).toMatchObject({ limit: 6, safe: false });
  });
  it("never urea", () => expect(answered(starterAdvice(starter(5, "withSeed", { ...polyphosphate, holdsUrea: true }), needs, packs, corn).seed!).value.safe).toBe(false));
  it("is not asked of a band, whose own salt is held against its limit", () => {
    const advice = starterAdvice(starter(900, "band"), needs, packs, corn);
    expect(advice.seed).toBeUndefined();
    expect(advice.steps.at(-1)).toMatchObject({ what: "More N and K₂O than the band may hold", expression: "90 against 80 lb/ac" });
    // 450 lb of 10-10-10: 45 lb of N and 45 of K2O.
    const even = starter(450, "band", { ...polyphosphate, analysis: { N: 10, P2O5: 10, K2O: 10 } });
    expect(starterAdvice(even, needs, packs, corn).steps.at(-1)).toMatchObject({ expression: "90 against 80 lb/ac", result: "lower the starter" });
  });
  it("is not known where no guideline says, or for another crop", () => {
    expectRefusal(starterAdvice(starter(80, "withSeed"), needs, [triState], corn).seed!, /none of the chosen guidelines sets a limit on what may touch the seed/, "a seed-row limit");
    expectRefusal(starterAdvice(starter(80, "withSeed"), needs, packs, { crop: "wheat", texture: "loam" }).seed!, /Kansas seed row gives no seed-row limit for wheat/, "a guideline for wheat");
  });
});

describe("in the farm's own units", () => {
  // 112.085 kg/ha are 100 lb/ac: they bring 38.1 kg of P2O5 a hectare, which the band lets stand for 57.2 of the 67.3 that 60 lb/ac are.
  const metric: Starter = { ...starter(0, "band"), rate: { value: 112.085, unit: "kg/ha" } };
  const lines = (advice: ReturnType<typeof starterAdvice>) => [...advice.steps, ...advice.left.flatMap((n) => n.steps)].map((s) => [s.expression, s.result].filter(Boolean).join(" = "));
  it("works in kg/ha on a metric farm, and leaves the same", () => {
    const advice = starterAdvice(metric, needs, packs, corn, "metric");
    expect(advice.left[0]!.rate.value).toBeCloseTo(9, 3);
    expect(lines(advice)).toEqual(expect.arrayContaining(["112.1 × 34 ÷ 100 = 38.1 kg/ha", "38.1 × 1.5 = 57.2 kg/ha of P₂O₅", "67.3 − 57.2 = 10.1 kg/ha", "11.2 against 89.7 kg/ha = within the limit"]));
    expect(lines(advice).join(" ")).not.toContain("lb");
  });
  it("holds the seed-row limit against it in kg/ha and centimeters", () => {
    const { seed } = starterAdvice({ ...metric, placement: "withSeed" }, needs, packs, corn, "metric");
    const verdict = answered(seed!);
    expect(verdict.value.safe).toBe(false);
    expect(verdict.steps[0]).toMatchObject({ what: "Most N and K₂O that may touch the seed in 76 cm rows, medium to fine soil", result: "9 kg/ha" });
  });
  it("works by 1,000 sq ft in a garden", () => expect(lines(starterAdvice(starter(100, "band"), needs, packs, corn, "garden"))).toContain("2.3 × 34 ÷ 100 = 0.8 lb/1000 sq ft"));
});
