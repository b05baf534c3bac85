import { describe, expect, it } from "vitest";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import type { Guideline } from "../../../src/interpretation/guideline.ts";
import { nitrogenAdvice } from "../../../src/interpretation/nitrogen/nitrogen.ts";
import type { ManureSpread } from "../../../src/interpretation/rules/manureAvailability.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn, triState } from "../../support/packs.ts";
import type { NitrogenQuestion } from "../../../src/interpretation/nitrogen/nitrogenCredits.ts";

const iowa = pack("us-iowa-nitrate");
const minnesota = pack("us-minnesota-nitrate");
const west = pack("us-minnesota-west-nitrate-2002");
const illinois = pack("us-illinois-nitrate");
const pennsylvania = pack("us-pennsylvania-nitrate");
const nebraska = pack("us-nebraska-ec117-nitrogen");
const wisconsin = pack("us-wisconsin-legume-credit");
const cornell = pack("us-cornell-manure");

const test = (ppm: number, to = 12) => measured("nitrateN", ppm, { method: "potassiumChloride", purpose: "nitrate", depth: { from: 0, to, unit: "in" } });
const usual = { cropHeight: 9, cores: 18, keeping: "chilled", daysSinceRain: 5, earlyNitrogen: 0, sinceSod: 6, fertilizerOnlyYears: 0, rainOfNormal: 100, manuredSinceHarvest: "no", manuredBefore: "no", manureYears: 0, previousCrop: "wheat", texture: "siltLoam", organicMatter: 2 };
const question = (over: Partial<NitrogenQuestion> = {}, given: Parameters<typeof historyOf>[0] = usual): NitrogenQuestion => ({
  measurements: [test(16)],
  facts: { crop: "corn" },
  history: historyOf(given),
  yieldGoal: { value: 180, unit: "bu/ac" },
  manure: [],
  ...over,
});
const ask = (packs: Guideline[], q = question()) => nitrogenAdvice(packs, q);
const beef: ManureSpread = { name: "beef manure", yearsAgo: 0, tonsPerAcre: 10, organicNitrogen: 8, species: "cattle", dryMatter: 22 };

describe("nitrogen from the chosen guidelines", () => {
  it("names the guideline and the rule it used", () => {
    expect(answered(ask([triState, iowa]).nitrogen!).value).toEqual({ rate: { value: 72, unit: "lb/ac" }, guideline: "us-iowa-nitrate", rule: "late-spring" });
    expect(answered(ask([minnesota, iowa]).nitrogen!).value).toMatchObject({ guideline: "us-minnesota-nitrate", rule: "psnt" });
  });
  it("takes the next guideline where the first refuses", () => expect(answered(ask([illinois, iowa]).nitrogen!).value.guideline).toBe("us-iowa-nitrate"));
  it("asks, of two rules of one guideline, the one whose profile the sample reaches within an inch", () => {
    const profile = ruleIn(west, "profile", "profileNitrate");
    const four = { ...profile, id: "four-feet", depth: { ...profile.depth, least: 48, most: 48 } };
    const both = { ...west, sections: [four, ...west.sections] };
    const asked = (to: number) => ask([both], question({ measurements: [test(10, to)] })).nitrogen!;
    expect(answered(asked(23)).value.rule).toBe("profile");
    expect(answered(asked(47)).value.rule).toBe("four-feet");
    // Too shallow for both: the first one tells why.
    expectRefusal(asked(22), /48/, "a sample 48 in deep");
  });
  it("never falls from one rule of a guideline to another one", () =>
    expectRefusal(ask([pennsylvania]).nitrogen!, /the number of manured years among the five before is 0, and Pennsylvania PSNT asks for at least 2/, "a nitrate test where the number of manured years among the five before is at least 2"));
  it("reads a deep sample by the rule for deep samples", () => {
    const deep = question({ measurements: [test(5, 24)] });
    expect(answered(ask([west], deep).nitrogen!).value.rate.value).toBeCloseTo(1.2 * 180 - 40, 9);
    expectRefusal(ask([iowa], deep).nitrogen!, /the sample was taken 0 to 24 in deep and Iowa/, "a sample 0 to 12 in deep");
    expectRefusal(ask([west]).nitrogen!, /the sample was taken to 12 in and western Minnesota 2002 asks for 24 in/, "a sample 24 in deep");
  });
  it("takes the rule of a guideline that the sample was taken for, whichever stands first", () => {
    const both = (...of: Guideline[]): Guideline => ({ ...west, sections: of.flatMap((each) => each.sections) });
    for (const one of [both(west, iowa), both(iowa, west)]) {
      expect(answered(ask([one]).nitrogen!).value.rule).toBe("late-spring");
      expect(answered(ask([one], question({ measurements: [test(5, 24)] })).nitrogen!).value.rate.value).toBeCloseTo(1.2 * 180 - 40, 9);
    }
  });
  it("says that nitrate was not tested", () => expectRefusal(ask([iowa], question({ measurements: [] })).nitrogen!, /nitrate was not tested/, "nitrateN"));
  it("keeps silent where no guideline has a rule for the crop", () => {
    expect(ask([iowa], question({ facts: { crop: "soybean" } })).nitrogen).toBeUndefined();
    expect(ask([triState]).nitrogen).toBeUndefined();
    expect(ask([iowa], question({ facts: {} })).nitrogen).toBeUndefined();
  });
});

