import { readdirSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import type { Advice } from "../../src/interpretation/advise.ts";
import { advise } from "../../src/interpretation/advise.ts";
import type { Answer, Outcome } from "../../src/interpretation/outcome.ts";
import type { NutrientRate } from "../../src/interpretation/rules/nutrientRate.ts";
import { plain } from "../../src/interpretation/show.ts";
import type { CropId } from "../../src/interpretation/vocabulary.ts";
import { nitrogenFixers } from "../../src/interpretation/vocabulary.ts";
import { anySample, cropsOf } from "../support/anySample.ts";
import { installedPacks } from "../support/packs.ts";
import { Random } from "../support/random.ts";
import { numbersIn, recompute } from "../support/recompute.ts";

const packs = readdirSync(new URL("../../content/guidelines/", import.meta.url)).map((name) => installedPacks.get(name.replace(/\.yaml$/, "")));
/** A guideline alone, and with these behind it, which say when to lime, how much, and what a material is worth. */
const behind = ["us-tristate-974-2020", "us-oregon-lime-2025", "soil-chemistry"].map((id) => installedPacks.get(id));

interface Given {
  readonly at: string;
  readonly crop: CropId | undefined;
  readonly advice: Advice;
}
const given: Given[] = [];
const answers: { readonly at: string; readonly outcome: Answer<unknown> }[] = [];
const refusals: string[] = [];

const outcomesOf = ({ ratings, rates, lime, cations, nitrogen, nitrogenCredits = [] }: Advice): Outcome<unknown>[] => [
  ...[...ratings, ...rates, ...lime.rates, ...nitrogenCredits].map((r) => r.outcome),
  lime.needed,
  cations,
  ...(nitrogen ? [nitrogen] : []),
];

beforeAll(() => {
  const R = new Random(20251018);
  for (const pack of packs)
    for (const crop of [undefined, ...cropsOf(pack)])
      for (let i = 0; i < 4; i++) {
        const advice = advise(anySample(i % 2 ? [pack] : [pack, ...behind.filter((each) => each !== pack)], crop, R));
        const at = `${pack.id}, ${crop ?? "no crop"}, ${i}`;
        given.push({ at, crop, advice });
        for (const outcome of outcomesOf(advice)) if (outcome.kind === "answer") answers.push({ at, outcome });
          else refusals.push(outcome.because);
      }
});

describe("the steps under every answer of every guideline", () => {
  it("are many", () => {
    expect(answers.length).toBeGreaterThan(1500);
    expect(answers.flatMap(({ outcome }) => outcome.steps.flatMap((step) => recompute(step) ?? [])).length).toBeGreaterThan(1000);
  });

  it("come to what is printed beside each sum, by the figures that are printed", () => {
    const wrong = answers.flatMap(({ at, outcome }) =>
      outcome.steps.flatMap((step) => {
        const sum = recompute(step);
        return sum && Math.abs(sum.computed - sum.printed) > sum.within ? [`${at}: ${step.what}: ${step.expression} = ${step.result}, not ${sum.computed}`] : [];
      }),
    );
    expect(wrong).toEqual([]);
  });

  it("end with the rate that is answered, in its unit", () => {
    const rates = given.flatMap(({ at, advice: { rates: all, nitrogen } }) => [...all.map((r) => r.outcome), ...(nitrogen ? [nitrogen] : [])].flatMap((o: Outcome<NutrientRate>) => (o.kind === "answer" ? [{ at, value: o.value, last: o.steps.at(-1)! }] : [])));
    expect(rates.length).toBeGreaterThan(300);
    for (const { at, value: { rate, to }, last } of rates) {
      const printed = numbersIn(last.result.replace(/^−.*, so /, "").replace("1000 sq ft", "")).map(Number);
      expect(printed, `${at}: ${last.what}: ${last.result}`).toEqual([rate.value, ...(to === undefined ? [] : [to])].map((n, i) => (Math.abs(n - printed[i]!) <= 0.0501 ? printed[i] : n)));
      // "lb K₂O/ac" and "lb/ac of K₂O" are lb/ac.
      expect(last.result.replace(/ (of )?[A-Z][a-z]?(₂?O₅?)?(?=$|\/)/, ""), at).toContain(rate.unit);
    }
  });

  it("are named as a sentence begins, and hold no two spaces and no stray comma", () => {
    const steps = answers.flatMap(({ outcome }) => outcome.steps);
    for (const what of new Set(steps.map((s) => s.what))) expect(what).toMatch(/^(\p{Lu}|barn manure)/u);
    for (const line of new Set(steps.flatMap(({ what, expression = "", result, note = "" }) => [what, expression, result, note]))) expect(line).not.toMatch(/ {2}|,:|undefined|NaN|\b(false|null)\b/);
  });

  it("are refused without the id of a rule or of a record's key, but for the target a field must set", () => {
    for (const because of new Set(refusals)) expect(because).not.toMatch(/\(rule |undefined|NaN|\b(?!pH\b|dS\b|targetPh\b)[a-z]+[A-Z]/);
  });
});

describe("no answer does harm", () => {
  it("rates are finite and not below zero, and doses sum to them", () => {
    for (const { at, advice } of given)
      for (const { outcome } of advice.rates) {
        if (outcome.kind === "noAnswer") continue;
        const { rate, doses } = outcome.value;
        expect(rate.value, at).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(rate.value), at).toBe(true);
        if (doses) expect(plain(doses.reduce((sum, d) => sum + d.value, 0)), at).toBe(plain(rate.value));
      }
  });

  it("no lime at the target or on soil that holds free lime, but for the half ton that Vermont's table prints", () => {
    let limed = 0;
    for (const { at, advice: { lime: { needed, rates }, ratings } } of given) {
      if (needed.kind === "noAnswer" || needed.value === "none") continue;
      limed += 1;
      const soilPh = ratings.find((r) => r.measurement.analyte === "pH")!.measurement.value;
      const { requirement, target, pack } = needed.value;
      expect(requirement.value, at).toBeGreaterThan(0);
      expect(soilPh, at).toBeLessThanOrEqual(7.4);
      if (target !== undefined && pack.id !== "us-vermont-lime") expect(soilPh, at).toBeLessThan(target);
      for (const { outcome } of rates) if (outcome.kind === "answer") expect(outcome.value.applications.reduce((sum, a) => sum + a.value, 0), at).toBeCloseTo(outcome.value.rate.value, 9);
    }
    expect(limed).toBeGreaterThan(50);
  });

  it("no nitrogen for crops that take it from the air", () =>
    expect(given.flatMap(({ at, crop, advice: { nitrogen } }) => (crop && nitrogenFixers.has(crop) && nitrogen?.kind === "answer" && nitrogen.value.rate.value > 0 ? [at] : []))).toEqual([]));
});
