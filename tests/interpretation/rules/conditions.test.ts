import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { conditionLabel, firstMatch, meets, metLabel, range, when } from "../../../src/interpretation/rules/conditions.ts";
import { always, between } from "../../support/repeatable.ts";

const fits = (cec: object, value: number): boolean => meets(when.parse({ cec }), { cec: value }).matches;

describe("the four ends of a range", () => {
  it.each([
    [{ from: 12 }, 11.9, false],
    [{ from: 12 }, 12, true],
    [{ above: 12 }, 12, false],
    [{ above: 12 }, 12.1, true],
    [{ upTo: 12 }, 12, true],
    [{ upTo: 12 }, 12.1, false],
    [{ below: 12 }, 12, false],
    [{ below: 12 }, 11.9, true],
    [{ from: 5, below: 12 }, 5, true],
    [{ from: 5, below: 12 }, 12, false],
    [{ above: 5, upTo: 12 }, 5, false],
    [{ above: 5, upTo: 12 }, 12, true],
    [{ from: 12, upTo: 12 }, 12, true],
  ])("%j holds %d: %s", (cec, value, expected) => expect(fits(cec, value)).toBe(expected));

  it("from and below, above and upTo leave no number out and hold none twice", () =>
    always([between(0, 100), between(0, 100)], (edge, value) => {
      expect(fits({ from: edge }, value)).toBe(!fits({ below: edge }, value));
      expect(fits({ above: edge }, value)).toBe(!fits({ upTo: edge }, value));
    }));

  it("says them in words", () => {
    expect(conditionLabel(when.parse({ cec: { from: 12 } }))).toBe("CEC at least 12 meq/100 g");
    expect(conditionLabel(when.parse({ crops: ["corn"], cec: { from: 5, below: 12 } }))).toBe("corn, CEC at least 5, below 12 meq/100 g");
    expect(conditionLabel(when.parse({ soilPh: { from: 7.5 }, calciumSaturation: { from: 80 } }))).toBe("soil pH at least 7.5, calcium saturation at least 80 %");
  });

  it("names of a long list only the crop and texture that are here", () => {
    const long = when.parse({ crops: ["winterWheat", "springWheat", "winterBarley", "oats"], textures: ["loam", "siltLoam", "clayLoam", "clay"], cec: { from: 5 } });
    expect(metLabel(long, { crop: "oats", texture: "clay", cec: 6 })).toBe("oats, clay, CEC at least 5 meq/100 g");
    expect(metLabel(when.parse({ crops: ["corn", "soybean"] }), { crop: "corn" })).toBe("corn or soybean");
    expect(metLabel(undefined, { crop: "corn" })).toBe("");
  });

  it.each([[{}], [{ from: 1, above: 1 }], [{ upTo: 2, below: 2 }], [{ from: 5, upTo: 4 }], [{ above: 5, upTo: 5 }], [{ from: 5, below: 5 }], [{ above: 5, below: 5 }]])(
    "%j is refused",
    (each) => expect(range.safeParse(each).success).toBe(false),
  );
});

it.each([
  [{ textures: ["sand", "loamySand"] }, { texture: "sand" }, { texture: "loam" }, "texture"],
  [{ soilClass: "mineral" }, { soilClass: "mineral" }, { soilClass: "organic" }, "soilClass"],
  [{ straw: "removed" }, { straw: "removed" }, { straw: "incorporated" }, "straw"],
  [{ crops: ["corn", "soybean"] }, { crop: "soybean" }, { crop: "wheat" }, "crop"],
] as const)("%j fits what it names and nothing else, and asks for it where it is not known", (condition, inside, outside, fact) => {
  expect([inside, outside, {}].map((facts) => meets(when.parse(condition), facts))).toEqual([{ matches: true }, { matches: false }, { matches: false, missing: fact }]);
});

it("asks for a fact only where everything that is known fits", () => {
  const rows = [when.parse({ crops: ["corn"], calciumSaturation: { from: 80 } }), when.parse({ crops: ["wheat"] })].map((condition) => ({ when: condition }));
  expect(firstMatch(rows, { crop: "corn" })).toEqual({ missing: "calciumSaturation" });
  expect(firstMatch(rows, { crop: "wheat" }).found).toBe(rows[1]);
  always([fc.constantFrom("soybean" as const, "alfalfa" as const)], (crop) => expect(firstMatch(rows, { crop })).toEqual({ missing: undefined }));
});
