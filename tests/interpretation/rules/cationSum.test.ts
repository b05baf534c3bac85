import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cationSumCheck } from "../../../src/interpretation/checks/cationSumCheck.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import { sumCations } from "../../../src/interpretation/rules/cationSum.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { chemistry, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const bases = ["Ca", "Mg", "K", "Na"] as const;

const sample = (input: Partial<Record<(typeof bases)[number], number>>, buffer: "adamsEvans" | "smp" | "sikora", bufferPh: number): Measurement[] => [
  ...bases.flatMap((base) => (input[base] === undefined ? [] : measured(base, input[base]))),
  measured("bufferPh", bufferPh, { method: buffer }),
];

describe("the sum of cations, as published", () => {
  checkedAsPublished(cationSumCheck);
});

const rule = ruleIn(chemistry, "cations", "cationSum");
const ppm = { Ca: 1200, Mg: 180, K: 140 };

describe("sumCations", () => {
  it("gives parts that make 100 % with the acidity", () =>
    always([fc.tuple(between(1, 6000), between(0, 1500), between(0, 1000), between(0, 500)), between(5, 7.5)], ([Ca, Mg, K, Na], bufferPh) => {
      const { cec, acidity, saturation, baseSaturation } = answered(sumCations(rule, sample({ Ca, Mg, K, Na }, "smp", bufferPh))).value;
      const parts = Object.values(saturation).reduce((sum, part) => sum + part, 0);
      expect(parts).toBeCloseTo(baseSaturation, 9);
      expect(parts + (100 * acidity) / cec).toBeCloseTo(100, 9);
      expect(Math.min(acidity, ...Object.values(saturation))).toBeGreaterThanOrEqual(0);
    }));

  it("doubts its sum on soil that may hold free lime, and on no other", () => {
    const note = (pH: number) => answered(sumCations(rule, [measured("pH", pH), ...sample(ppm, "smp", 7.2)])).steps.find((s) => s.what === "Sum of cations")!.note;
    expect(note(7.5)).toMatch(/free lime, which the extract dissolves/);
    expect(note(7.4)).toBeUndefined();
  });

  it("does not depend on the order of the results", () => {
    const results = sample(ppm, "smp", 6.6);
    expect(answered(sumCations(rule, results.toReversed())).value.cec).toBeCloseTo(answered(sumCations(rule, results)).value.cec, 12);
  });
});

describe("refusals", () => {
  it("a base that was not tested", () => expectRefusal(sumCations(rule, sample({ Ca: 1200, K: 140 }, "smp", 6.6)), /^magnesium was not tested/, "Mg"));

  it("two bases that were not tested", () => expectRefusal(sumCations(rule, sample({ K: 140 }, "smp", 6.6)), /^calcium and magnesium were not tested/, "Ca", "Mg"));

  it("a base in another unit is not called untested", () =>
    expectRefusal(sumCations(rule, [...sample({ Ca: 1200, K: 140 }, "smp", 6.6), measured("Mg", 360, { unit: "lb/ac" })]), /magnesium is in lb\/ac/, "Mg in ppm"));

  it("no buffer", () => expectRefusal(sumCations(rule, sample(ppm, "smp", 6.6).slice(0, -1)), /buffer pH was not measured, so the acidity is not known/, "bufferPh"));

  it("a buffer without a term of its own", () =>
    expectRefusal(sumCations(rule, sample(ppm, "sikora", 6.6)), /no acidity term is known for the Sikora buffer/, "an acidity term for this buffer"));

  it("a less-than", () =>
    expectRefusal(sumCations(rule, [...sample({ Ca: 1200, Mg: 180 }, "smp", 6.6), measured("K", 20, { qualifier: "<" })]), /the laboratory says < 20 ppm, and a sum needs numbers/, "K as a number"));

  it("bases by two extractants", () =>
    expectRefusal(
      sumCations(rule, [...sample({ Ca: 1200, Mg: 180 }, "smp", 6.6), measured("K", 140, { method: "ammoniumAcetate" })]),
      /the cations were measured by different methods/,
      "Ca, Mg and K by one method",
    ));
});
