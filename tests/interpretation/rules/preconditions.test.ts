import { describe, expect, it } from "vitest";
import type { NitrateHistory } from "../../../src/interpretation/rules/nitrateFacts.ts";
import type { Precondition } from "../../../src/interpretation/rules/preconditions.ts";
import { checkPreconditions, precondition } from "../../../src/interpretation/rules/preconditions.ts";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import { expectRefusal } from "../../support/outcomes.ts";

const from = { source: { reference: "bulletin-1" }, evidence: "read" as const };
const asks = (weight: Precondition["weight"], ...anyOf: Precondition["anyOf"]): Precondition => precondition.parse({ weight, anyOf, ...from });
const check = (p: Precondition, history: NitrateHistory) => checkPreconditions([p], history, "the bulletin");
const refusal = (p: Precondition, given: Parameters<typeof historyOf>[0]) => {
  const { refused } = check(p, historyOf(given));
  if (!refused) throw new Error("nothing was refused");
  return refused;
};

describe("a condition that fails gives no rate and says which", () => {
  it.each([
    ["crop height, short", asks("condition", { fact: "cropHeight", from: 6, upTo: 12 }), { cropHeight: 5.9 }, /the height of the crop is 5.9 in, and the bulletin asks for 6 to 12 in/, "a nitrate test where the height of the crop is 6 to 12 in"],
    ["crop height, tall", asks("condition", { fact: "cropHeight", from: 6, upTo: 12 }), { cropHeight: 12.1 }, /is 12.1 in/, "a nitrate test where the height of the crop is 6 to 12 in"],
    ["cores", asks("condition", { fact: "cores", from: 10 }), { cores: 9 }, /the number of cores in the bag is 9, and the bulletin asks for at least 10/, "a nitrate test where the number of cores in the bag is at least 10"],
    ["hours", asks("condition", { fact: "hoursToLab", upTo: 48 }), { hoursToLab: 49 }, /the time to the laboratory is 49 hours/, "a nitrate test where the time to the laboratory is at most 48 hours"],
    ["early nitrogen", asks("condition", { fact: "earlyNitrogen", upTo: 40 }), { earlyNitrogen: 41 }, /the fertilizer nitrogen before the test is 41 lb\/ac, and the bulletin asks for at most 40 lb\/ac/, "a nitrate test where the fertilizer nitrogen before the test is at most 40 lb/ac"],
    ["manure history", asks("condition", { fact: "manureYears", from: 2 }), { manureYears: 1 }, /manured years among the five before is 1, and the bulletin asks for at least 2/, "a nitrate test where the number of manured years among the five before is at least 2"],
    ["sod", asks("condition", { fact: "sinceSod", above: 1 }), { sinceSod: 1 }, /the number of years since sod is 1, and the bulletin asks for more than 1/, "a nitrate test where the number of years since sod is more than 1"],
    ["fertilizer only", asks("condition", { fact: "fertilizerOnlyYears", below: 3 }), { fertilizerOnlyYears: 3 }, /is 3, and the bulletin asks for less than 3/, "a nitrate test where the number of years on fertilizer nitrogen alone is less than 3"],
    ["organic soil", asks("condition", { fact: "texture", not: ["muck"] }), { texture: "muck" }, /the soil texture is muck or peat, and the bulletin asks for anything but muck or peat/, "a nitrate test where the soil texture is not muck or peat"],
    ["rain", asks("condition", { fact: "daysSinceRain", from: 2 }), { daysSinceRain: 1 }, /the time since heavy rain is 1 day,/, "a nitrate test where the time since heavy rain is at least 2 days"],
  ] as const)("%s", (_, p, given, clause, missing) => expectRefusal(refusal(p, given), clause, missing));

  it("but not on its edges", () => {
    const height = asks("condition", { fact: "cropHeight", from: 6, upTo: 12 });
    expect([6, 12].map((cropHeight) => check(height, historyOf({ cropHeight })).refused)).toEqual([undefined, undefined]);
    expect(check(asks("condition", { fact: "earlyNitrogen", upTo: 40 }), historyOf({ earlyNitrogen: 40 })).refused).toBeUndefined();
    expect(check(asks("condition", { fact: "fertilizerOnlyYears", below: 3 }), historyOf({ fertilizerOnlyYears: 2 })).refused).toBeUndefined();
  });
});

