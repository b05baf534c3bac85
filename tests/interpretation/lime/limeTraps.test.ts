import { describe, expect, it } from "vitest";
import type { Guideline } from "../../../src/interpretation/guideline.ts";
import { limeAdvice } from "../../../src/interpretation/lime/lime.ts";
import { meanOfBags } from "../../../src/interpretation/measurement.ts";
import { limeQuality } from "../../../src/interpretation/rules/limeQuality.ts";
import type { LimeIndexId } from "../../../src/interpretation/vocabulary.ts";
import { limeIndexIds, limeIndices } from "../../../src/interpretation/vocabulary.ts";
import { farmFile, limePlace, ownTarget } from "../../support/limePlace.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { oregon, pack, ruleIn, triState } from "../../support/packs.ts";

/** Oregon's table as if it counted in another measure of lime. */
const counting = (index: LimeIndexId): Guideline => ({
  ...oregon,
  sections: oregon.sections.map((s) => (s.kind === "bufferTable" ? { ...s, material: { ...s.material, index, value: limeIndices[index].pure } } : s)),
});
const rate = (packs: readonly Guideline[], index: LimeIndexId, value: number) =>
  limeAdvice({ ...limePlace, packs, materials: [{ id: "stone", name: "stone", stated: { [index]: { value, source: farmFile } } }] }).rates[0]!.outcome;

describe("measures of lime", () => {
  const pairs = limeIndexIds.flatMap((wanted) => limeIndexIds.filter((stated) => stated !== wanted).map((stated) => [wanted, stated] as const));
  it("none is taken for another", () => {
    expect(pairs.length).toBeGreaterThan(100);
    for (const [wanted, stated] of pairs) expectRefusal(rate([triState, counting(wanted)], stated, 90), /other measures of lime are not the same thing/, `${wanted} of stone`);
  });
  it.each(limeIndexIds)("pure lime by %s leaves the rate as it is", (index) => {
    const packs = [triState, counting(index)];
    const { requirement } = answered(limeAdvice({ ...limePlace, packs }).needed).value as { requirement: { value: number } };
    expect(answered(rate(packs, index, limeIndices[index].pure)).value.rate.value).toBeCloseTo(requirement.value, 9);
  });
  it("effective neutralizing material is on a calcium basis, effective neutralizing power on that of calcium carbonate (University of Missouri; Minnesota Department of Agriculture)", () =>
    expect([limeIndices.enmMissouri, limeIndices.enpMinnesota, limeIndices.enpOhio].map(({ pure, unit }) => [pure, unit])).toEqual([[800, "lb/ton"], [2000, "lb/ton"], [2000, "lb/ton"]]));
});

// RB209 (June 2023), section 1, lime recommendations: no more than 7.5 t/ha at one time where there is no, or only minimal, cultivation.
describe("lime that is not worked in", () => {
  const stone = { id: "stone", name: "stone", stated: { neutralizingValue: { value: 50, source: farmFile } } };
  const spread = (crop: "oats" | "grassHay", incorporated: boolean, own?: number) =>
    answered(
      limeAdvice({ packs: [pack("uk-rb209-2023")], facts: { crop, texture: "clay", ...(own !== undefined && { organicMatter: 15 }) }, pH: measured("pH", 4.9, { method: "water1to2half", depth: { from: 0, to: 15, unit: "cm" } }), buffers: [], own: own === undefined ? undefined : ownTarget(own), incorporated, materials: [stone] }).rates[0]!.outcome,
    ).value.applications.map((a) => Math.round(a.value * 2.2417 * 100) / 100);

  it("is split on arable land too, and is not where the land is worked", () => {
    expect(spread("oats", true)).toEqual([14.4]);
    expect(spread("oats", false)).toEqual([7.2, 7.2]);
  });
  it("and on grass always", () => expect([true, false].map((worked) => spread("grassHay", worked))).toEqual([[3.9, 3.9], [3.9, 3.9]]));
  it("so too where the target is the field's own", () => {
    expect(spread("oats", true, 6.2)).toEqual([10.4]);
    expect(spread("oats", false, 6.2)).toEqual([5.2, 5.2]);
  });
});

describe("one sieve analysis, two conventions", () => {
  const stone = { cce: 100, moisture: 0, passing: { "4": 100, "8": 90, "20": 70, "40": 55, "50": 50, "60": 40 } };
  const worth = (guideline: string, section: string) => answered(limeQuality(ruleIn(pack(guideline), section, "limeQuality"), stone)).value;
  it("Iowa multiplies what passes each screen by its increment: 0.1 x 100 + 0.3 x 90 + 0.6 x 40", () => expect(worth("us-iowa-lime-2002", "ecce")).toBeCloseTo(61, 9));
  it("Nebraska multiplies the shares between screens: 0.1 x 10 + 0.4 x 40 + 50", () => expect(worth("us-nebraska-lime-quality", "ecc")).toBeCloseTo(67, 9));
  it("Minnesota too, in lb a ton: (0.2 x 20 + 0.6 x 30 + 40) percent of 2,000", () => expect(worth("us-minnesota-lime-quality", "enp")).toBeCloseTo(1240, 9));
  it("and Missouri, of 800: (0.25 x 35 + 0.6 x 15 + 40) percent", () => expect(worth("us-missouri-lime-quality", "enm")).toBeCloseTo(462, 9));
});

