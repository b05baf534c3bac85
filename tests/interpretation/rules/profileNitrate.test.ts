import { describe, expect, it } from "vitest";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import { profileNitrateCheck } from "../../../src/interpretation/checks/profileNitrateCheck.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import type { Credit, ProfileNitrateRule } from "../../../src/interpretation/rules/profileNitrate.ts";
import { precondition } from "../../../src/interpretation/rules/preconditions.ts";
import { rateByProfileNitrate } from "../../../src/interpretation/rules/profileNitrate.ts";
import { yieldTable } from "../../../src/interpretation/rules/yieldTable.ts";
import type { Amount, YieldUnit } from "../../../src/interpretation/units.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

describe("profile nitrate, as published", () => {
  checkedAsPublished(profileNitrateCheck);
});

const nebraska = ruleIn(pack("us-nebraska-ec117-nitrogen"), "corn", "profileNitrate");
const minnesota = ruleIn(pack("us-minnesota-west-nitrate-2002"), "profile", "profileNitrate");
const layer = (value: number, from: number, to: number, over: Partial<Measurement> = {}) => measured("nitrateN", value, { method: "potassiumChloride", depth: { from, to, unit: "in" }, ...over });
const none = (rule: ProfileNitrateRule): Credit[] => rule.credits.map((id) => ({ id, value: 0, steps: [] }));
const goal: Amount<YieldUnit> = { value: 200, unit: "bu/ac" };

interface Asked {
  given?: Parameters<typeof historyOf>[0];
  yieldGoal?: Amount<YieldUnit> | undefined;
  crop?: CropId | undefined;
  credits?: Credit[];
}
const ask = (rule: ProfileNitrateRule, layers: Measurement[], asked: Asked = {}) =>
  rateByProfileNitrate(
    rule,
    layers,
    { facts: { crop: "crop" in asked ? asked.crop : "corn" }, history: historyOf(asked.given ?? { organicMatter: 2 }), yieldGoal: "yieldGoal" in asked ? asked.yieldGoal : goal, pack: "the bulletin" },
    asked.credits ?? none(rule),
  );
const rate = (...args: Parameters<typeof ask>) => answered(ask(...args)).value.rate.value;

describe("for any result", () => {
  it.each([nebraska, minnesota])("$id: more nitrate never gets more nitrogen, and no rate is negative", (rule) =>
    always([between(0, 60), between(0, 60)], (a, b) => {
      const [less, more] = [rate(rule, [layer(Math.min(a, b), 0, 24)]), rate(rule, [layer(Math.max(a, b), 0, 24)])];
      expect(more).toBeLessThanOrEqual(less);
      expect(more).toBeGreaterThanOrEqual(0);
    }));
  it("more organic matter, and more credit, never raise the rate", () =>
    always([between(0, 8), between(0, 8), between(0, 200)], (a, b, value) => {
      const at = (organicMatter: number, manure: number) => rate(nebraska, [layer(5, 0, 24)], { given: { organicMatter }, credits: [{ id: "legume", value: 0, steps: [] }, { id: "manure", value: manure, steps: [] }] });
      expect(at(Math.max(a, b), 0)).toBeLessThanOrEqual(at(Math.min(a, b), 0) + 1e-9);
      expect(at(a, value)).toBeLessThanOrEqual(at(a, 0));
    }));
  it("a profile cut into layers of one value is that profile", () =>
    always([between(0, 20), between(1, 23)], (value, cut) => expect(rate(nebraska, [layer(value, 0, cut), layer(value, cut, 24)])).toBeCloseTo(rate(nebraska, [layer(value, 0, 24)]), 6)));
});

// 1.2 x 200 - 5 ppm x 8 lb = 240 - 40 = 200: Minnesota takes a legume's credit off, and no other.
it("a credit that the publication does not take off changes no rate", () =>
  expect(rate(minnesota, [layer(5, 0, 24)], { credits: [...none(minnesota), { id: "manure", value: 60, steps: [] }] })).toBeCloseTo(200, 9));

