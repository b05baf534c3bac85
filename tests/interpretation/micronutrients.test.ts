import { describe, expect, it } from "vitest";
import { advise } from "../../src/interpretation/advise.ts";
import type { Measurement } from "../../src/interpretation/measurement.ts";
import { weakestEvidence } from "../../src/interpretation/outcome.ts";
import type { AnalyteId, CropId, NutrientId } from "../../src/interpretation/vocabulary.ts";
import { fullSample } from "../support/fullSample.ts";
import { measured } from "../support/measured.ts";
import { answered, expectRefusal } from "../support/outcomes.ts";
import { installedPacks } from "../support/packs.ts";
import type { Facts } from "../../src/interpretation/rules/facts.ts";

type Over = Partial<Measurement>;
const inches = (to: number): Over => ({ depth: { from: 0, to, unit: "in" } });
const dtpa: Over = { method: "dtpa", ...inches(6) };

const ask = (id: string, crop: CropId, tests: readonly Measurement[], facts: Facts = {}) =>
  advise({ ...fullSample, packs: [installedPacks.get(id)], own: undefined, facts: { crop, ...facts }, yieldGoal: undefined, measurements: tests });
const rateOf = (advice: ReturnType<typeof ask>, nutrient: NutrientId) => advice.rates.find((r) => r.nutrient === nutrient)?.outcome;

describe("sulfur, magnesium, zinc, boron, manganese and chloride", () => {
  // Each is an edge or an example that stands in tests/cases with its publication.
  it.each<[string, CropId, AnalyteId, NutrientId, number, Over, Facts, { value: number; to?: number; band?: string; evidence: string }]>([
    ["us-iowa-pm1688-2013", "corn", "Zn", "Zn", 0.6, dtpa, {}, { value: 5, band: "marginal", evidence: "memory" }],
    ["us-minnesota-agronomic", "corn", "Zn", "Zn", 0.6, dtpa, {}, { value: 5, band: "0.51 to 0.75 ppm", evidence: "memory" }],
    ["us-kansas-mf2586-2003", "soybean", "Zn", "Zn", 0.4, dtpa, {}, { value: 7, evidence: "memory" }],
    ["us-oregon-corn", "cornSilage", "Mg", "Mg", 90, { method: "ammoniumAcetate" }, {}, { value: 10, to: 15, band: "below 100 ppm", evidence: "memory" }],
    ["us-oregon-corn", "cornSilage", "Zn", "Zn", 0.7, { method: "dtpa" }, {}, { value: 10, band: "below 0.8 ppm", evidence: "memory" }],
    ["us-pennsylvania-agronomy-guide", "alfalfa", "B", "B", 0.9, { method: "hotWater", ...inches(7) }, {}, { value: 2, to: 4, band: "not adequate", evidence: "memory" }],
    ["us-southdakota-s-cl", "wheat", "Cl", "Cl", 35, { method: "calciumNitrate", unit: "lb/ac", ...inches(24) }, {}, { value: 25, band: "medium", evidence: "memory" }],
    ["us-southdakota-s-cl", "corn", "S", "S", 8, { method: "calciumPhosphate", unit: "lb/ac", ...inches(24) }, {}, { value: 25, band: "very low", evidence: "memory" }],
    ["us-nebraska-ec155", "alfalfa", "S", "S", 6, { method: "calciumPhosphate" }, { texture: "sandyLoam" }, { value: 0, band: "above the critical level", evidence: "memory" }],
    ["us-tristate-e2567-1995", "soybean", "Mn", "Mn", 10, { method: "hydrochloricAcid" }, { soilPh: 7, organicMatter: 3 }, { value: 3.9, evidence: "memory" }],
    ["uk-rb209-2010", "potatoes", "Mg", "MgO", 40, { method: "ammoniumNitrate", unit: "mg/l", depth: { from: 0, to: 15, unit: "cm" } }, {}, { value: 80, band: "index 1", evidence: "secondary" }],
  ])("%s, %s: %s gives a rate of %s", (id, crop, analyte, nutrient, value, over, facts, wanted) => {
    const advice = ask(id, crop, [measured(analyte, value, over)], facts);
    const { value: got, steps } = answered(rateOf(advice, nutrient)!);
    expect([got.rate.value, got.to, weakestEvidence(steps)]).toEqual([expect.closeTo(wanted.value, 9), wanted.to, wanted.evidence]);
    if (wanted.band !== undefined) expect(answered(advice.ratings[0]!.outcome).value.band).toBe(wanted.band);
  });

  it("are rated where a guideline has classes and no rate, and then no rate is asked for", () => {
    const advice = ask("us-newjersey-rutgers", "corn", [measured("Zn", 0.9), measured("B", 0.4), measured("Cu", 21), measured("Fe", 49), measured("Mn", 4)], { soilPh: 7 });
    expect(advice.ratings.map((r) => answered(r.outcome).value.band)).toEqual(["deficient", "deficient", "warning", "deficient", "deficient"]);
    expect(advice.rates.map((r) => r.nutrient)).toEqual(["P2O5", "K2O"]);
  });
});

