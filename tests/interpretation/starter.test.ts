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
  it("never less than nothing", () => expect(left(starterAdvice(starter(400, "band"), needs, packs, corn)).P2O5).toBe(0));
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
  });
  it("is not known where no guideline says, or for another crop", () => {
    expectRefusal(starterAdvice(starter(80, "withSeed"), needs, [triState], corn).seed!, /none of the chosen guidelines sets a limit on what may touch the seed/, "a seed-row limit");
    expectRefusal(starterAdvice(starter(80, "withSeed"), needs, packs, { crop: "wheat", texture: "loam" }).seed!, /Kansas seed-row table gives no seed-row limit for wheat/, "a guideline for wheat");
  });
});