describe("credits that a rule takes off", () => {
  const deep = (given: Parameters<typeof historyOf>[0] = usual, over: Partial<NitrogenQuestion> = {}) => question({ measurements: [test(5, 24)], ...over }, given);
  it("nothing after a crop that is no legume, without manure: 35 + 216 - 40 - 50.4", () => expect(answered(ask([nebraska], deep()).nitrogen!).value.rate.value).toBeCloseTo(160.6, 9));
  it("45 less after soybean", () => expect(answered(ask([nebraska], deep({ ...usual, previousCrop: "soybean", previousYield: 50 })).nitrogen!).value.rate.value).toBeCloseTo(115.6, 9));
  it("a stand-in for the nitrate test: 3 ppm on silt loam", () => expect(answered(ask([nebraska], deep(usual, { measurements: [] })).nitrogen!).value.rate.value).toBeCloseTo(176.6, 9));
  it("no rate where the crop before is not recorded", () => expectRefusal(ask([nebraska], deep({ ...usual, previousCrop: undefined })).nitrogen!, /the crop before is not recorded, and Nebraska EC117 takes its credit off/, "previousCrop"));
  it("no rate where the legume's credit is not in the guideline", () => expectRefusal(ask([west], deep({ ...usual, previousCrop: "soybean" })).nitrogen!, /western Minnesota 2002 gives no credit after soybean/, "a credit after soybean"));
  it.each([["clover", "clover"], ["fieldBeans", "field beans"], ["pea", "peas"]])("no rate after %s, a legume as well, whose credit is not in the guideline", (previousCrop, label) => expectRefusal(ask([nebraska], deep({ ...usual, previousCrop })).nitrogen!, new RegExp(`Nebraska EC117 gives no credit after ${label}`), `a credit after ${label}`));
  it("no rate on a manured field, since Nebraska's shares were not found", () => expectRefusal(ask([nebraska], deep(usual, { manure: [beef] })).nitrogen!, /manure was spread, and the values by which Nebraska EC117 takes it off are not here/, "a release of manure nitrogen"));
  it("manure by the shares of another chosen guideline, which is told and not shown again: 160.6 - 8 x 10 x 25 percent", () => {
    const advice = ask([nebraska, cornell], deep(usual, { manure: [beef] }));
    const { value, cautions, steps } = answered(advice.nitrogen!);
    expect(value.rate.value).toBeCloseTo(140.6, 9);
    expect(cautions.join(" ")).toMatch(/those of Cornell manure release are used\. .*Ammonium nitrogen of the manure is not in this figure/);
    expect(steps.map((s) => s.source)).toContainEqual({ reference: "cornell-css412", at: "table of release rates, percent" });
    expect(advice.nitrogenCredits).toEqual([]);
  });
  it("no rate where the manure's analysis is not recorded", () => expectRefusal(ask([nebraska, cornell], deep(usual, { manure: [{ ...beef, organicNitrogen: undefined }] })).nitrogen!, /the organic nitrogen of beef manure is not recorded/, "organicNitrogen"));
  it("no credit of a legume from another guideline, since rates differ in what they hold already", () => expectRefusal(ask([west, wisconsin], deep({ ...usual, previousCrop: "soybean" })).nitrogen!, /gives no credit after soybean/, "a credit after soybean"));
  it("no rate where nobody knows of manure", () => expectRefusal(ask([nebraska], deep(usual, { manure: undefined })).nitrogen!, /the seasons before are not all recorded/, "the seasons of the last three years"));
});

describe("credits by themselves", () => {
  const good = { ...usual, previousCrop: "alfalfa", standDensity: 6, regrowth: 10 };
  it("of a legume, before the crop they are for", () => {
    const [credit] = ask([wisconsin], question({}, good)).nitrogenCredits;
    expect(answered(credit!.outcome).value.value).toBe(190);
    expect(ask([wisconsin]).nitrogenCredits).toEqual([]);
    expect(ask([wisconsin], question({ facts: { crop: "soybean" } }, good)).nitrogenCredits).toEqual([]);
  });
  it("of manure", () => {
    const [credit] = ask([cornell], question({ manure: [beef, { ...beef, yearsAgo: 1 }] })).nitrogenCredits;
    expect(answered(credit!.outcome).value.value).toBeCloseTo(20 + 9.6, 9);
    expect(ask([cornell]).nitrogenCredits).toEqual([]);
  });
  it("but not off the rate of a June test, which found that nitrogen in the soil", () => {
    const manured = question({ manure: [beef] }, good);
    const credits = (packs: Guideline[]) => ask(packs, manured).nitrogenCredits.map(({ id, measured: found }) => [id, found]);
    expect(credits([iowa, wisconsin, cornell])).toEqual([["legume", true], ["manure", true]]);
    expect(credits([wisconsin, cornell])).toEqual([["legume", false], ["manure", false]]);
  });
  it("not again where a rate takes them off already", () => expect(ask([nebraska], question({}, { ...usual, previousCrop: "soybean" })).nitrogenCredits).toEqual([]));
});


