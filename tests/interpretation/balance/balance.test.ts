import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PlaceRecords, Spread } from "../../../src/interpretation/balance/balance.ts";
import { balanceBetween, balanceBySeason } from "../../../src/interpretation/balance/balance.ts";
import { balanceCheck } from "../../../src/interpretation/checks/balanceCheck.ts";
import type { CoefficientSet, Harvest } from "../../../src/interpretation/balance/harvestRemoval.ts";
import { coefficientFor } from "../../../src/interpretation/balance/harvestRemoval.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn, triState } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";
import { recompute } from "../../support/recompute.ts";

describe("sums, as published", () => {
  checkedAsPublished(balanceCheck);
});

// Tri-State 2020, removal as the guideline's file holds it: corn 0.20 lb of K2O a bushel, soybean 1.14.
const sets: CoefficientSet[] = [{ pack: triState.short, rule: ruleIn(triState, "removal", "removal") }];
const source = "common-practice";
const corn = (season: number, bushels?: number, date?: string): Harvest => ({ season, crop: "corn", date, yield: bushels === undefined ? undefined : { value: bushels, unit: "bu/ac" }, source });
const potash = (season: number, date: string, pounds: number): Spread => ({ season, date, name: "potash", rate: { value: pounds, unit: "lb/ac" }, holds: { kind: "fertilizer", analysis: { N: 0, P2O5: 0, K2O: 60 } }, source });
const records = (harvests: Harvest[], spreads: Spread[] = [], seasons = [...new Set([...harvests, ...spreads].map((each) => each.season))]): PlaceRecords => ({ seasons, harvests, spreads });

it("names every publication that was asked in vain, as a sentence does", () => {
  const three = ["One", "Two", "Three"].map((pack) => ({ pack, rule: ruleIn(triState, "removal", "removal") }));
  expect(coefficientFor(three, { crop: "kale", season: 2020 }, "K2O")).toMatchObject({ because: "One, Two and Three give no K₂O removal for kale" });
});

it("says of a cover crop without a yield what to record, since none is weighed that is turned under", () =>
  expectRefusal(balanceBySeason(records([{ season: 2020, crop: "coverCrop", date: undefined, yield: undefined, source }]), "K2O", sets)[0]!.removed, /^the yield of cover crop in 2020 is not recorded, which is 0 where all of it stayed on the field$/, "the yield of cover crop in 2020"));

describe("between two samplings", () => {
  const place = records([corn(2018, 150, "2018-10-15"), corn(2019, 100, "2019-10-12"), corn(2020, 200, "2020-10-20")], [potash(2018, "2018-04-20", 100), potash(2019, "2018-11-02", 200), potash(2020, "2020-04-20", 50)]);

  it("counts what happened after the first and up to the second, whatever season it was for", () => {
    // 200 x 0.6 + 50 x 0.6 = 150 lb; corn of 2018, cut after the sampling, and of 2019: 250 bu x 0.2 = 50 lb.
    expect(answered(balanceBetween(place, "K2O", sets, "2018-10-10", "2020-10-18")).value).toEqual({ applied: 150, removed: 50, net: 100 });
  });

  it("leaves out a harvest before the first", () => expect(answered(balanceBetween(place, "K2O", sets, "2018-10-16", "2020-10-18")).value.removed).toBeCloseTo(20, 9));

  it("has no answer where a season in it is not recorded", () =>
    expectRefusal(balanceBetween(records([corn(2018, 150, "2018-10-15"), corn(2020, 150, "2020-10-15")]), "K2O", sets, "2017-10-10", "2020-10-18"), /^season 2019 is not recorded$/, "season 2019"));

  it("has no answer where a harvest lies on no known side of a sampling", () =>
    expectRefusal(balanceBetween(records([corn(2018, 150), corn(2019, 150)]), "K2O", sets, "2018-10-10", "2019-10-18"), /^the day of the harvest of 2018 is not recorded/, "the day of the harvest of 2018"));

  it("counts what was spread on the day of the second, and not what was spread on that of the first", () => {
    const spread = (first: string, second: string) => answered(balanceBetween({ ...place, spreads: [potash(2018, first, 100), potash(2020, second, 50)] }, "K2O", sets, "2018-10-10", "2020-10-18")).value.applied;
    expect(spread("2018-10-10", "2020-10-18")).toBeCloseTo(30, 9);
    expect(spread("2018-10-11", "2020-10-19")).toBeCloseTo(60, 9);
  });

  it("counts a harvest of the day of the second, and not one of the day of the first", () =>
    expect(answered(balanceBetween(place, "K2O", sets, "2018-10-15", "2019-10-12")).value.removed).toBeCloseTo(20, 9));

  it("asks for the season of a year only where its harvest lies between the two", () => {
    const without = (year: number): PlaceRecords => ({ ...place, seasons: [2018, 2019, 2020].filter((each) => each !== year), harvests: place.harvests.filter((h) => h.season !== year) });
    expect(answered(balanceBetween(without(2020), "K2O", sets, "2018-10-10", "2020-04-01")).value.removed).toBeCloseTo(50, 9);
    expectRefusal(balanceBetween(without(2020), "K2O", sets, "2018-10-10", "2020-07-01"), /^season 2020 is not recorded$/, "season 2020");
    expect(answered(balanceBetween(without(2018), "K2O", sets, "2018-10-10", "2020-04-01")).value.removed).toBeCloseTo(20, 9);
    expectRefusal(balanceBetween(without(2018), "K2O", sets, "2018-04-10", "2020-04-01"), /^season 2018 is not recorded$/, "season 2018");
  });

  it("has no answer where a season in it has no crop, or is shown in part only", () => {
    expectRefusal(balanceBetween({ ...place, harvests: place.harvests.filter((h) => h.season !== 2019) }, "K2O", sets, "2018-10-10", "2020-10-18"), /^the crop of 2019 is not recorded$/, "the crop of 2019");
    expectRefusal(balanceBetween({ ...place, partSeasons: [2019] }, "K2O", sets, "2018-10-10", "2020-10-18"), /^season 2019 is not shown whole to this reader$/);
  });

  it("has no answer where the last harvest has no day, unless nothing was harvested", () => {
    const last = (bushels: number): PlaceRecords => ({ ...place, harvests: [...place.harvests.slice(0, 2), corn(2020, bushels)] });
    expectRefusal(balanceBetween(last(150), "K2O", sets, "2018-10-10", "2020-10-18"), /^the day of the harvest of 2020 is not recorded/, "the day of the harvest of 2020");
    expect(answered(balanceBetween(last(0), "K2O", sets, "2018-10-10", "2020-10-18")).value.removed).toBeCloseTo(50, 9);
  });

  it("has no answer where a yield in it is not recorded", () =>
    expectRefusal(balanceBetween(records([corn(2019), corn(2020, 150, "2020-10-15")]), "K2O", sets, "2018-10-10", "2020-10-18"), /^the yield of corn in 2019 is not recorded$/, "the yield of corn in 2019"));
});

