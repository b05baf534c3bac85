import { describe, expect, it } from "vitest";
import type { Advice } from "../../src/interpretation/advise.ts";
import { advise } from "../../src/interpretation/advise.ts";
import type { Measurement } from "../../src/interpretation/measurement.ts";
import type { Outcome } from "../../src/interpretation/outcome.ts";
import type { Sample } from "../../src/interpretation/sample.ts";
import type { AnalyteId, NutrientId } from "../../src/interpretation/vocabulary.ts";
import { fullSample } from "../support/fullSample.ts";
import { measured } from "../support/measured.ts";
import { answered, expectRefusal } from "../support/outcomes.ts";
import { pack } from "../support/packs.ts";

type Question = (said: Advice) => Outcome<unknown>;
const rate = (nutrient: NutrientId): Question => (said) => said.rates.find((r) => r.nutrient === nutrient)!.outcome;
const rating = (analyte: AnalyteId): Question => (said) => said.ratings.find((r) => r.measurement.analyte === analyte)!.outcome;
const lime: Question = (said) => said.lime.needed;

type Change = Partial<Sample>;
const { facts } = fullSample;
/** The full sample with one result as another laboratory, or a careless hand, would have written it. */
const result = (analyte: AnalyteId, over: Partial<Measurement>): Change => ({ measurements: fullSample.measurements.map((m) => (m.analyte === analyte ? { ...m, ...over } : m)) });
const without = (analyte: AnalyteId): Change => ({ measurements: fullSample.measurements.filter((m) => m.analyte !== analyte) });
const ask = (question: Question, change: Change): Outcome<unknown> => question(advise({ ...fullSample, ...change }));

const inches = (from: number, to: number) => ({ depth: { from, to, unit: "in" } }) as const;
const iowa = (soil: Sample["facts"]): Change => ({ packs: [pack("us-iowa-pm1688-2013")], facts: { crop: "corn", ...soil }, measurements: [measured("K", 96, { method: "ammoniumAcetate", ...inches(0, 6) })] });
const carolina = (soil: Sample["facts"]): Change => ({ packs: [pack("us-northcarolina-circular1-2014")], own: undefined, facts: { crop: "corn", ...soil }, measurements: [measured("pH", 5.2), measured("exchangeableAcidity", 1.6, { method: "mehlichBuffer", unit: "meq/100 cm3" })] });
const teagasc = (tons: number): Change => ({ packs: [pack("ie-teagasc")], facts: { crop: "springBarley" }, yieldGoal: { value: tons, unit: "t/ha" }, measurements: [measured("K", 80, { method: "morgan", unit: "mg/l", depth: { from: 0, to: 10, unit: "cm" } })] });

interface Bad {
  readonly name: string;
  readonly question: Question;
  readonly change: Change;
  /** The nearest sample that is answered; absent: the full sample as it stands. */
  readonly passes?: Change;
  readonly because: RegExp;
  readonly missing: readonly string[];
}

