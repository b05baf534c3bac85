import { describe, expect, it } from "vitest";
import { nitrateLinearCheck } from "../../../src/interpretation/checks/nitrateLinearCheck.ts";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import type { NitrateLinearRule } from "../../../src/interpretation/rules/nitrateLinear.ts";
import { nitrateLinearRule, rateByNitrateLinear } from "../../../src/interpretation/rules/nitrateLinear.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measuredFor } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { numbersIn, recompute } from "../../support/recompute.ts";
import { always, between } from "../../support/repeatable.ts";

describe("pounds per ppm, as published", () => {
  checkedAsPublished(nitrateLinearCheck);
});

const iowa = ruleIn(pack("us-iowa-nitrate"), "late-spring", "nitrateLinear");
const minnesota = ruleIn(pack("us-minnesota-nitrate"), "psnt", "nitrateLinear");
const illinois = ruleIn(pack("us-illinois-nitrate"), "spring", "nitrateLinear");
const sampled = { cores: 18, keeping: "chilled" };
const all = [iowa, minnesota, illinois];
const usual = { cropHeight: 9, rainOfNormal: 100, manuredSinceHarvest: "no", cores: 18, keeping: "chilled", texture: "loam", earlyNitrogen: 0, sinceSod: 5, fertilizerOnlyYears: 0, daysSinceRain: 5, plannedNitrogen: 180, previousCrop: "corn" };

const ask = (rule: NitrateLinearRule, ppm: number, given: Parameters<typeof historyOf>[0] = usual, over: Partial<Measurement> = {}, crop: CropId | undefined = "corn") =>
  rateByNitrateLinear(rule, measuredFor(rule.limits, "nitrateN", ppm, over), { facts: { crop }, history: historyOf(given), yieldGoal: undefined, pack: "the bulletin" });
const rate = (...args: Parameters<typeof ask>) => answered(ask(...args)).value.rate.value;

describe("for any result", () => {
  it.each(all)("$id: more nitrate never gets more nitrogen, and no rate is negative", (rule) =>
    always([between(0, 60), between(0, 60)], (a, b) => {
      const [less, more] = [rate(rule, Math.min(a, b)), rate(rule, Math.max(a, b))];
      expect(more).toBeLessThanOrEqual(less + 1e-9);
      expect(more).toBeGreaterThanOrEqual(0);
    }));

  it("manure never raises the rate, nor does a wet spring", () =>
    always([between(0, 40), between(50, 200)], (ppm, rainOfNormal) => {
      const at = (manuredSinceHarvest: string, rain: number) => rate(iowa, ppm, { ...usual, manuredSinceHarvest, rainOfNormal: rain });
      expect(at("yes", rainOfNormal)).toBeLessThanOrEqual(at("no", rainOfNormal));
      expect(at("no", 130)).toBeLessThanOrEqual(at("no", 100));
    }));

  it("corn after alfalfa never gets more than corn after corn", () =>
    always([between(0, 40), between(50, 200)], (ppm, rainOfNormal) => {
      const after = (previousCrop: string) => rate(iowa, ppm, { ...usual, previousCrop, rainOfNormal });
      expect(after("alfalfa")).toBeLessThanOrEqual(after("corn"));
    }));

  it("the slopes of the states are far apart: one test, three rates", () => {
    expect([iowa, minnesota, illinois].map((rule) => rule.perPpm.value)).toEqual([8, 12.3, 4]);
    expect([iowa, minnesota, illinois].map((rule) => rate(rule, 16))).toEqual([72, expect.closeTo(49.2, 9), 116]);
  });

  it("every printed sum comes to its result", () =>
    always([between(0, 30)], (ppm) => {
      for (const rule of all)
        for (const step of answered(ask(rule, ppm)).steps) {
          const sum = recompute(step);
          if (sum && numbersIn(step.result).length > 0) expect(Math.abs(sum.computed - sum.printed)).toBeLessThanOrEqual(sum.within + 0.05);
        }
    }));
});