describe("a season that cannot be summed", () => {
  it("is unknown itself and leaves everything after it without a sum, and before it with one", () => {
    const seasons = balanceBySeason(records([corn(2018, 150), { season: 2019, crop: "grassPasture", source }, corn(2020, 150)]), "K2O", sets);
    expect(seasons.map((s) => s.sum.kind)).toEqual(["answer", "noAnswer", "noAnswer"]);
    expectRefusal(seasons[1]!.removed, /^the yield of grass pasture in 2019 is not recorded$/, "the yield of grass pasture in 2019");
    expectRefusal(seasons[2]!.sum, /^it is incomplete since 2019: the yield of grass pasture in 2019 is not recorded$/, "the yield of grass pasture in 2019");
    expect(answered(seasons[2]!.net).value).toBeCloseTo(-30, 9);
  });

  it("that has a record and no crop is one", () => expectRefusal(balanceBySeason(records([], [potash(2018, "2018-04-20", 100)]), "K2O", sets)[0]!.sum, /^it is incomplete since 2018: the crop of 2018 is not recorded$/, "the crop of 2018"));

  it("for nitrogen, where the set has none", () => expectRefusal(balanceBySeason(records([corn(2018, 150)]), "N", sets)[0]!.removed, /^Tri-State 2020 gives no N removal for corn$/, "N removal of corn"));

  it("where no set was chosen", () => expectRefusal(balanceBySeason(records([corn(2018, 150)]), "K2O", [])[0]!.removed, /^none of the chosen guidelines says what a harvest takes away$/, "K₂O removal of corn"));
});

it("a yield of 0 takes nothing away, even of a crop without a coefficient", () =>
  expect(answered(balanceBySeason(records([{ season: 2019, crop: "grassPasture", yield: { value: 0, unit: "ton/ac" }, source }]), "K2O", sets)[0]!.sum).value).toBe(0));

it("says that straw of unknown fate is not counted", () => {
  const wheat: Harvest = { season: 2018, crop: "wheat", yield: { value: 70, unit: "bu/ac" }, source };
  expect(answered(balanceBySeason(records([wheat]), "K2O", sets)[0]!.removed).cautions).toEqual(["What became of the straw of wheat is not recorded; only the grain is counted, so more may have left."]);
  expect(answered(balanceBySeason(records([{ ...wheat, straw: "incorporated" }]), "K2O", sets)[0]!.removed).cautions).toEqual([]);
});

