import { describe, expect, it } from "vitest";
import { sectionsOf } from "../../../src/interpretation/guideline.ts";
import type { AreaResults } from "../../../src/interpretation/statistics/areas.ts";
import { compareAreas } from "../../../src/interpretation/statistics/areas.ts";
import { noiseOf } from "../../../src/interpretation/statistics/noise.ts";
import { analyteWords, areasWords } from "../../../src/views/alike/equivalenceWords.ts";
import { pack } from "../../support/packs.ts";
import { answered } from "../../support/outcomes.ts";

const guideline = pack("soil-variability");
const [noises, margins] = [sectionsOf(guideline, "noise"), sectionsOf(guideline, "margin")];
const names = ["the slope", "the bottom"] as const;
const area = (pH: number[], P?: number[]): AreaResults => ({
  pH: { method: "water1to1", unit: "pH", values: pH },
  ...(P && { P: { method: "olsen", unit: "mg/l", values: P } }),
});
const compare = (a: AreaResults, b: AreaResults) => compareAreas({ areas: [a, b], margins, noise: (analyte, method) => noiseOf({ analyte, method }, noises) });
const first = (a: AreaResults, b: AreaResults) => analyteWords(answered(compare(a, b)).value.analytes.at(-1)!, names);

describe("areasWords", () => {
  it("says what to do first", () => {
    expect(areasWords(compare(area([6.5, 6.52, 6.48], [22, 23, 22]), area([6.5, 6.53, 6.49], [23, 22, 23])), names).says).toBe("The slope and the bottom may be sampled together next time: they are alike in phosphorus and soil pH.");
    expect(areasWords(compare(area([6.5]), area([6.4])), names).numbers.filter((text) => text.includes("merged zones"))).toEqual([]);
    expect(areasWords(compare(area([6.5, 6.52, 6.48]), area([5.9, 5.92, 5.88])), names).says).toBe("Keep the slope and the bottom apart: they differ in soil pH.");
    expect(areasWords(compare(area([6.5]), area([6.4])), names).says).toBe("Keep the slope and the bottom apart for now: there is not enough data on soil pH to call them alike.");
  });

  it("says that it is a convention, and hands on the cautions", () => {
    const potash = { K: { method: "mehlich3", unit: "ppm", values: [120, 125] } } as const;
    const { numbers } = areasWords(compare(potash, potash), names);
    expect(numbers).toEqual([expect.stringMatching(/^To keep one history of merged zones, let both end on the day of that sampling/), expect.stringMatching(/^A rule of thumb in statistics/), expect.stringMatching(/weighs a kilogram/), expect.stringMatching(/not for Mehlich-3/)]);
  });

  it("says why nothing can be said", () => expect(areasWords(compare({}, {}), names).says).toBe("Whether the slope and the bottom may share a sample cannot be said, because nothing was measured in the two areas that has a margin."));
});

describe("analyteWords", () => {
  it("gives a difference that rounds to nothing no sign", () => expect(first(area([6.5, 6.52, 6.48]), area([6.5, 6.52, 6.481])).numbers[0]).toMatch(/^Difference 0, /));

  it("tells the four situations apart", () => {
    expect(first(area([6.5, 6.52, 6.48]), area([6.5, 6.53, 6.49])).says).toBe("Soil pH is alike: 6.5 on the slope and 6.5 on the bottom, and the difference is surely less than 0.2.");
    expect(first(area([6.5, 6.52, 6.48, 6.51]), area([6.58, 6.6, 6.57, 6.61])).says).toMatch(/^Soil pH differs a little, .* but surely by less than 0\.2, which is too little to farm by\.$/);
    expect(first(area([6.5, 6.52, 6.48]), area([5.9, 5.92, 5.88])).says).toBe("Soil pH differs: 6.5 on the slope and 5.9 on the bottom. The difference is more than chance and, as seen, over 0.2.");
    expect(first(area([6.5, 6.3, 6.6]), area([6.4, 6.6, 6.3])).says).toMatch(/^Soil pH is open: .* \w+ more samples of each area would settle it four times out of five, if the difference stays as it is\.$/);
  });

  it("asks more of a difference where several tests are asked, and says so: each of them alone would keep the areas apart", () => {
    // One noise of 0.1 each: 0.3 is 2.12 standard errors, p = 0.034.
    expect(first(area([6.5]), area([6.2])).says).toMatch(/^Soil pH differs: 6\.5 on the slope and 6\.2 on the bottom\./);
    const among = first(area([6.5], [22]), area([6.2], [22]));
    expect(among.says).toMatch(/^Soil pH is open: /);
    expect(among.numbers[0]).toContain("no difference at all, p = 0.034, which shows below 0.025, since two tests are asked).");
  });

  it("says when a single sample had to be judged by the noise, and when no number of samples helps", () => {
    expect(first(area([6.5]), area([6.5])).says).toMatch(/Judged by the noise of one sample, because too few samples were taken to know how far the areas' own results stray\.$/);
    expect(first(area([6.5, 6.3]), area([6.3, 6.1])).says).toMatch(/The difference seen is so near the limit that even thirty samples of each area would seldom settle it\./);
  });

  it("says what one area lacks", () => {
    const [phosphorus] = answered(compare(area([6.5], [22]), area([6.5]))).value.analytes;
    expect(analyteWords(phosphorus!, names).says).toBe("Phosphorus is open, because only one of the areas has a number for phosphorus.");
  });

  it("gives the numbers after, without dust", () => {
    const { numbers } = first(area([6.5, 6.52, 6.48]), area([6.5, 6.53, 6.49]));
    expect(numbers[0]).toMatch(/^Difference −0\.01, limits −0\.04 to 0\.03, 90 in 100, against 0\.2 either way \(two one-sided tests at 5%, p below 0\.001; no difference at all, p = 0\.71\)\.$/);
    expect(numbers.join(" ")).not.toMatch(/NaN|Infinity|undefined|e-\d|\d\.\d{4}/);
  });
});