describe("refusals", () => {
  it("a test that a guideline asks for and nobody made", () => expectRefusal(rateOf(ask("us-iowa-pm1688-2013", "corn", []), "Zn")!, /^zinc was not tested$/, "Zn"));

  it("no word of a nutrient for crops that the rule is not for", () => {
    expect(rateOf(ask("us-iowa-pm1688-2013", "soybean", [measured("Zn", 0.3, dtpa)]), "Zn")).toBeUndefined();
    expect(rateOf(ask("us-southdakota-s-cl", "corn", []), "Cl")).toBeUndefined();
  });

  it("zinc by another extractant: DTPA, hydrochloric acid and Mehlich-3 are three numbers", () =>
    expectRefusal(rateOf(ask("us-iowa-pm1688-2013", "corn", [measured("Zn", 0.6, inches(6))]), "Zn")!, /^zinc was measured by Mehlich-3 and Iowa 2013 is calibrated for DTPA$/, "Zn by DTPA"));

  it("sulfur by Mehlich-3, and sulfate sulfur of eight inches where two feet are read", () => {
    const sulfur = (over: Over) => rateOf(ask("us-southdakota-s-cl", "corn", [measured("S", 8, { unit: "lb/ac", ...over })]), "S")!;
    expectRefusal(sulfur({}), /^sulfur was measured by Mehlich-3 and South Dakota is calibrated for monocalcium phosphate$/, "S by monocalcium phosphate");
    expectRefusal(sulfur({ method: "calciumPhosphate" }), /^the sample was taken 0 to 8 in deep and South Dakota is calibrated for 0 to 24 in$/, "a sample 0 to 24 in deep");
  });

  it("sulfur on a soil for which no response is expected, or of which texture or organic matter is not known", () => {
    const sulfur = (facts: Facts) => rateOf(ask("us-nebraska-ec155", "corn", [measured("S", 5, { method: "calciumPhosphate" })], facts), "S")!;
    expectRefusal(sulfur({ texture: "siltLoam", organicMatter: 3 }), /Nebraska 2017 has no rates for this soil or crop/, "a guideline for this soil and crop");
    expectRefusal(sulfur({}), /the soil texture is not known, and Nebraska 2017 sets the rates by it/, "texture");
    expectRefusal(sulfur({ texture: "siltLoam" }), /the organic matter is not known, and Nebraska 2017 sets the rates by it/, "organicMatter");
    expectRefusal(sulfur({ texture: "sand" }), /a result of 5 ppm is in the class “at or below the critical level”, and what Nebraska 2017 gives there was not found/, "the rate of Nebraska 2017 in the class “at or below the critical level”");
  });

  it("manganese without the soil pH that its equation and its index take", () => {
    expectRefusal(rateOf(ask("us-tristate-e2567-1995", "soybean", [measured("Mn", 10, { method: "hydrochloricAcid" })], { organicMatter: 3 }), "Mn")!, /the soil pH in water is not known, and the rate depends on it/, "soilPh");
    expectRefusal(ask("us-newjersey-rutgers", "corn", [measured("Mn", 10)]).ratings[0]!.outcome, /the soil pH in water is not known, and the manganese availability index depends on it/, "soilPh");
  });
});
