import { describe, expect, it } from "vitest";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import { nitrogenNeedCheck } from "../../../src/interpretation/checks/nitrogenNeedCheck.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import { rateByNitrogenNeed } from "../../../src/interpretation/rules/nitrogenNeed.ts";
import type { ManureSpread } from "../../../src/interpretation/rules/manureAvailability.ts";
import type { Amount, YieldUnit } from "../../../src/interpretation/units.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

describe("nitrogen by need, as published", () => {
  checkedAsPublished(nitrogenNeedCheck);
});

const rule = ruleIn(pack("de-ordinance-2017"), "nitrogen", "nitrogenNeed");
const nmin = (value: number, over: Partial<Measurement> = {}) =>
  measured("mineralN", value, { method: "calciumChlorideNitrogen", unit: "kg/ha", depth: { from: 0, to: 90, unit: "cm" }, ...over });

interface Asked {
  tests?: Measurement[];
  given?: Parameters<typeof historyOf>[0];
  yieldGoal?: Amount<YieldUnit>;
  crop?: CropId;
  manure?: ManureSpread[] | undefined;
}
const ask = (asked: Asked = {}) =>
  rateByNitrogenNeed(
    rule,
    asked.tests ?? [nmin(45)],
    {
      facts: { crop: asked.crop ?? "winterWheat" },
      history: historyOf(asked.given ?? { organicMatter: 2, previousCrop: "winterBarley" }),
      yieldGoal: asked.yieldGoal ?? { value: 8, unit: "t/ha" },
      pack: "the law",
    },
    "manure" in asked ? asked.manure : [],
  );
const rate = (asked?: Asked) => answered(ask(asked)).value.rate.value;

describe("for any result", () => {
  it("more in the soil never gets more nitrogen, and no rate is negative", () =>
    always([between(0, 400), between(0, 400)], (a, b) => {
      expect(rate({ tests: [nmin(Math.max(a, b))] })).toBeLessThanOrEqual(rate({ tests: [nmin(Math.min(a, b))] }));
      expect(rate({ tests: [nmin(a)] })).toBeGreaterThanOrEqual(0);
    }));

  it("a higher yield never gets less, and no more than 40 kg above the printed need", () =>
    always([between(1, 20), between(1, 20)], (a, b) => {
      const at = (value: number) => rate({ tests: [nmin(0)], yieldGoal: { value, unit: "t/ha" } });
      expect(at(Math.max(a, b))).toBeGreaterThanOrEqual(at(Math.min(a, b)));
      expect(at(a)).toBeLessThanOrEqual(270);
    }));
});

describe("no answer, and what is missing", () => {
  it.each<[string, Asked, string, string]>([
    ["nothing tested", { tests: [] }, "mineral nitrogen was not tested", "mineralN"],
    ["three layers by themselves", { tests: [nmin(20, { depth: { from: 0, to: 30, unit: "cm" } }), nmin(15), nmin(10)] }, "mineral nitrogen is given more than once, and the law reads one sum for 0 to 90 cm", "mineralN for 0 to 90 cm"],
    ["another extract", { tests: [nmin(45, { method: "potassiumChloride" })] }, "mineral nitrogen was measured by 2 M potassium chloride and the law reads 0.0125 M calcium chloride", "mineralN by 0.0125 M calcium chloride"],
    ["only a lower bound", { tests: [nmin(300, { qualifier: ">" })] }, "the laboratory says only that there is more than 300 kg/ha", "mineralN as a number"],
    ["a shallow sample", { tests: [nmin(45, { depth: { from: 0, to: 60, unit: "cm" } })] }, "the sample was taken from 0 to 60 cm, and the law reads 0 to 90 cm", "a sample 0 to 90 cm deep, or the sum of its layers"],
    ["a sample that begins below the plow layer", { tests: [nmin(45, { depth: { from: 30, to: 90, unit: "cm" } })] }, "the sample was taken from 30 to 90 cm, and the law reads 0 to 90 cm", "a sample 0 to 90 cm deep, or the sum of its layers"],
    ["bushels", { yieldGoal: { value: 80, unit: "bu/ac" } }, "the yield is in bu/ac and the law reads t/ha", "a yield in t/ha"],
    ["another yield of a crop with one", { crop: "linseed", yieldGoal: { value: 2.5, unit: "t/ha" } }, "the yield is 2.5 t/ha, and the law prints the need of linseed for 2 t/ha alone", "a yield of 2 t/ha"],
    ["a crop before that is not printed", { given: { organicMatter: 2, previousCrop: "sunflower" } }, "the law prints no deduction for the crop before where it is sunflowers", "a deduction for sunflowers"],
    ["humus unknown", { given: { previousCrop: "oats" } }, "the organic matter is not recorded, and the rate of the law depends on it", "organicMatter"],
    ["the season before unknown", { manure: undefined }, "the season before is not recorded, and the law takes nitrogen of its manure off", "the season before"],
    ["manure without its nitrogen", { manure: [{ name: "slurry", yearsAgo: 1, tonsPerAcre: 10, organicNitrogen: undefined, species: undefined, dryMatter: undefined }] }, "the total nitrogen of slurry is not recorded", "nitrogen"],
  ])("%s", (_, asked, because, missing) => expectRefusal(ask(asked), new RegExp(because), missing));
});

it("a depth of 36 in is one of 90 cm", () => expect(rate({ tests: [nmin(45, { depth: { from: 0, to: 36, unit: "in" } })] })).toBe(185));

it("of less than 5 kg, 5 come off: what a laboratory cannot see must not raise a limit", () => expect(rate({ tests: [nmin(5, { qualifier: "<" })] })).toBe(225));

it("only manure for the crop before counts", () => {
  const slurry = (yearsAgo: number): ManureSpread => ({ name: "slurry", yearsAgo, tonsPerAcre: 10, nitrogen: 9, organicNitrogen: 4, species: "cattle", dryMatter: 8 });
  expect(rate({ manure: [slurry(0), slurry(2)] })).toBe(185);
  // 90 lb/ac are 100.88 kg/ha.
  expect(rate({ manure: [slurry(1)] })).toBeCloseTo(185 - 10.088, 2);
});

it("a rule that takes nothing off for manure does not ask for the season before", () => {
  const without = { ...rule, manureBefore: undefined };
  const place = { facts: { crop: "winterWheat" }, history: historyOf({ organicMatter: 2, previousCrop: "winterBarley" }), yieldGoal: { value: 8, unit: "t/ha" }, pack: "the law" } as const;
  expect(answered(rateByNitrogenNeed(without, [nmin(45)], place, undefined)).value.rate.value).toBe(185);
});

it("says that no manure was spread for the crop before, where none is taken off", () =>
  expect(answered(ask()).steps).toContainEqual(expect.objectContaining({ what: "No manure for the crop before", result: "0 kg N/ha" })));