describe("a table of yields", () => {
  const oklahoma = ruleIn(pack("us-oklahoma-osu"), "nitrogen-corn", "profileNitrate");
  const at = (bushels: number) => ask(oklahoma, [layer(10, 0, 6)], { yieldGoal: { value: bushels, unit: "bu/ac" } });
  it("is read at a printed yield, and says so", () => expect(answered(at(160)).steps.map((s) => `${s.what}: ${s.result}`)).toEqual(expect.arrayContaining(["Printed for a yield of 160 bu/ac: 190 lb N/ac", "Nitrogen: 170 lb N/ac"])));
  it("is never read between two rows", () => expectRefusal(at(150), /the yield goal is 150 bu\/ac, and the bulletin prints nitrogen for 120 bu\/ac \(130 lb, less the soil's nitrate\) and 160 bu\/ac \(190 lb, less the soil's nitrate\) and for no yield between them/, "a yield goal of 120 or 160 bu/ac"));
  it.each([39, 201])("is never stretched to %d bu", (bushels) => expectRefusal(at(bushels), /the bulletin prints nitrogen for 40 to 200 bu\/ac/, "a yield goal from 40 to 200 bu/ac"));
});

// Records count grain sorghum in bushels, and Oklahoma's table in pounds: so nobody could be told its nitrogen. USDA's weight is 56 lb (Wikipedia, Test weight).
describe("a table of pounds, of a crop that records count in bushels", () => {
  const sorghum = ruleIn(pack("us-oklahoma-osu"), "nitrogen-sorghum", "profileNitrate");
  const at = (bushels: number) => ask(sorghum, [layer(0, 0, 6)], { crop: "grainSorghum", yieldGoal: { value: bushels, unit: "bu/ac" } });
  it.each([[36, 30], [45, 40], [54, 50], [71, 70], [80, 85], [89, 100], [125, 160], [143, 195], [161, 230]])("is read at %d bu, the nearest to a printed row", (bushels, rate) => expect(answered(at(bushels)).value.rate.value).toBe(rate));
  it("shows how, and to which row", () =>
    expect(answered(at(80)).steps).toContainEqual(expect.objectContaining({ what: "Yield goal in pounds", expression: "80 × 56 lb", result: "4,480 lb/ac", note: "to the nearest bushel the printed 4,500 lb/ac" })));
  // A goal that is called for must be one that the record may state, and that is then read.
  it("and never between two rows", () => expectRefusal(at(100), /^the yield goal is 100 bu\/ac, and the bulletin prints nitrogen for 89 bu\/ac \(100 lb, less the soil's nitrate\) and 125 bu\/ac .* for no yield between them$/, "a yield goal of 89 or 125 bu/ac"));
  it("more than half a bushel from a row is between two", () => expectRefusal(at(90), /^the yield goal is 90 bu\/ac, and/, "a yield goal of 89 or 125 bu/ac"));
  it("nor stretched", () => expectRefusal(at(20), /^the yield goal is 20 bu\/ac, and the bulletin prints nitrogen for 36 to 161 bu\/ac$/, "a yield goal from 36 to 161 bu/ac"));
});

it("says what of the publication's sum is left out", () => expect(answered(ask(nebraska, [layer(5, 0, 24)])).cautions.join(" ")).toMatch(/factors for prices and timing, whose values were not found/));

describe("refusals", () => {
  it("too shallow", () => expectRefusal(ask(nebraska, [layer(5, 0, 12)]), /the sample was taken to 12 in and the bulletin asks for 24 to 48 in/, "a sample 24 to 48 in deep"));
  it("too deep", () => expectRefusal(ask(minnesota, [layer(5, 0, 36)]), /the sample was taken to 36 in and the bulletin asks for 24 in/, "a sample 24 in deep"));
  it("a gap between layers", () => expectRefusal(ask(nebraska, [layer(5, 0, 8), layer(4, 12, 24)]), /the layer 12 to 24 in does not begin where the one above it ends/, "layers without a gap"));
  it("no surface layer", () => expectRefusal(ask(nebraska, [layer(5, 8, 32)]), /the layer 8 to 32 in does not begin/, "layers without a gap"));
  it("another crop", () => expectRefusal(ask(nebraska, [layer(5, 0, 24)], { crop: "wheat" }), /the bulletin has no rule for wheat/, "a guideline for wheat"));
  it("no crop", () => expectRefusal(ask(nebraska, [layer(5, 0, 24)], { crop: undefined }), /no crop is planned/, "crop"));
  it("no yield goal", () => expectRefusal(ask(nebraska, [layer(5, 0, 24)], { yieldGoal: undefined }), /no yield goal is set/, "yieldGoal"));
  it("a yield by weight", () => expectRefusal(ask(nebraska, [layer(5, 0, 24)], { yieldGoal: { value: 12, unit: "t/ha" } }), /the yield is in t\/ha and the bulletin reads bu\/ac/, "a yield in bu/ac"));
  it("no nitrate test, where there is no stand-in", () => expectRefusal(ask(minnesota, []), /nitrate was not tested/, "nitrateN"));
  it("no nitrate test on a soil without a stand-in", () => expectRefusal(ask(nebraska, [], { given: { organicMatter: 2, texture: "clay" } }), /nitrate was not tested, and the bulletin prints nothing to put in its place for this soil/, "nitrateN"));
  it("no nitrate test and no texture", () => expectRefusal(ask(nebraska, [], { given: { organicMatter: 2 } }), /the soil texture is not recorded/, "texture"));
  it("no organic matter and no texture", () => expectRefusal(ask(nebraska, [layer(5, 0, 24)], { given: {} }), /the soil texture is not recorded/, "texture"));
  it("a credit that nobody worked out", () => expectRefusal(ask(nebraska, [layer(5, 0, 24)], { credits: [{ id: "legume", value: 0, steps: [] }] }), /the credit for manure is not known, and the bulletin takes it off/, "a manure credit"));
  it("lb/ac where ppm are read", () => expectRefusal(ask(nebraska, [layer(40, 0, 24, { unit: "lb/ac" })]), /the result is in lb\/ac and the bulletin reads ppm/, "nitrateN in ppm"));
  it.each([nebraska, minnesota])("layers in two units: $id", (rule) =>
    expectRefusal(ask(rule, [layer(5, 0, 12), layer(18, 12, 24, { unit: "lb/ac" })]), /one layer is in ppm and another in lb\/ac, and layers of two units have no mean/, "layers in one unit"));
  it("a precondition that fails", () =>
    expectRefusal(ask({ ...minnesota, requires: [precondition.parse({ weight: "condition", anyOf: [{ fact: "cores", from: 16 }], source: { reference: "bulletin-1" }, evidence: "read" })] }, [layer(5, 0, 24)], { given: { cores: 15 } }), /the number of cores in the bag is 15, and the bulletin asks for at least 16/, "a nitrate test where the number of cores in the bag is at least 16"));
  it("a less-than", () => expectRefusal(ask(nebraska, [layer(1, 0, 24, { qualifier: "<" })]), /the laboratory says < 1 ppm/, "nitrateN as a number"));
});

it("the schema refuses nitrogen by yield that does not rise", () => {
  const read = (...rows: [number, number][]) => yieldTable.safeParse({ rows: rows.map(([goal, nitrogen]) => ({ yield: goal, nitrogen })), source: "common-practice" }).success;
  expect(read([100, 120], [120, 120], [140, 150])).toBe(true);
  expect(read([100, 120], [100, 130])).toBe(false);
  expect(read([120, 120], [100, 130])).toBe(false);
  expect(read([100, 120], [120, 110])).toBe(false);
});
