import { describe, expect, it } from "vitest";
import { lengthUnits, yieldUnits } from "../../src/interpretation/units.ts";
import { analyteIds, cropIds, methodIds, soilTestUnits } from "../../src/interpretation/vocabulary.ts";
import { alsoCalled } from "../../src/records/alsoCalled.ts";
import { allowedWords, nearMiss } from "../../src/records/nearMiss.ts";

describe("a near miss", () => {
  it.each([
    ["bufferPH", "bufferPh"],
    ["bufferph", "bufferPh"],
    ["buferPh", "bufferPh"],
    ["ufbferPh", "bufferPh"],
    ["k", "K"],
  ])("%s is meant for %s", (written, meant) => {
    expect(nearMiss(written, ["pH", "bufferPh", "K"])).toBe(meant);
  });

  it.each(["", "x", "zinc", "buffer pH of the soil", "k".repeat(200)])("%j is meant for nothing", (written) => {
    expect(nearMiss(written, ["pH", "bufferPh", "Zn", "<"])).toBeUndefined();
  });
});

// A short word has room for one slip, and two neighboring letters in the wrong order are one.
it.each([["lmie", "lime"], ["liem", "lime"], ["ilme", "lime"], ["lima", "lime"], ["emil", undefined], ["lmiex", undefined], ["ilem", undefined]])("%s is meant for %s", (written, meant) => {
  expect(nearMiss(written, ["lime", "marl"])).toBe(meant);
});

// A decitonne is a tenth of a tonne, a milligram no milliequivalent: whoever takes such an offer records another amount without a word.
it.each([["dt/ha", "t/ha"], ["g/ha", "kg/ha"], ["mg/100 g", "meq/100 g"]])("%s is no slip for %s", (written, other) => {
  expect(nearMiss(written, [other])).toBeUndefined();
  expect(allowedWords(written, [other])).toBe(`allowed: ${other}`);
});

it.each([["t/h", "t/ha"], ["T/HA", "t/ha"], ["m³/ha", "m3/ha"], ["kg/hs", "kg/ha"], ["bu/acre", "bu/ac"]])("%s is one for %s", (written, meant) => {
  expect(nearMiss(written, [meant])).toBe(meant);
});

describe("the words allowed", () => {
  const wheats = ["winter", "spring", "durum", "club", "red", "white"].map((kind) => `${kind}Wheat`);

  it("are named in a sentence where up to five hold what was written", () => {
    expect(allowedWords("wheat", wheats.slice(0, 3))).toBe("did you mean winterWheat, springWheat or durumWheat?");
    expect(allowedWords("wheat", wheats.slice(0, 5))).toBe("did you mean winterWheat, springWheat, durumWheat, clubWheat or redWheat?");
    expect(allowedWords("wheat", ["oats", ...wheats])).toBe(`allowed: ${wheats.join(", ")}, oats`);
    expect(allowedWords("rye", ["winterRye", "oats"])).toBe("did you mean winterRye?");
  });

  it("are listed where nothing is close, twenty at most", () => {
    const many = Array.from({ length: 23 }, (_, i) => `word-${i}`);
    expect(allowedWords("x", ["a", "b"])).toBe("allowed: a, b");
    expect(allowedWords("x", many)).toBe(`allowed: ${many.slice(0, 20).join(", ")} and 3 more`);
    expect(allowedWords("x", [])).toBe("there are none yet");
  });

  it.each([
    ["tri-state", "did you mean us-tristate-974-2020?"],
    ["Mehlich", "did you mean mehlich3 or mehlich1?"],
    ["iowa lime", "did you mean us-iowa-lime-2002?"],
    // One slip away from a word that nothing else holds.
    ["mehlich4", "did you mean mehlich3?"],
    // Two letters are part of too many.
    ["us", "allowed: mehlich3, mehlich1, us-tristate-974-2020, us-iowa-lime-2002"],
  ])("%s is looked for within them", (written, words) => {
    expect(allowedWords(written, ["mehlich3", "mehlich1", "us-tristate-974-2020", "us-iowa-lime-2002"])).toBe(words);
  });

  it("are looked for at the beginning of a word within them, not in its middle", () => {
    expect(allowedWords("ley", ["winterBarley", "springBarley", "oats"])).toBe("allowed: winterBarley, springBarley, oats");
    expect(allowedWords("barley", ["winterBarley", "springBarley", "oats"])).toBe("did you mean winterBarley or springBarley?");
    expect(allowedWords("oilseed rape", ["winterOilseedRape", "springOilseedRape", "oats"])).toBe("did you mean winterOilseedRape or springOilseedRape?");
  });

  it.each([
    ["maize", "did you mean corn, grainMaize or forageMaize?"],
    ["Lucerne", "did you mean alfalfa?"],
    ["canola", "did you mean winterOilseedRape or springOilseedRape?"],
    ["Phosphorus", "did you mean P?"],
    ["organic matter", "did you mean organicMatter?"],
    // One letter from pH, and no pH of the soil.
    ["BpH", "did you mean bufferPh?"],
    ["NO3", "did you mean nitrateN or nitrate?"],
    ["M3", "did you mean mehlich3?"],
    ["mg/kg", "did you mean ppm?"],
    ["cmol/kg", "did you mean meq/100 g?"],
    ["bushels", "did you mean bu/ac?"],
  ])("for %s, as it is called elsewhere, are the names used here", (written, words) => {
    expect(allowedWords(written, [...cropIds, ...analyteIds, ...methodIds, ...soilTestUnits, ...yieldUnits])).toBe(words);
  });

  it("are told by what they are called elsewhere only where they are words of records", () => {
    const known = new Set<string>([...cropIds, ...analyteIds, ...methodIds, ...soilTestUnits, ...yieldUnits, ...lengthUnits]);
    expect(Object.keys(alsoCalled).filter((word) => !known.has(word))).toEqual([]);
  });

  it("may have names, which are looked for whole", () => {
    const names = (id: string): string[] => (id === "west" ? ["A", "West end"] : ["B", "constructor"]);
    expect(allowedWords("west END", ["west", "east"], names)).toBe("did you mean west?");
    expect(allowedWords("B", ["west", "east"], names)).toBe("did you mean east?");
    expect(allowedWords("??", ["west", "east"], names)).toBe("allowed: west, east");
    expect(allowedWords("constructor", ["west", "constructor"])).toBe("did you mean constructor?");
  });

  // Unicode's confusables.txt pairs these letters of Cyrillic and Greek with Latin ones; a keyboard that was left switched types them.
  it.each([["\u041a", "K"], ["\u0421\u0430", "Ca"], ["M\u0433", undefined], ["w\u0435st", "west"], ["\u039c\u03bf", "Mo"]])("are known behind letters that only look Latin: %s", (written, meant) => {
    expect(allowedWords(written, ["K", "Ca", "Mo", "west", "corn"])).toBe(meant === undefined ? "did you mean Mo?" : `a letter in it only looks like a Latin one; did you mean ${meant}?`);
  });

  it("begin with those that hold what was written, where they are many", () => {
    const many = Array.from({ length: 30 }, (_, i) => (i < 24 ? `ca-${i}` : `us-iowa-${i}`));
    expect(allowedWords("iowa", many)).toBe(`allowed: ${[...many.slice(24), ...many.slice(0, 14)].join(", ")} and 10 more`);
  });
});