// Barley and oats as Ontario prints them, of grain alone: their straw takes potash along as that of wheat does, and is no crop here.
it("says so of every cereal, and gives no sum where straw went that has no weight and no coefficient", () => {
  const ontario = [{ pack: "Ontario removal 2025", rule: ruleIn(pack("ca-ontario-removal-2025"), "removal-metric", "removal") }];
  const grain = (crop: "winterBarley" | "oats", straw?: "removed" | "incorporated") => balanceBySeason(records([{ season: 2018, crop, straw, yield: { value: 6, unit: "t/ha" }, source }]), "K2O", ontario)[0]!.removed;
  expect([grain("winterBarley"), grain("oats"), grain("oats", "incorporated")].map((outcome) => answered(outcome).cautions)).toEqual([
    ["What became of the straw of winter barley is not recorded; only the grain is counted, so more may have left."],
    ["What became of the straw of oats is not recorded; only the grain is counted, so more may have left."],
    [],
  ]);
  expectRefusal(grain("oats", "removed"), /^the straw of oats was taken off in 2018, and what it takes away is not known here$/, "K₂O removal of the straw of oats");
});

// Düngeverordnung, annex 7, table 1: 8 kg of phosphate in a tonne of wheat of 86 % dry matter, 3 in one of its straw.
it("counts a harvest at the water its coefficient is stated for, and says so where none was recorded", () => {
  const law = [{ pack: "the law", rule: ruleIn(pack("de-ordinance-2017"), "removal", "removal") }];
  const wheat: Harvest = { season: 2018, crop: "winterWheat", straw: "incorporated", yield: { value: 8, unit: "t/ha" }, source };
  const removed = (...harvests: Harvest[]) => answered(balanceBySeason(records(harvests), "P2O5", law)[0]!.removed);
  const kilograms = (...harvests: Harvest[]): number => removed(...harvests).value * 1.12085;
  expect(kilograms(wheat)).toBeCloseTo(64, 2);
  expect(removed(wheat).cautions).toEqual(["Yields of winter wheat are taken as weighed at 14% of water, which the coefficient is stated for."]);
  expect(kilograms({ ...wheat, moisture: 20 })).toBeCloseTo((64 * 80) / 86, 2);
  expect(removed({ ...wheat, moisture: 20 })).toMatchObject({ cautions: [], steps: [{ what: "Yield at 14% of water, as the coefficient counts it", expression: "8 × (100 − 20) ÷ (100 − 14)" }, {}, {}] });
  expect(removed({ ...wheat, moisture: 14 })).toMatchObject({ cautions: [], steps: [{ what: "Yield" }, {}] });
  // Straw that was weighed counts by its own weight, and nobody asks what became of it.
  const straw: Harvest = { season: 2018, crop: "wheatStraw", moisture: 14, yield: { value: 4, unit: "t/ha" }, source };
  expect(kilograms({ ...wheat, straw: undefined, moisture: 14 }, straw)).toBeCloseTo(64 + 12, 2);
  expect(removed({ ...wheat, straw: undefined, moisture: 14 }, straw).cautions).toEqual([]);
});

const season = fc.record({ bushels: fc.option(between(0, 250), { nil: undefined }), pounds: between(0, 400) });

it("the sum is that of the seasons, and stands only while every season before it is known", () =>
  always([fc.array(season, { minLength: 1, maxLength: 12 })], (list) => {
    const lines = balanceBySeason(records(list.map((s, i) => corn(2010 + i, s.bushels)), list.map((s, i) => potash(2010 + i, `${2010 + i}-04-20`, s.pounds))), "K2O", sets);
    let sum = 0;
    let known = true;
    lines.forEach((line, i) => {
      const { bushels, pounds } = list[i]!;
      known &&= bushels !== undefined;
      expect(line.sum.kind).toBe(known ? "answer" : "noAnswer");
      if (!known) return;
      sum += pounds * 0.6 - bushels! * 0.2;
      expect(answered(line.sum).value).toBeCloseTo(sum, 6);
    });
  }));

it("prints sums that come to the result beside them", () => {
  const [line, next] = balanceBySeason(records([corn(2018, 171), corn(2019, 150)], [potash(2018, "2018-04-20", 130), potash(2019, "2019-04-20", 10)]), "K2O", sets);
  const sums = [line!.net, line!.sum, next!.sum].flatMap((outcome) => answered(outcome).steps.flatMap((step) => recompute(step) ?? []));
  expect(sums.length).toBe(5);
  // 130 x 0.6 - 171 x 0.2 = 43.8 lb; with 10 x 0.6 - 150 x 0.2 = -24: 19.8 lb.
  expect(answered(next!.sum).steps).toMatchObject([{ expression: "43.8 − 24", result: "19.8 lb/ac" }]);
  for (const { computed, printed, within } of sums) expect(Math.abs(computed - printed)).toBeLessThanOrEqual(within);
});
