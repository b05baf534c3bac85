import { describe, expect, it } from "vitest";
import { baseShareCheck } from "../../../src/interpretation/checks/baseShareCheck.ts";
import { sharesOfBases, shortBase } from "../../../src/interpretation/rules/baseShare.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { pack, ruleIn } from "../../support/packs.ts";

describe("a base beside the others, as published", () => {
  checkedAsPublished(baseShareCheck);
});

const magnesium = ruleIn(pack("us-michigan-base-saturation"), "magnesium", "baseShare");

it("leaves acidity out of the shares", () => {
  const shares = sharesOfBases({ saturation: { Ca: 40, Mg: 6, K: 4 }, baseSaturation: 50 });
  expect(shares).toEqual({ Ca: 80, Mg: 12, K: 8 });
});

it("says what is held and what should be", () =>
  expect(shortBase(magnesium, { K: 6.8, Mg: 4.2 })).toMatchObject({ what: "Magnesium should hold more than 3 percent of the bases, and more than potassium does", result: "it holds 4.2 percent, and potassium 6.8: it may be short", evidence: "read" }));

it("says nothing where one of the two was not tested", () => expect(shortBase(magnesium, { Mg: 1 })).toBeUndefined());
