import { describe, expect, it } from "vitest";
import { advise } from "../../src/interpretation/advise.ts";
import type { Measurement } from "../../src/interpretation/measurement.ts";
import type { NutrientId } from "../../src/interpretation/vocabulary.ts";
import type { Sample } from "../../src/interpretation/sample.ts";
import { fullSample } from "../support/fullSample.ts";
import { measured } from "../support/measured.ts";
import { answered, expectRefusal } from "../support/outcomes.ts";
import { pack } from "../support/packs.ts";

const [triState, nebraska, iowa, kansas, rb209, oregonAlfalfa] = [
  pack("us-tristate-974-2020"),
  pack("us-nebraska-ec155"),
  pack("us-iowa-pm1688-2013"),
  pack("us-kansas-mf2586-2003"),
  pack("uk-rb209-2010"),
  pack("us-oregon-alfalfa-1965"),
];
const corn: Sample = { ...fullSample, packs: [triState], facts: { crop: "corn", cec: 11.3 }, yieldGoal: { value: 185, unit: "bu/ac" }, measurements: [measured("P", 14), measured("K", 96)] };
const outcome = (nutrient: NutrientId, change: Partial<Sample>) => advise({ ...corn, ...change }).rates.find((r) => r.nutrient === nutrient)!.outcome;
const tests = (...measurements: Measurement[]): Partial<Sample> => ({ measurements });

