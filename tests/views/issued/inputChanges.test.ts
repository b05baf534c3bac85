import { expect, it } from "vitest";
import type { Basis } from "../../../src/views/issued/inputChanges.ts";
import { inputChanges } from "../../../src/views/issued/inputChanges.ts";

/** Nothing but what nitrogen is worked out from. */
const inputs = { results: [], soil: {}, settings: {} };

const withManure = (manure: object): Basis => ({
  inputs: { ...inputs, nitrogen: { question: { measurements: [], history: {}, facts: {}, manure: [{ name: "slurry", yearsAgo: 1, tonsPerAcre: 10, organicNitrogen: 4, ...manure }] } } } as unknown as Basis["inputs"],
  products: {},
  packs: [],
});
const changes = (then: object, now: object) => inputChanges(withManure(then), withManure(now), "USD").map((c) => c.words);

it("advice kept before total nitrogen was asked of manure is told no change by it", () => expect(changes({}, { nitrogen: 9 })).toEqual([]));

it("other manure, and other nitrogen in it where that was kept, are", () => {
  const words = ["what nitrogen is worked out from was changed in the records: the manure spread"];
  expect(changes({}, { nitrogen: 9, tonsPerAcre: 12 })).toEqual(words);
  expect(changes({ nitrogen: 9 }, { nitrogen: 10 })).toEqual(words);
});
