import { describe, expect, it } from "vitest";
import { bandRatesCheck } from "../../../src/interpretation/checks/bandRatesCheck.ts";
import { weakestEvidence } from "../../../src/interpretation/outcome.ts";
import { bandRatesRule, classByBandRates, rateByBandRates } from "../../../src/interpretation/rules/bandRates.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured, measuredFor } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import type { Facts } from "../../../src/interpretation/rules/facts.ts";

describe("a rate for each class, as published", () => {
  checkedAsPublished(bandRatesCheck);
});

const iowa = pack("us-iowa-pm1688-2013");
const bray = ruleIn(iowa, "phosphate-bray", "bandRates");
const potash = ruleIn(iowa, "potash-acetate", "bandRates");
const removal = ruleIn(iowa, "removal", "removal");
const montana = ruleIn(pack("us-montana-alfalfa"), "phosphate", "bandRates");
const nebraska = ruleIn(pack("us-nebraska-ec155"), "phosphate-bray", "bandRates");
const goal = { value: 180, unit: "bu/ac" } as const;
const corn: Facts = { crop: "corn", texture: "siltLoam" };

const place = (facts: Facts, short = "Iowa 2013") => ({ facts, yieldGoal: goal, removal, pack: short });
const iowaTest = (value: number, over = {}) => measuredFor(bray.limits, "P", value, over);

describe("rateByBandRates", () => {
  it("gives a range its upper end, and works with the lower", () => {
    const { value, steps } = answered(rateByBandRates(montana, measuredFor(montana.limits, "P", 12), { ...place({ crop: "alfalfa" }, "Montana alfalfa"), yieldGoal: { value: 5, unit: "ton/ac" } }));
    expect(value).toMatchObject({ rate: { value: 20, unit: "lb/ac" }, to: 40 });
    expect(steps.at(-1)).toMatchObject({ expression: "4 to 8 lb per ton × 5 ton/ac", result: "20 to 40 lb P₂O₅/ac", evidence: "read" });
  });

  it("says nothing of an upper end where there is one number", () => expect(answered(rateByBandRates(bray, iowaTest(5), place(corn))).value.to).toBeUndefined());

  it("replaces removal where the class says so, with the yield in the sum", () => {
    const { steps } = answered(rateByBandRates(bray, iowaTest(18), place(corn)));
    expect(steps.map((s) => s.result)).toContain("57.6 lb/ac");
    expect(weakestEvidence(steps)).toBe("memory");
  });

  it("nothing is an answer, and needs no yield", () => expect(answered(rateByBandRates(bray, iowaTest(40), { ...place(corn), yieldGoal: undefined })).value.rate).toEqual({ value: 0, unit: "lb/ac" }));
});

describe("ppm where the classes are in lb/ac", () => {
  const oklahoma = ruleIn(pack("us-oklahoma-osu"), "phosphate", "bandRates");
  const at = (ppm: number, over = {}) => rateByBandRates(oklahoma, measuredFor(oklahoma.limits, "P", ppm, { unit: "ppm", ...over }), place({ crop: "wheat" }, "Oklahoma"));

  it("are read by the factor the publication prints, in a line with its source", () => {
    const { value, steps } = answered(at(40));
    expect(value.rate.value).toBe(0);
    expect(steps[0]).toMatchObject({ what: "Laboratory result", result: "40 ppm" });
    expect(steps[1]).toMatchObject({ expression: "40 × 2", result: "80 lb/ac", source: { reference: "osu-ok-summary-2022" }, evidence: "read" });
    expect(answered(at(80, { unit: "lb/ac" })).steps[1]!.what).not.toMatch(/lb\/ac/);
  });
  it("below it are told why there is no rate, and what acid soil adds", () =>
    expectRefusal(at(20), /in the class “below 65”, and the table of rates was not readable there; below pH 5\.5, where no lime is spread, 30 lb of phosphate/, "the rate of Oklahoma in the class “below 65”"));
  it("stay refused at another depth than the one the factor is for", () => expectRefusal(at(40, { depth: { from: 0, to: 12, unit: "in" } }), /0 to 12 in deep and Oklahoma is calibrated for 0 to 6 in/, "a sample 0 to 6 in deep"));
  it("stay refused where no factor is printed", () =>
    expectRefusal(rateByBandRates({ ...oklahoma, poundsPerPpm: undefined }, measuredFor(oklahoma.limits, "P", 40, { unit: "ppm" }), place({ crop: "wheat" }, "Oklahoma")), /the result is in ppm and Oklahoma reads lb\/ac/, "P in lb/ac"));
  it("a factor for a rule that reads ppm is refused", () =>
    expect(bandRatesRule.safeParse({ ...oklahoma, limits: { ...oklahoma.limits, unit: "ppm" } }).success).toBe(false));
});