const handling = (weight: Precondition["weight"]) => asks(weight, { fact: "keeping", is: ["air-dried", "chilled", "frozen"] }, { fact: "hoursToLab", upTo: 48 });

describe("one of several ways is enough", () => {
  it("chilled, however long the way", () => expect(check(handling("condition"), historyOf({ keeping: "chilled", hoursToLab: 90 })).refused).toBeUndefined());
  it("as taken, but soon there", () => expect(check(handling("condition"), historyOf({ keeping: "as taken", hoursToLab: 48 })).refused).toBeUndefined());
  it("as taken and late", () => expectRefusal(refusal(handling("condition"), { keeping: "as taken", hoursToLab: 49 }), /the keeping of the bags is as taken/, "a nitrate test where the keeping of the bags is air-dried or chilled or frozen, or the time to the laboratory is at most 48 hours"));
});

describe("what is not recorded", () => {
  it("refuses where it is a condition, and is named by its id", () => {
    expectRefusal(refusal(asks("condition", { fact: "cropHeight", from: 6, upTo: 12 }), {}), /the height of the crop is not recorded, and the bulletin asks for 6 to 12 in/, "cropHeight");
    expectRefusal(refusal(handling("condition"), {}), /the keeping of the bags and the time to the laboratory are not recorded/, "keeping", "hoursToLab");
  });
  it("is a caution where it is only advised", () => {
    const { refused, cautions } = check(handling("advice"), {});
    expect(refused).toBeUndefined();
    expect(cautions).toEqual([expect.stringMatching(/^The keeping of the bags and the time to the laboratory are not recorded, and the bulletin asks that/)]);
  });
  it("and so is advice that was not followed", () => {
    const p = precondition.parse({ weight: "advice", by: "New York", anyOf: [{ fact: "earlyNitrogen", upTo: 40 }], ...from });
    expect(check(p, historyOf({ earlyNitrogen: 90 })).cautions).toEqual(["Others would doubt this test: New York asks that the fertilizer nitrogen before the test is at most 40 lb/ac (here 90 lb/ac)."]);
  });
  it("what several others ask is one sentence for what fails, and one for what nobody recorded", () => {
    const others = [["New York", { fact: "earlyNitrogen", upTo: 40 }], ["Delaware", { fact: "fertilizerOnlyYears", below: 3 }], ["Ohio", { fact: "previousCrop", is: ["corn"] }]].map(([by, test]) => precondition.parse({ weight: "advice", by, anyOf: [test], ...from }));
    expect(checkPreconditions(others, historyOf({ earlyNitrogen: 90, fertilizerOnlyYears: 11 }), "the bulletin").cautions).toEqual([
      "Others would doubt this test: New York asks that the fertilizer nitrogen before the test is at most 40 lb/ac (here 90 lb/ac); Delaware asks that the number of years on fertilizer nitrogen alone is less than 3 (here 11).",
      "Others ask what the records do not say: Ohio asks that the crop before is corn.",
    ]);
  });
});

it("a condition that fails is told before one that is not recorded", () => {
  const all = [asks("condition", { fact: "cores", from: 10 }), asks("condition", { fact: "cropHeight", upTo: 12 })];
  expect(checkPreconditions(all, historyOf({ cropHeight: 20 }), "the bulletin").refused?.because).toMatch(/the height of the crop is 20 in/);
});

describe("the schema", () => {
  const valid = (p: object) => precondition.safeParse({ weight: "condition", ...from, ...p }).success;
  it("refuses a word that no record can hold, an empty test, and another publication's condition", () => {
    expect(valid({ anyOf: [{ fact: "keeping", is: ["chilled"] }] })).toBe(true);
    expect(valid({ anyOf: [{ fact: "keeping", is: ["cool"] }] })).toBe(false);
    expect(valid({ anyOf: [{ fact: "cores" }] })).toBe(false);
    expect(valid({ anyOf: [{ fact: "keeping" }] })).toBe(false);
    expect(valid({ by: "New York", anyOf: [{ fact: "cores", from: 10 }] })).toBe(false);
    expect(valid({ by: "New York", weight: "advice", anyOf: [{ fact: "cores", from: 10 }] })).toBe(true);
  });
});
