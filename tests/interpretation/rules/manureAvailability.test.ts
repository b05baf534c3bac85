import { describe, expect, it } from "vitest";
import { manureAvailabilityCheck } from "../../../src/interpretation/checks/manureAvailabilityCheck.ts";
import type { ManureSpread } from "../../../src/interpretation/rules/manureAvailability.ts";
import { nitrogenOfManure } from "../../../src/interpretation/rules/manureAvailability.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

describe("release of manure nitrogen, as published", () => {
  checkedAsPublished(manureAvailabilityCheck);
});

const cornell = ruleIn(pack("us-cornell-manure"), "release", "manureAvailability");
const spread: ManureSpread = { name: "beef manure", yearsAgo: 0, tonsPerAcre: 10, organicNitrogen: 5, species: "cattle", dryMatter: 20 };
const ask = (...all: Partial<ManureSpread>[]) => nitrogenOfManure(cornell, all.map((s) => ({ ...spread, ...s })), "the course");

it("more manure never releases less, and drier or older manure never more", () =>
  always([between(0, 40), between(0, 40), between(1, 60)], (a, b, dryMatter) => {
    const at = (tonsPerAcre: number, yearsAgo = 0, dry = dryMatter) => answered(ask({ tonsPerAcre, yearsAgo, dryMatter: dry })).value;
    expect(at(Math.max(a, b))).toBeGreaterThanOrEqual(at(Math.min(a, b)));
    expect(at(a, 1)).toBeLessThanOrEqual(at(a, 0));
    expect(at(a, 2)).toBeLessThanOrEqual(at(a, 1));
    expect(at(a, 0, 18)).toBeLessThanOrEqual(at(a, 0, 17));
  }));

it("says that ammonium is not counted", () => expect(answered(ask({})).cautions.join()).toMatch(/Ammonium nitrogen of the manure is not in this figure/));

describe("refusals", () => {
  it("nothing spread", () => expectRefusal(ask(), /no manure was spread in the years that count/));
  it("only long ago", () => expectRefusal(ask({ yearsAgo: 3 }), /no manure was spread in the years that count/));
  it("no analysis", () => expectRefusal(ask({ organicNitrogen: undefined }), /the organic nitrogen of beef manure is not recorded/, "organicNitrogen"));
  it("no animal", () => expectRefusal(ask({ species: undefined }), /the animal that beef manure is from is not recorded/, "species"));
  it("no dry matter", () => expectRefusal(ask({ dryMatter: undefined }), /the dry matter of beef manure is not recorded, and the course sets the release by it/, "dryMatter"));
  it("but poultry manure is the same at any", () => expect(answered(ask({ species: "poultry", dryMatter: undefined })).value).toBeCloseTo(27.5, 9));
  it("an animal that the table lacks", () => expectRefusal(nitrogenOfManure({ ...cornell, rows: cornell.rows.filter((r) => r.species !== "sheep") }, [{ ...spread, species: "sheep" }], "the course"), /the course gives no release for manure of sheep/, "a release for manure of sheep"));
});