const table: Readonly<Record<string, readonly Bad[]>> = {
  "wrong extractant": [
    { name: "potash", question: rate("K2O"), change: result("K", { method: "ammoniumAcetate" }), because: /^potassium was measured by ammonium acetate and Tri-State 2020 is calibrated for Mehlich-3$/, missing: ["K by Mehlich-3"] },
    { name: "the class of phosphorus", question: rating("P"), change: result("P", { method: "olsen" }), because: /^phosphorus was measured by Olsen.* and Tri-State 2020 is calibrated for Mehlich-3$/, missing: ["P by Mehlich-3"] },
    { name: "lime by another buffer", question: lime, change: result("bufferPh", { method: "adamsEvans" }), because: /^the buffer used was the Adams-Evans buffer, and Oregon 2025 reads the Sikora buffer; a buffer pH is never read in another buffer's table$/, missing: ["bufferPh by the Sikora buffer"] },
  ],
  "missing buffer pH": [{ name: "lime", question: lime, change: without("bufferPh"), because: /^buffer pH was not measured; soil pH says whether to lime, buffer pH says how much$/, missing: ["bufferPh"] }],
  "missing CEC": [
    { name: "potash", question: rate("K2O"), change: { facts: { ...facts, cec: undefined } }, because: /^the cation exchange capacity is not known, and Tri-State 2020 sets the potassium level by it$/, missing: ["cec"] },
    { name: "the class of potassium", question: rating("K"), change: { facts: { ...facts, cec: undefined } }, because: /^the cation exchange capacity is not known/, missing: ["cec"] },
  ],
  "depth unlike the calibration": [
    { name: "phosphate, half as deep", question: rate("P2O5"), change: result("P", inches(0, 4)), passes: result("P", inches(0, 7)), because: /^the sample was taken 0 to 4 in deep and Tri-State 2020 is calibrated for 0 to 8 in$/, missing: ["a sample 0 to 8 in deep"] },
    { name: "phosphate, below the plowed soil", question: rate("P2O5"), change: result("P", inches(8, 16)), because: /^the sample was taken 8 to 16 in deep/, missing: ["a sample 0 to 8 in deep"] },
    { name: "lime, below the plowed soil", question: lime, change: result("pH", inches(8, 16)), because: /^the sample was taken 8 to 16 in deep, and every lime rate is for soil from the surface down$/, missing: ["a sample from the surface down"] },
  ],
  "crop not in the pack": [
    { name: "phosphate", question: rate("P2O5"), change: { facts: { ...facts, crop: "potatoes" } }, because: /^Tri-State 2020 has no rule for potatoes$/, missing: ["a guideline for potatoes"] },
    { name: "no crop at all", question: rate("P2O5"), change: { facts: { ...facts, crop: undefined } }, because: /^no crop is planned$/, missing: ["crop"] },
  ],
  "value outside a table": [
    { name: "a buffer pH below the last row", question: lime, change: result("bufferPh", { value: 4.7 }), because: /^the buffer pH 4\.7 is outside the table of Oregon 2025, which runs from /, missing: ["a table for buffer pH 4.7"] },
    { name: "a target pH above the last column", question: lime, change: { own: { value: 7.4, step: fullSample.own!.step } }, because: /^the target pH 7\.4 is above the highest that Oregon 2025 prints, /, missing: ["targetPh"] },
    { name: "a yield beyond the last row", question: rate("K"), change: teagasc(9), passes: teagasc(8.5), because: /^the yield of 9 t\/ha is outside the table of Teagasc, which runs from 6.5 to 8.5 t\/ha$/, missing: ["a yield from 6.5 to 8.5 t/ha"] },
  ],
  'qualifier "<"': [
    { name: "potash", question: rate("K2O"), change: result("K", { qualifier: "<", value: 100 }), because: /^the laboratory says < 100 ppm, and the rate needs a number$/, missing: ["K as a number"] },
    { name: "the class of potassium, where it spans two", question: rating("K"), change: result("K", { qualifier: "<", value: 150 }), passes: result("K", { qualifier: "<", value: 60 }), because: /^the laboratory says < 150 ppm, which may lie on either side of a level$/, missing: ["K as a number"] },
    { name: "lime by a buffer pH", question: lime, change: result("bufferPh", { qualifier: "<" }), because: /^the laboratory says buffer pH < 6\.37, and the table needs a number$/, missing: ["bufferPh as a number"] },
    { name: "lime by a soil pH", question: lime, change: result("pH", { qualifier: "<" }), because: /^the laboratory says pH < 5\.8, and the decision needs a number$/, missing: ["pH as a number"] },
  ],
  "contradictory soil facts": [
    { name: "muck with little organic matter", question: rate("K2O"), change: iowa({ texture: "muck", organicMatter: 2 }), passes: iowa({ texture: "loam", organicMatter: 2 }), because: /^whether the soil is organic or mineral \(its texture and organic matter contradict each other\) is not known/, missing: ["texture and organicMatter that agree"] },
    { name: "loam with the organic matter of peat", question: rate("K2O"), change: iowa({ texture: "loam", organicMatter: 45 }), passes: iowa({ texture: "loam", organicMatter: 4 }), because: /contradict each other\) is not known/, missing: ["texture and organicMatter that agree"] },
    { name: "muck that the laboratory classes as mineral", question: lime, change: carolina({ texture: "muck", soilClass: "mineral" }), passes: carolina({ texture: "loam", soilClass: "mineral" }), because: /its texture and class contradict each other\) is not known/, missing: ["texture and soilClass that agree"] },
  ],
};

describe.each(Object.entries(table))("%s", (_, cases) => {
  it.each(cases)("$name: no answer, and what is missing is named", ({ question, change, because, missing }) => expectRefusal(ask(question, change), because, ...missing));
  it.each(cases)("$name: the nearest good sample is answered", ({ question, passes = {} }) => expect(answered(ask(question, passes)).steps.length).toBeGreaterThan(0));
});

it("one bad result leaves the other questions answered", () => {
  const said = advise({ ...fullSample, ...result("K", { method: "ammoniumAcetate" }) });
  expect([rate("K2O")(said).kind, rating("K")(said).kind, lime(said).kind, rate("P2O5")(said).kind, rating("P")(said).kind]).toEqual(["noAnswer", "noAnswer", "answer", "answer", "answer"]);
});