describe("refusals", () => {
  it("another extractant", () =>
    expectRefusal(rateByBandRates(bray, measured("P", 12, { depth: { from: 0, to: 6, unit: "in" } }), place(corn)), /phosphorus was measured by Mehlich-3 and Iowa 2013 is calibrated for Bray P1/, "P by Bray P1"));

  it("another finish", () => {
    const icp = ruleIn(iowa, "phosphate-mehlich3-icp", "bandRates");
    expectRefusal(rateByBandRates(icp, measuredFor(icp.limits, "P", 12, { finish: "colorimetric" }), place(corn)), /measured by Mehlich-3, colorimetric and Iowa 2013 is calibrated for Mehlich-3, ICP/, "P by Mehlich-3, ICP");
  });

  it("soil extracted moist, where the classes are for dried soil, and the other way round", () => {
    expectRefusal(rateByBandRates(potash, measuredFor(potash.limits, "K", 90, { preparation: "moist" }), place(corn)), /the laboratory extracted moist soil and Iowa 2013 is calibrated for dried soil/, "K on dried soil");
    const moist = ruleIn(iowa, "potash-acetate-moist", "bandRates");
    expectRefusal(rateByBandRates(moist, measuredFor(moist.limits, "K", 90, { preparation: "dried" }), place(corn)), /the laboratory extracted dried soil and Iowa 2013 is calibrated for moist soil/, "K on moist soil");
  });

  it("a class whose rate is not known", () => {
    const low = measuredFor(nebraska.limits, "P", 12);
    expect(answered(classByBandRates(nebraska, low, corn, "Nebraska 2017")).value.band).toBe("at or below the critical level");
    expectRefusal(
      rateByBandRates(nebraska, low, place(corn, "Nebraska 2017")),
      /^a result of 12 ppm is in the class “at or below the critical level”, and what Nebraska 2017 gives there was not found$/,
      "the rate of Nebraska 2017 in the class “at or below the critical level”",
    );
  });

  it("no texture, where the rates go by it", () =>
    expectRefusal(rateByBandRates(potash, measuredFor(potash.limits, "K", 90), place({ crop: "corn" })), /the soil texture is not known, and Iowa 2013 sets the rates by it/, "texture"));

  it("a soil that no table covers", () =>
    expectRefusal(rateByBandRates(potash, measuredFor(potash.limits, "K", 90), place({ crop: "corn", texture: "muck" })), /Iowa 2013 has no rates for this soil or crop/, "a guideline for this soil and crop"));

  it("a crop that the guideline lacks", () => expectRefusal(rateByBandRates(bray, iowaTest(12), place({ crop: "potatoes" })), /Iowa 2013 has no rule for potatoes/, "a guideline for potatoes"));

  it("no crop", () => expectRefusal(rateByBandRates(bray, iowaTest(12), place({})), /no crop is planned/, "crop"));

  it("no yield goal, where removal is replaced or the rate is for each ton", () => {
    expectRefusal(rateByBandRates(bray, iowaTest(18), { ...place(corn), yieldGoal: undefined }), /no yield goal is set, and the rate replaces what the crop removes/, "yieldGoal");
    expectRefusal(rateByBandRates(montana, measuredFor(montana.limits, "P", 12), { ...place({ crop: "alfalfa" }, "Montana alfalfa"), yieldGoal: undefined }), /no yield goal is set, and the rate is for each unit of yield/, "yieldGoal");
    expectRefusal(rateByBandRates(montana, measuredFor(montana.limits, "P", 12), place({ crop: "alfalfa" }, "Montana alfalfa")), /the yield of alfalfa is in bu\/ac/, "a yield in ton/ac");
  });

  it("no removal table, or none for the crop", () => {
    expectRefusal(rateByBandRates(bray, iowaTest(18), { ...place(corn), removal: undefined }), /Iowa 2013 holds no removal table/, "removal");
    const without = { ...removal, rows: removal.rows.filter((r) => r.crop !== "corn") };
    expectRefusal(rateByBandRates(bray, iowaTest(18), { ...place(corn), removal: without }), /Iowa 2013 gives no P₂O₅ removal for corn/, "P₂O₅ removal of corn");
  });

  it("a less-than that spans two classes, but not one that stays in the lowest", () => {
    expectRefusal(rateByBandRates(bray, iowaTest(12, { qualifier: "<" }), place(corn)), /the laboratory says < 12 ppm, which spans more than one class/, "P as a number");
    expect(answered(rateByBandRates(bray, iowaTest(5, { qualifier: "<" }), place(corn))).value.rate.value).toBe(100);
    expect(answered(rateByBandRates(bray, iowaTest(31, { qualifier: ">" }), place(corn))).value.rate.value).toBe(0);
  });
});

describe("the schema", () => {
  const parses = (classes: unknown, unit = "lb/ac") => bandRatesRule.safeParse({ ...bray, unit, tables: [{ classes, source: "common-practice" }] }).success;
  it("wants rising classes, falling rates and rising ranges", () => {
    expect(parses([{ name: "a", rate: 60 }, { name: "b", from: 10, rate: 0 }])).toBe(true);
    expect(parses([{ name: "a", rate: 0 }, { name: "b", from: 10, rate: 60 }])).toBe(false);
    expect(parses([{ name: "a", rate: [40, 60] }, { name: "b", from: 10, rate: [20, 70] }])).toBe(false);
    expect(parses([{ name: "a", rate: [60, 40] }, { name: "b", from: 10, rate: 0 }])).toBe(false);
    expect(parses([{ name: "a", rate: 60 }, { name: "b" }])).toBe(false);
    expect(parses([{ name: "a", rate: -1 }, { name: "b", from: 10 }])).toBe(false);
  });

  it("reads removal in lb/ac only", () => {
    expect(parses([{ name: "a", rate: 60 }, { name: "b", from: 10, rate: "removal" }])).toBe(true);
    expect(parses([{ name: "a", rate: 60 }, { name: "b", from: 10, rate: "removal" }], "lb/1000 sq ft")).toBe(false);
  });
});
