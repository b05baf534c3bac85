import { describe, expect, it } from "vitest";
import type { Advice } from "../../src/interpretation/advise.ts";
import type { Sample } from "../../src/interpretation/sample.ts";
import { advise } from "../../src/interpretation/advise.ts";
import { rate } from "../../src/interpretation/rating.ts";
import type { Outcome, Step } from "../../src/interpretation/outcome.ts";
import { farmFile, fieldFile, limePlace, limestone, ownTarget } from "../support/limePlace.ts";
import { measured } from "../support/measured.ts";
import { answered, expectRefusal } from "../support/outcomes.ts";
import { chemistry, iowa, oregon, triState } from "../support/packs.ts";
import { numbersIn, recompute } from "../support/recompute.ts";

const ppm = { P: 14, K: 96, Ca: 1240, Mg: 165, Na: 12 } as const;

/** A sample that knows everything a guideline asks for, corn below both critical levels, by two buffers. */
const full: Sample = {
  depth: limePlace.depth,
  own: ownTarget(6.5),
  incorporated: true,
  packs: [triState, iowa, oregon, chemistry],
  facts: { crop: "corn", cec: 11.3, subsoilPh: 6.5, origins: { cec: fieldFile, subsoilPh: fieldFile, yieldGoal: fieldFile } },
  yieldGoal: { value: 185, unit: "bu/ac" },
  measurements: [
    measured("pH", 5.8),
    measured("bufferPh", 6.45),
    measured("bufferPh", 6.37, { method: "sikora" }),
    ...(["P", "K", "Ca", "Mg", "Na"] as const).map((analyte) => measured(analyte, ppm[analyte])),
  ],
  materials: [
    { ...limestone, stated: { limeScore: { value: 85, source: farmFile } } },
    { id: "sieved-lime", name: "sieved lime", stated: {}, analysis: { cce: 91.5, moisture: 3.2, passing: { "4": 99, "8": 88, "60": 52 }, source: farmFile }, pricePerTon: 21 },
  ],
};

const samples: [string, Sample][] = [
  ["a full sample", full],
  ["the same on the surface by the Sikora buffer", { ...full, packs: [triState, oregon, chemistry], incorporated: false }],
  ["alfalfa, maintenance", { ...full, facts: { ...full.facts, crop: "alfalfa" }, yieldGoal: { value: 6.2, unit: "ton/ac" }, measurements: [measured("P", 35), measured("K", 150)] }],
  ["soybean above the limits", { ...full, facts: { ...full.facts, crop: "soybean" }, measurements: [measured("pH", 6.4), measured("P", 60), measured("K", 220)] }],
];

const answersOf = (advice: Advice): [string, Outcome<unknown>][] => [
  ...advice.ratings.map((r): [string, Outcome<unknown>] => [`rating of ${r.measurement.analyte}`, r.outcome]),
  ...advice.rates.map((r): [string, Outcome<unknown>] => [`rate of ${r.nutrient}`, r.outcome]),
  ["lime", advice.lime.needed],
  ...advice.lime.rates.map((r): [string, Outcome<unknown>] => [`tons of ${r.material.name}`, r.outcome]),
  ["cations", advice.cations],
];

const worked = samples.flatMap(([name, sample]) =>
  answersOf(advise(sample)).flatMap(([what, outcome]) => (outcome.kind === "answer" ? [{ name, what, steps: outcome.steps, value: outcome.value }] : [])),
);

describe("worked steps", () => {
  it("stand under many answers", () => {
    expect(worked.length).toBeGreaterThan(20);
    expect(worked.flatMap(({ steps }) => steps.flatMap((step) => recompute(step) ?? [])).length).toBeGreaterThan(30);
  });

  it.each(worked)("$name, $what: every sum comes to the result printed beside it", ({ steps }) => {
    for (const step of steps) {
      const sum = recompute(step);
      if (sum) expect(Math.abs(sum.computed - sum.printed), `${step.what}: ${step.expression} = ${step.result}`).toBeLessThanOrEqual(sum.within);
    }
  });

  it.each(worked)("$name, $what: every step says where it comes from", ({ steps }) => {
    steps.forEach((step, i) => expect(unsourced(step, steps.slice(0, i)), `${step.what}: ${step.expression ?? ""} = ${step.result}`).toEqual([]));
  });

  it.each(worked)("$name, $what: every value of a publication has a grade", ({ steps }) => {
    for (const { source, evidence, what } of steps) {
      if (typeof source === "object" && "reference" in source) expect(evidence, what).toBeDefined();
      if (typeof source === "object" && "record" in source) expect(source.record.line, what).toBeGreaterThan(0);
    }
  });
});