describe("what a lime rate may not be read from", () => {
  it("a sample of the subsoil", () =>
    expectRefusal(
      limeAdvice({ ...limePlace, pH: measured("pH", 5.2, { depth: { from: 8, to: 16, unit: "in" } }) }).needed,
      /the sample was taken 8 to 16 in deep, and every lime rate is for soil from the surface down/,
      "a sample from the surface down",
    ));
  it("a target below the lowest that is printed", () => expectRefusal(limeAdvice({ ...limePlace, pH: measured("pH", 5.0), own: ownTarget(5.5) }).needed, /the target pH 5.5 is below the lowest that Oregon 2025 prints, 5.6/, "targetPh"));
});

describe("an organic soil", () => {
  const minnesota = pack("us-minnesota-lime-target");
  const muck = { crop: "corn", subsoilPh: 6.5, texture: "muck", organicMatter: 45 } as const;
  it.each([
    ["Tri-State 2020", triState],
    ["Minnesota soil pH", minnesota],
  ])("is not limed to what %s prints for mineral soil", (name, guideline) =>
    expectRefusal(limeAdvice({ ...limePlace, packs: [guideline, oregon], own: undefined, facts: muck }).needed, new RegExp(`the soil is organic, and ${name} speaks of mineral soils alone`), "targetPh"));
  it("is limed to the pH that the field's own record sets", () =>
    expect(answered(limeAdvice({ ...limePlace, own: ownTarget(5.6), pH: measured("pH", 5.2), facts: muck }).needed).value).toMatchObject({ target: 5.6 }));
  it.each([{ organicMatter: 21 }, { soilClass: "organic" }] as const)("is known by %o too", (known) =>
    expectRefusal(limeAdvice({ ...limePlace, own: undefined, facts: { crop: "corn", subsoilPh: 6.5, ...known } }).needed, /the soil is organic/, "targetPh"));
  it("whose record contradicts itself gets no answer, and both facts are named", () =>
    expectRefusal(limeAdvice({ ...limePlace, own: undefined, facts: { ...muck, organicMatter: 2 } }).needed, /whether the soil is organic or mineral \(its texture and organic matter contradict each other\) is not known/, "texture and organicMatter that agree"));
  it("is taken for a mineral one where nothing tells, and the answer says so", () =>
    expect(answered(limeAdvice(limePlace).needed).steps).toContainEqual(expect.objectContaining({ what: "Taken for granted", result: "a mineral soil; neither its texture nor its organic matter is known" })));
});

describe("the British newsletter's rates, to pH 6.7 and 6.5 alone", () => {
  const british = { ...limePlace, packs: [pack("uk-rb209-2010")], pH: measured("pH", 5.5, { method: "water1to2half" }), buffers: [], depth: undefined, own: undefined };
  it("are given for mineral soil: (6.7 - 5.5) x 6", () =>
    expect(answered(limeAdvice({ ...british, facts: { crop: "winterWheat", texture: "loam" } }).needed).value).toMatchObject({ requirement: { value: 7.2 }, target: 6.7 }));
  it("and not for peat, which is limed to 6.0", () =>
    expectRefusal(limeAdvice({ ...british, facts: { crop: "winterWheat", texture: "muck" } }).needed, /the soil is organic, and RB209 2010 speaks of mineral soils alone/, "a lime rate for organic soil"));
  it("nor for a field that is to stay lower", () =>
    expectRefusal(limeAdvice({ ...british, own: ownTarget(6), facts: { crop: "potatoes", texture: "loam" } }).needed, /the lime rate of RB209 2010 is to pH 6.7 alone, and the target is 6.0/, "targetPh"));
  it("a field that sets the same target gets the rate", () =>
    expect(answered(limeAdvice({ ...british, own: ownTarget(6.7), facts: { crop: "potatoes", texture: "loam" } }).needed).value).toMatchObject({ requirement: { value: 7.2 } }));
});

it("the pH of several bags is averaged as it stands: 5.2, 5.4 and 5.9 make 5.5, where hydrogen ions would make 5.41 (a laboratory text's example)", () =>
  expect(meanOfBags([measured("pH", 5.2), measured("pH", 5.4), measured("pH", 5.9)]).value).toBeCloseTo(5.5, 9));