describe("what is advised only", () => {
  it("is a caution", () => {
    expect(answered(ask(iowa, 16)).cautions).toEqual([]);
    const { cautions } = answered(ask(iowa, 16, { ...usual, keeping: "as taken", hoursToLab: 60, earlyNitrogen: 90, sinceSod: 1, fertilizerOnlyYears: 3, daysSinceRain: 1, texture: "muck" }));
    expect(cautions).toHaveLength(1);
    expect(cautions[0]!.match(/\(here /g)).toHaveLength(6);
    expect(cautions.join(" ")).toMatch(/New York asks that the fertilizer nitrogen before the test is less than 40 lb\/ac/);
  });
});

describe("refusals", () => {
  it("a sample of another depth", () => expectRefusal(ask(iowa, 16, usual, { depth: { from: 0, to: 8, unit: "in" } }), /the sample was taken 0 to 8 in deep and the bulletin is calibrated for 0 to 12 in/, "a sample 0 to 12 in deep"));
  it("a deep sample", () => expectRefusal(ask(minnesota, 16, usual, { depth: { from: 0, to: 24, unit: "in" } }), /the sample was taken 0 to 24 in deep/, "a sample 0 to 12 in deep"));
  it("a rate that a largest one may cut off, where the crop before is not known", () =>
    expectRefusal(ask(iowa, 10, { ...usual, previousCrop: undefined }), /the crop before is not recorded, and the rate of the bulletin depends on it/, "previousCrop"));
  it("another unit", () => expectRefusal(ask(iowa, 16, usual, { unit: "lb/ac" }), /the result is in lb\/ac and the bulletin reads ppm/, "nitrateN in ppm"));
  it("another crop", () => expectRefusal(ask(iowa, 16, usual, {}, "soybean"), /the bulletin has no rule for soybean/, "a guideline for soybean"));
  it("no crop", () => expectRefusal(rateByNitrateLinear(iowa, measuredFor(iowa.limits, "nitrateN", 16), { facts: {}, history: historyOf(usual), yieldGoal: undefined, pack: "the bulletin" }), /no crop is planned/, "crop"));
  it("a less-than", () => expectRefusal(ask(iowa, 5, usual, { qualifier: "<" }), /the laboratory says < 5 ppm, and the bulletin reads a number/, "nitrateN as a number"));
  it("corn that is too tall", () => expectRefusal(ask(iowa, 16, { ...usual, cropHeight: 13 }), /the height of the crop is 13 in, and the bulletin asks for 6 to 12 in/, "a nitrate test where the height of the crop is 6 to 12 in"));
  it("a height that is not recorded", () => expectRefusal(ask(iowa, 16, { ...usual, cropHeight: undefined }), /the height of the crop is not recorded/, "cropHeight"));
  it("rain that is not recorded, where it decides", () => expectRefusal(ask(iowa, 20, { ...usual, rainOfNormal: undefined }), /the rain since April 1 against normal is not recorded, and the rate of the bulletin depends on it/, "rainOfNormal"));
  // At 23 ppm the wet spring's level of 21 says none, and the usual one of 25 says (25 - 23) x 8 = 16 lb.
  it("rain that is not recorded, between two critical levels", () => expectRefusal(ask(iowa, 23, { ...usual, rainOfNormal: undefined }), /the rain since April 1 against normal is not recorded/, "rainOfNormal"));
  it("but not where every critical level says none", () => expect(rate(iowa, 26, { ...usual, rainOfNormal: undefined })).toBe(0));
  // At 16 ppm manured soil needs none, and other soil (25 - 16) x 8 = 72 lb.
  it("manure that is not recorded, where the critical level hangs on it", () => expectRefusal(ask(iowa, 16, { ...usual, manuredSinceHarvest: undefined }), /manure since the last harvest is not recorded/, "manuredSinceHarvest"));
  it("but not where soil that is not manured needs none either", () => expect(rate(iowa, 25, { ...usual, manuredSinceHarvest: undefined })).toBe(0));
  it("no planned rate, where the test comes off it", () => expectRefusal(ask(illinois, 15, sampled), /the nitrogen rate planned before the test is not recorded, and the bulletin takes the test off it/, "plannedNitrogen"));
  it("but above 25 ppm none is asked for", () => expect(rate(illinois, 26, sampled)).toBe(0));
});

it("the schema refuses a slope that does not fall", () => expect(nitrateLinearRule.safeParse({ ...iowa, perPpm: { ...iowa.perPpm, value: 0 } }).success).toBe(false));