describe("a phosphate or potash rate is refused, and the refusal names what is missing", () => {
  it("another extractant, finish or preparation of the soil", () => {
    expectRefusal(outcome("K2O", tests(measured("K", 96, { method: "ammoniumAcetate" }))), /^potassium was measured by ammonium acetate and Tri-State 2020 is calibrated for Mehlich-3$/, "K by Mehlich-3");
    expectRefusal(outcome("P2O5", { packs: [kansas], ...tests(measured("P", 14, { finish: "icp", depth: { from: 0, to: 6, unit: "in" } })) }), /^phosphorus was measured by Mehlich-3, ICP and Kansas 2003 is calibrated for Mehlich-3, colorimetric$/, "P by Mehlich-3, colorimetric");
    expectRefusal(outcome("K2O", tests(measured("K", 96, { preparation: "moist" }))), /^the laboratory extracted moist soil and Tri-State 2020 is calibrated for dried soil$/, "K on dried soil");
  });

  it("another unit: pounds an acre are not ppm, and an index is neither", () => {
    expectRefusal(outcome("K2O", tests(measured("K", 180, { unit: "lb/ac" }))), /^the result is in lb\/ac and Tri-State 2020 reads ppm$/, "K in ppm");
    expectRefusal(outcome("K2O", tests(measured("K", 80, { unit: "index" }))), /^the result is an index and Tri-State 2020 reads ppm$/, "K in ppm");
  });

  it("no CEC, where a level depends on it", () =>
    expectRefusal(outcome("K2O", { facts: { crop: "corn" } }), /^the cation exchange capacity is not known, and Tri-State 2020 sets the potassium level by it$/, "cec"));

  it("a sample of another depth", () => {
    const of = (to: number) => tests(measured("P", 14, { depth: { from: 0, to, unit: "in" } }), measured("K", 96, { depth: { from: 0, to, unit: "in" } }));
    expectRefusal(outcome("P2O5", of(4)), /^the sample was taken 0 to 4 in deep and Tri-State 2020 is calibrated for 0 to 8 in$/, "a sample 0 to 8 in deep");
    expectRefusal(outcome("K2O", of(24)), /0 to 24 in deep/, "a sample 0 to 8 in deep");
    expect(outcome("P2O5", of(7)).kind).toBe("answer");
  });

  it("no crop, or one that the guideline lacks", () => {
    expectRefusal(outcome("P2O5", { facts: { cec: 11.3 } }), /^no crop is planned$/, "crop");
    expectRefusal(outcome("P2O5", { facts: { crop: "potatoes", cec: 11.3 } }), /^Tri-State 2020 has no rule for potatoes$/, "a guideline for potatoes");
  });

  it("no yield goal, or one that no unit can weigh, or one outside a printed table", () => {
    expectRefusal(outcome("P2O5", { yieldGoal: undefined }), /^no yield goal is set, and the rate replaces what the crop removes$/, "yieldGoal");
    expectRefusal(outcome("P2O5", { facts: { crop: "alfalfa" } }), /^the yield of alfalfa is in bu\/ac and its removal is stated per ton$/, "a yield in ton/ac");
    const barley = { packs: [pack("ie-teagasc")], facts: { crop: "springBarley" }, yieldGoal: { value: 9, unit: "t/ha" }, ...tests(measured("K", 80, { method: "morgan", unit: "mg/l", depth: { from: 0, to: 10, unit: "cm" } })) } as const;
    expectRefusal(outcome("K", barley), /^the yield of 9 t\/ha is outside the table of Teagasc, which runs from 6.5 to 8.5 t\/ha$/, "a yield from 6.5 to 8.5 t/ha");
  });

  it("a class whose rate was not found, or is left out as doubtful", () => {
    expectRefusal(outcome("P2O5", { packs: [nebraska] }), /^a result of 14 ppm is in the class “at or below the critical level”, and what Nebraska 2017 gives there was not found$/, "the rate of Nebraska 2017 in the class “at or below the critical level”");
    const rape = { packs: [rb209], facts: { crop: "winterOilseedRape" }, yieldGoal: { value: 3.5, unit: "t/ha" }, ...tests(measured("P", 35, { method: "olsen", unit: "mg/l", depth: { from: 0, to: 15, unit: "cm" } })) } as const;
    expectRefusal(outcome("P2O5", rape), /^the printed 40 is doubtful/);
  });

  it("a result that is only a bound, wherever the bound leaves the rate open", () => {
    const bound = (value: number, qualifier: "<" | ">") => outcome("K2O", tests(measured("K", value, { qualifier })));
    expectRefusal(bound(130, "<"), /^the laboratory says < 130 ppm, which may lie on either side of a level$/, "K as a number");
    expectRefusal(bound(100, "<"), /^the laboratory says < 100 ppm, and the rate needs a number$/, "K as a number");
    expectRefusal(bound(150, ">"), /^the laboratory says > 150 ppm, which may lie on either side of a level$/, "K as a number");
    expect(answered(bound(170, ">")).value.rate.value).toBe(0);
    const alfalfa = (value: number, qualifier: "<" | ">") => outcome("P2O5", { packs: [oregonAlfalfa], facts: { crop: "alfalfa" }, ...tests(measured("P", value, { method: "olsen", unit: "lb/ac", qualifier })) });
    expect(answered(alfalfa(12, "<")).value).toMatchObject({ rate: { value: 80 }, to: 120 });
    expect(answered(alfalfa(40, ">")).value.rate.value).toBe(0);
    expectRefusal(alfalfa(12, ">"), /spans more than one class/, "P as a number");
  });

  it("facts of the soil that contradict each other", () =>
    expectRefusal(
      outcome("K2O", { packs: [iowa], facts: { crop: "corn", texture: "muck", organicMatter: 2 }, ...tests(measured("K", 96, { method: "ammoniumAcetate", depth: { from: 0, to: 6, unit: "in" } })) }),
      /^whether the soil is organic or mineral \(its texture and organic matter contradict each other\) is not known, and Iowa 2013 sets the rates by it$/,
      "texture and organicMatter that agree",
    ));
});

describe("of several refusals the one that says most is told", () => {
  it("that of the rule which reads the method, and not of the guideline's first", () =>
    expectRefusal(outcome("P2O5", { packs: [iowa], facts: { crop: "wheat" }, ...tests(measured("P", 12, { finish: "icp", depth: { from: 0, to: 6, unit: "in" } })) }), /^a result of 12 ppm is in the class “very low”, and what Iowa 2013 gives there was not found$/, "the rate of Iowa 2013 in the class “very low”"));

  it("that of a guideline for the crop, and not of one for others", () =>
    expectRefusal(outcome("P2O5", { packs: [triState, oregonAlfalfa, rb209], facts: { crop: "potatoes" }, yieldGoal: { value: 50, unit: "t/ha" } }), /^phosphorus was measured by Mehlich-3 and RB209 2010 is calibrated for Olsen$/, "P by Olsen"));

  it("and an answer goes before every refusal", () =>
    expect(answered(outcome("P2O5", { packs: [nebraska, triState] })).value.rate.value).toBeCloseTo(6 * 5 + 185 * 0.35, 9));
});
