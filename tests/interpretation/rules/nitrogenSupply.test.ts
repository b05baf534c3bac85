import { describe, expect, it } from "vitest";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import { nitrogenSupplyCheck } from "../../../src/interpretation/checks/nitrogenSupplyCheck.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import { rateByNitrogenSupply } from "../../../src/interpretation/rules/nitrogenSupply.ts";
import { nitrogenSupplyRule } from "../../../src/interpretation/rules/nitrogenSupplyRule.ts";
import type { Amount, YieldUnit } from "../../../src/interpretation/units.ts";
import type { CropId, SoilCategoryId, TextureId } from "../../../src/interpretation/vocabulary.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

describe("nitrogen by supply, as published", () => {
  checkedAsPublished(nitrogenSupplyCheck);
});

const rule = ruleIn(pack("uk-rb209-2023"), "nitrogen", "nitrogenSupply");
const smn = (value: number, over: Partial<Measurement> = {}) =>
  measured("mineralN", value, { method: "potassiumChloride", unit: "kg/ha", depth: { from: 0, to: 90, unit: "cm" }, date: "2026-02-10", ...over });

interface Asked {
  tests?: Measurement[];
  given?: Parameters<typeof historyOf>[0];
  yieldGoal?: Amount<YieldUnit> | undefined;
  crop?: CropId;
  soil?: SoilCategoryId | undefined;
  texture?: TextureId;
}
const usual = { cropNitrogen: 20, organicMatter: 3, previousCrop: "winterOilseedRape" };
const ask = (asked: Asked = {}) =>
  rateByNitrogenSupply(rule, asked.tests ?? [smn(45)], {
    facts: { crop: asked.crop ?? "winterWheat", soilCategory: "soil" in asked ? asked.soil : "medium", texture: asked.texture },
    history: historyOf(asked.given ?? usual),
    yieldGoal: "yieldGoal" in asked ? asked.yieldGoal : { value: 8, unit: "t/ha" },
    pack: "the guide",
  });
const rate = (asked?: Asked) => answered(ask(asked)).value.rate.value;
const ends = (asked?: Asked): [number, number] => {
  const { value } = answered(ask(asked));
  return [value.rate.value, value.to ?? value.rate.value];
};

const held: readonly CropId[] = rule.crops.flatMap((c) => c.crops);
const soils: readonly SoilCategoryId[] = ["lightSand", "shallow", "medium", "deepClayey", "deepSilty"];

describe("for any result", () => {
  it("more in the soil or in the crop never gets more nitrogen, whatever the crop and soil", () =>
    always([between(0, 300), between(0, 300), between(0, held.length - 1e-9), between(0, soils.length - 1e-9), between(0, 60)], (a, b, c, s, inCrop) => {
      const at = (value: number, cropNitrogen: number) =>
        ends({ crop: held[Math.floor(c)]!, soil: soils[Math.floor(s)]!, tests: [smn(value)], given: { ...usual, cropNitrogen } });
      const [less, more] = [at(Math.min(a, b), 0), at(Math.max(a, b), inCrop)];
      expect(more[0]).toBeLessThanOrEqual(less[0]);
      expect(more[1]).toBeLessThanOrEqual(less[1]);
      expect(more[0]).toBeGreaterThanOrEqual(0);
    }));

  it("what humus may release widens the range downward and never raises it", () =>
    always([between(0, 300), between(4, 9.9)], (value, organicMatter) => {
      const [low, high] = ends({ tests: [smn(value)], given: { ...usual, organicMatter } });
      const [plainLow, plainHigh] = ends({ tests: [smn(value)] });
      expect(low).toBeLessThanOrEqual(plainLow);
      expect(high).toBe(plainHigh);
    }));

  it("a higher yield of wheat never gets less, and no more than 100 kg above the table", () =>
    always([between(1, 20), between(1, 20), between(0, 300)], (a, b, value) => {
      const at = (goal: number) => ends({ tests: [smn(value)], yieldGoal: { value: goal, unit: "t/ha" } });
      expect(at(Math.max(a, b))[0]).toBeGreaterThanOrEqual(at(Math.min(a, b))[0]);
      expect(at(a)[1]).toBeLessThanOrEqual(350);
    }));
});

