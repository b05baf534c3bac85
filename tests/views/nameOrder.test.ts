import { expect, it } from "vitest";
import * as fc from "fast-check";
import { compareNames } from "../../src/views/nameOrder.ts";

it("puts numbers by their size, and letters without regard to case and accents", () => {
  expect(["Field 10", "field 2", "Ängen", "angle", "Zoo", "Field 1", "Ahlen"].sort(compareNames)).toEqual(["Ahlen", "Ängen", "angle", "Field 1", "field 2", "Field 10", "Zoo"]);
});

it("is an order: the same list comes out whatever the list that went in", () => {
  const name = fc.stringMatching(/^[a-cÄé 0-9]{0,6}$/);
  fc.assert(
    fc.property(fc.array(name, { maxLength: 8 }), (names) => {
      expect([...names].reverse().sort(compareNames)).toEqual([...names].sort(compareNames));
    }),
    { seed: 20_251_018, numRuns: 300 },
  );
});