/** Numbers in a step that neither a source vouches for nor an earlier line holds; a lookup without a source is itself one. */
const unsourced = (step: Step, before: readonly Step[]): string[] => {
  if (step.source !== undefined) return [];
  if (step.expression === undefined) return [step.result];
  const known = new Set(before.flatMap((s) => numbersIn(`${s.expression ?? ""} ${s.result}`).map(Number)));
  return numbersIn(step.expression).filter((n) => !known.has(Number(n)));
};

describe("the last sum is the answer", () => {
  const lastSum = (steps: readonly Step[]): number => {
    const sums = steps.flatMap((step) => recompute(step) ?? []);
    return sums.at(-1)!.printed;
  };
  const advice = advise(full);

  it.each(advice.rates)("$nutrient", ({ outcome }) => {
    const { value, steps } = answered(outcome);
    expect(lastSum(steps)).toBeCloseTo(value.rate.value, 1);
  });

  it.each(advice.lime.rates.filter((r) => r.outcome.kind === "answer"))("tons of $material.name", ({ outcome }) => {
    const { value, steps } = answered(outcome);
    expect(lastSum(steps)).toBeCloseTo(value.rate.value, 2);
  });

  it("the sum of cations", () => {
    const { value, steps } = answered(advice.cations);
    expect(lastSum(steps)).toBeCloseTo(value.cec, 1);
  });
});

describe("advise", () => {
  it("works the full sample out by hand", () => {
    const { rates, lime } = advise(full);
    const rateOf = (nutrient: string): number => answered(rates.find((r) => r.nutrient === nutrient)!.outcome).value.rate.value;
    expect(rateOf("P2O5")).toBeCloseTo((20 - 14) * 5 + 185 * 0.35, 9);
    expect(rateOf("K2O")).toBeCloseTo((120 - 96) * (1 + 0.05 * 11.3) + 185 * 0.2 + 20, 9);
    // The farm's own target, 6.5, is a column of Iowa's; SMP 6.45 between its rows 6.6 and 6.4; eight inches.
    const needed = answered(lime.needed).value;
    if (needed === "none") return expect.unreachable("no lime");
    expect(needed.requirement.value).toBeCloseTo(((2100 + 0.75 * 1400) * 8) / 6, 6);
    expect([needed.requirement.unit, needed.pack.short]).toEqual(["lb/ac", "Iowa 2002"]);
    return undefined;
  });

  it("asks the guidelines in the order that the farm lists them", () => {
    const first = (packs: Sample["packs"]) => rate({ ...full, packs }, measured("pH", 5.8)).pack?.short;
    expect(first([triState, chemistry])).toBe("Tri-State 2020");
    expect(first([chemistry, triState])).toBe("soil chemistry");
  });

  it("cautions where it advises, and only there", () => {
    expect(advise(full).cautions).toEqual(["localCodes", "limeDust", "limeAndAmmonia", "phosphorusNearWater", "superseded"]);
    expect(advise(samples[3]![1]).cautions).toEqual(["localCodes"]);
  });

  it("has no lime cautions where the table's rate is nothing", () => {
    const nothing: Sample = { ...full, packs: [triState, oregon], own: { ...full.own!, value: 5.6 }, measurements: [measured("pH", 5.5), measured("bufferPh", 6.9, { method: "sikora" })] };
    const { lime, cautions } = advise(nothing);
    expect([answered(lime.needed).value, lime.rates, cautions]).toEqual(["none", [], ["localCodes"]]);
  });
});

describe("refusals", () => {
  const potash = (change: Partial<Sample>) => advise({ ...full, ...change }).rates.find((r) => r.nutrient === "K2O")!.outcome;
  it("a test that was not made", () => expectRefusal(potash({ measurements: [] }), /potassium was not tested/, "K"));

  it("no guideline that gives a rate", () => expectRefusal(potash({ packs: [oregon] }), /none of the chosen guidelines gives a rate from this test/, "a guideline for K₂O"));

  it.each([
    ["nitrateN", "potassiumChloride", /none of the chosen guidelines rates nitrate-N/],
    ["bufferPh", "smp", /none of the chosen guidelines rates buffer pH/],
    ["cec", "cationSum", /none of the chosen guidelines rates cation exchange capacity/],
  ] as const)("no guideline that rates %s", (analyte, method, clause) =>
    expectRefusal(rate(full, measured(analyte, 8, { method })).outcome, clause, `a guideline that rates ${analyte}`));

  it("another extractant, in the words of a sentence", () =>
    expectRefusal(rate(full, measured("K", 96, { method: "ammoniumAcetate" })).outcome, /^potassium was measured by ammonium acetate/, "K by Mehlich-3"));
});
