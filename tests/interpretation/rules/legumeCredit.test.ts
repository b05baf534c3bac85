import { describe, expect, it } from "vitest";
import { legumeCreditCheck } from "../../../src/interpretation/checks/legumeCreditCheck.ts";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import { creditOfLegume, legumeCreditRule } from "../../../src/interpretation/rules/legumeCredit.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";

describe("legume credits, as published", () => {
  checkedAsPublished(legumeCreditCheck);
});

const wisconsin = ruleIn(pack("us-wisconsin-legume-credit"), "legumes", "legumeCredit");
const kansas = ruleIn(pack("us-kansas-legume-credit"), "legumes", "legumeCredit");
const nebraska = ruleIn(pack("us-nebraska-ec117-nitrogen"), "legumes", "legumeCredit");
const good = { previousCrop: "alfalfa", standDensity: 5, texture: "loam", regrowth: 9 };
const ask = (rule: typeof wisconsin, given: Parameters<typeof historyOf>[0]) => creditOfLegume(rule, historyOf(given), "the table");

it("a range is answered with its lower end, and the caution says so", () => expect(answered(ask(kansas, good)).cautions).toEqual(["The credit after alfalfa is printed as 100 to 140 lb N an acre; the lower end is counted here."]));

describe("refusals", () => {
  it("no crop before", () => expectRefusal(ask(kansas, {}), /the crop before is not recorded/, "previousCrop"));
  it("a crop that the table lacks", () => expectRefusal(ask(kansas, { previousCrop: "corn" }), /the table gives no credit after corn/, "a credit after corn"));
  it("a stand at the edge, which is not over it", () => expectRefusal(ask(wisconsin, { ...good, standDensity: 4 }), /the table has no row for this place/, "a guideline for this place"));
  it("a sandy soil, whose smaller credit was not found", () => expectRefusal(ask(wisconsin, { ...good, texture: "sand" }), /the table has no row for this place/, "a guideline for this place"));
  it("a stand that is not recorded", () => expectRefusal(ask(wisconsin, { ...good, standDensity: undefined }), /the legume stand is not recorded/, "standDensity"));
  it("regrowth that is not recorded", () => expectRefusal(ask(wisconsin, { ...good, regrowth: undefined }), /the legume's fall regrowth is not recorded/, "regrowth"));
  it("a soybean yield that is not recorded", () => expectRefusal(ask(nebraska, { previousCrop: "soybean", texture: "sand" }), /the yield of the crop before is not recorded/, "previousYield"));
});

it("the schema refuses a row with two kinds of credit, and a range that falls", () => {
  const valid = (row: object) => legumeCreditRule.safeParse({ ...kansas, rows: [{ crops: ["alfalfa"], source: "common-practice", ...row }] }).success;
  expect([valid({ credit: 40 }), valid({ from: 40, to: 60 }), valid({ perYield: 1 })]).toEqual([true, true, true]);
  expect([valid({ credit: 40, from: 40, to: 60 }), valid({ from: 60, to: 40 }), valid({ from: 40 }), valid({})]).toEqual([false, false, false, false]);
});
