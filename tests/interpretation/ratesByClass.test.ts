import { describe, expect, it } from "vitest";
import { advise } from "../../src/interpretation/advise.ts";
import { nutrientRates } from "../../src/interpretation/nutrientRates.ts";
import { rate } from "../../src/interpretation/rating.ts";
import type { Sample } from "../../src/interpretation/sample.ts";
import { fullSample } from "../support/fullSample.ts";
import { measured } from "../support/measured.ts";
import { answered } from "../support/outcomes.ts";
import { pack } from "../support/packs.ts";

const [nebraska, montana, rutgers, iowa] = [pack("us-nebraska-ec155"), pack("us-montana-alfalfa"), pack("us-newjersey-rutgers"), pack("us-iowa-pm1688-2013")];
const olsen = measured("P", 12, { method: "olsen", depth: { from: 0, to: 6, unit: "in" } });
const sample: Sample = { ...fullSample, packs: [nebraska, montana], facts: { crop: "alfalfa" }, yieldGoal: { value: 5, unit: "ton/ac" }, measurements: [olsen] };

describe("rates by class within the whole advice", () => {
  it("come from the first guideline that has one, a range with its upper end and the caution that goes with it", () => {
    const advice = advise(sample);
    const phosphate = advice.rates.find((r) => r.nutrient === "P2O5")!;
    expect(phosphate.pack?.id).toBe("us-montana-alfalfa");
    expect(answered(phosphate.outcome).value).toMatchObject({ rate: { value: 20, unit: "lb/ac" }, to: 40 });
    expect(advice.cautions).toContain("phosphorusNearWater");
  });

  it("are refused for the first rule's reason where no rule reads the method", () => {
    const [phosphate] = nutrientRates({ ...sample, packs: [nebraska], measurements: [measured("P", 12, { method: "morgan" })] });
    expect(phosphate?.outcome).toMatchObject({ kind: "noAnswer", because: "phosphorus was measured by Morgan and Nebraska 2017 is calibrated for Bray P1" });
  });

  it("rate the test as well, with the classes for a chart", () => {
    const advice = rate({ facts: { crop: "corn" }, packs: [iowa], own: undefined }, measured("P", 18, { method: "bray1", depth: { from: 0, to: 6, unit: "in" } }));
    expect(answered(advice.outcome).value).toEqual({ band: "optimum", position: "within", rank: 2 });
    expect(advice.bands.map((b) => b.from)).toEqual([undefined, 11, 16, 21, 31]);
  });

  it("band no chart by the classes of an index", () => {
    const advice = rate({ facts: { soilPh: 6.5 }, packs: [rutgers], own: undefined }, measured("Mn", 10));
    expect(answered(advice.outcome).value.band).toBe("adequate");
    expect(advice.bands).toEqual([]);
  });
});