describe("no answer, and what is missing", () => {
  it.each<[string, Asked, string, string]>([
    ["nothing tested", { tests: [] }, "mineral nitrogen was not tested, and the other way of RB209, by the crop before and winter rain, is not held here", "mineralN"],
    ["layers by themselves", { tests: [smn(20), smn(15)] }, "mineral nitrogen is given more than once, and the guide reads one sum for 0 to 90 cm, or from September to December 0 to 60 cm", "mineralN for 0 to 90 cm, or from September to December 0 to 60 cm"],
    ["a shallow sample in spring", { tests: [smn(45, { depth: { from: 0, to: 60, unit: "cm" } })] }, "the sample was taken from 0 to 60 cm, and the guide reads 0 to 90 cm, or", "a sample 0 to 90 cm, or from September to December 0 to 60 cm deep, or the sum of its layers"],
    ["a sample that begins below the plow layer", { soil: "shallow", tests: [smn(45, { depth: { from: 30, to: 60, unit: "cm" } })] }, "the sample was taken from 30 to 60 cm", "a sample 0 to 90 cm, or from September to December 0 to 60 cm deep, or the sum of its layers"],
    ["another extract", { tests: [smn(45, { method: "mehlich3" })] }, "mineral nitrogen was measured by Mehlich-3 and the guide reads 2 M potassium chloride or 0.0125 M calcium chloride", "mineralN by 2 M potassium chloride or 0.0125 M calcium chloride"],
    ["only a lower bound", { tests: [smn(300, { qualifier: ">" })] }, "the laboratory says only that there is more than 300 kg/ha", "mineralN as a number"],
    ["humus unknown", { given: { cropNitrogen: 20, previousCrop: "oats" } }, "the organic matter is not recorded, and nitrogen that it releases is part of the supply", "organicMatter"],
    ["nothing known of a standing cereal", { given: { organicMatter: 3, previousCrop: "oats" } }, "the nitrogen that the crop holds already is not recorded, and is part of the supply", "shoots"],
    ["nothing known of standing rape", { crop: "winterOilseedRape", given: { organicMatter: 3, previousCrop: "oats", shoots: 800 } }, "the nitrogen that the crop holds already is not recorded", "greenAreaIndex"],
    ["the crop before unknown", { given: { organicMatter: 3, cropNitrogen: 20 } }, "the crop before is not recorded, and the guide does not read the test after every crop", "previousCrop"],
    ["an old ley", { given: { ...usual, previousCrop: "grassSilageTwoCuts" } }, "the crop before was two-cut grass silage, and RB209 2023 does not have the test read in the first season", "a rate by local advice"],
    ["the kind of soil unknown", { soil: undefined }, "the kind of soil is not recorded, and the guide sets the nitrogen of winter wheat by it", "soilCategory"],
    ["a category of Poland's", { soil: "heavy" }, "the soil's category is heavy, and the guide sets the nitrogen of winter wheat by others", "soilCategory"],
    ["a light sand of clay", { soil: "lightSand", texture: "clay" }, "the soil's category is light sand and its texture clay, which cannot both be", "soilCategory and texture that agree"],
    ["no yield goal", { yieldGoal: undefined }, "no yield goal is set, and the rate depends on the yield", "yieldGoal"],
    ["bushels", { yieldGoal: { value: 80, unit: "bu/ac" } }, "the yield is in bu/ac and the guide reads t/ha", "a yield in t/ha"],
    ["a crop that is not held", { crop: "oats" }, "the guide has no rule for oats", "a guideline for oats"],
  ])("%s", (_, asked, because, missing) => expectRefusal(ask(asked), new RegExp(because.replace(/[().]/g, "\\$&")), missing));
});

it("a depth of 36 in is one of 90 cm, and a medium soil may have a clay topsoil", () => {
  expect(rate({ tests: [smn(45, { depth: { from: 0, to: 36, unit: "in" } })] })).toBe(220);
  expect(rate({ texture: "clay" })).toBe(220);
});

it("a crop that is sown in spring holds nothing yet, and what is recorded of one counts before what was counted", () => {
  const given = { organicMatter: 3, previousCrop: "oats" };
  expect(answered(ask({ crop: "springWheat", given })).steps[1]).toMatchObject({ what: "Nitrogen in the crop: spring wheat is sown in spring, and none stood yet", result: "0 kg N/ha" });
  expect(rate({ given: { ...given, cropNitrogen: 60, shoots: 500 } })).toBe(160);
  expect(rate({ given: { ...given, shoots: 500 } })).toBe(250);
});

it("says at what supply and index, and tells light sand and every field what comes first", () => {
  const { value, cautions } = answered(ask({ soil: "lightSand" }));
  expect(value.level).toBe("a supply of 65 kg/ha, index 1");
  expect(cautions.some((c) => c.startsWith("On light sand and shallow soil without regular manure"))).toBe(true);
  expect(cautions.at(-1)).toMatch(/^Rules for nitrate vulnerable zones and for water/);
});

it("beans need no test, and are given none", () => expect(answered(ask({ crop: "fieldBeans", tests: [], given: {}, soil: undefined })).value.rate.value).toBe(0));

// RB209 2023, section 4, measurement method: supplies above 160 kg/ha are to be doubted where they were not expected.
it("doubts a supply above 160 kg/ha, and none up to it", () => {
  const doubts = (value: number) => answered(ask({ tests: [smn(value)], given: { ...usual, cropNitrogen: 0 } })).cautions.some((c) => c.includes("is to be doubted unless it was expected"));
  expect([45, 160, 161].map(doubts)).toEqual([false, false, true]);
});

it("the schema refuses a table that has not a rate for every index", () => {
  const { indexes } = rule;
  expect(nitrogenSupplyRule.safeParse(rule).success).toBe(true);
  const { error } = nitrogenSupplyRule.safeParse({ ...rule, indexes: { ...indexes, from: indexes.from.slice(0, -1) } });
  expect(error!.issues[0]!.message).toMatch(/^has 7 rates, and there are 6 indexes$/);
});
