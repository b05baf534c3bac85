import { describe, expect, it } from "vitest";
import { sectionsOf } from "../../../src/interpretation/guideline.ts";
import { noAnswer } from "../../../src/interpretation/outcome.ts";
import { noiseOf } from "../../../src/interpretation/statistics/noise.ts";
import { trendOf } from "../../../src/interpretation/statistics/trend.ts";
import { chance, edgeWords, finely, leastBeside, oneIn, trendPhrase, trendWords } from "../../../src/views/trends/trendWords.ts";
import { pack } from "../../support/packs.ts";

const rules = sectionsOf(pack("soil-variability"), "noise");
const soilPh = { analyte: "pH", unit: "pH" } as const;
const potassium = { analyte: "K", unit: "ppm" } as const;
const points = (y: readonly number[], every: number) => y.map((value, i) => ({ x: 2005.8 + every * i, y: value }));
const ofPh = (y: readonly number[], every = 3) => trendWords(trendOf({ unit: "pH", points: points(y, every) }, noiseOf({ analyte: "pH", method: "water1to1" }, rules)), soilPh);
const ofK = (y: readonly number[], every = 4) => trendWords(trendOf({ unit: "ppm", points: points(y, every) }, noiseOf({ analyte: "K", method: "mehlich3", cores: 15 }, rules)), potassium);

describe("trendWords", () => {
  it("says first where it goes, and the numbers after", () => {
    // Series B of tests/cases/trend.yaml: slope -0.0333 a year, limits -0.0387 and -0.0280, exact p 0.0001984.
    const { says, numbers } = ofPh([6.8, 6.7, 6.7, 6.5, 6.4, 6.4, 6.2, 6.1]);
    expect(says).toBe("Soil pH is falling since 2005, by about 0.33 in ten years.");
    expect(numbers[0]).toBe("Slope −0.33 in ten years, 95 in 100 between −0.39 in ten years and −0.28 in ten years (Theil-Sen, limits approximate with fewer than ten samplings).");
    expect(numbers[1]).toBe("If nothing changed, so strong a direction would come up less than 1 time in 2,000 (Mann-Kendall, every order counted, p below 0.001).");
  });

  it("tells a difference of ten and more without the finer place, and a least change never as the change beside it", () => {
    expect([9.94, 10.3, 25.4].map((value) => finely(value, potassium))).toEqual(["9.9 ppm", "10 ppm", "25 ppm"]);
    const beside = (change: number, least: number) => `${finely(change, potassium)} beside ${leastBeside({ change, least }, potassium)}`;
    expect(beside(-13.4, 12.6)).toBe("13 ppm beside 12.6 ppm");
    expect(beside(10.3, 9.96)).toBe("10 ppm beside 9.96 ppm");
    expect(beside(9.97, 10.3)).toBe("10 ppm beside 10.3 ppm");
  });

  it("gives a small slope and its limits two places, so that it does not lie between 0 and itself", () => {
    const { says, numbers } = trendWords(trendOf({ unit: "mg/l", points: points([3.6, 4.1, 4.4, 4.9, 5.0], 2.5) }, noiseOf({ analyte: "P", method: "morgan", cores: 20 }, rules)), { analyte: "P", unit: "mg/l" });
    expect(says).toBe("Phosphorus is rising since 2005, by about 0.15 mg/l a year.");
    expect(numbers[0]).toMatch(/^Slope 0\.15 mg\/l a year, 95 in 100 between 0\.04 mg\/l a year and 0\.2 mg\/l a year/);
  });

  it("does not take no detectable trend for no change, and says how long it would take", () => {
    const { says } = ofK([148, 171, 152, 180, 160, 178], 2);
    expect(says).toMatch(/^Potassium shows no detectable trend since 2005, in six samplings\. That does not prove it stood still\. If the slope seen is real, \w+ more samplings about 2 years apart, until about 2\d{3}, would show it four times out of five\.$/);
  });

  it("asks for no samplings where no number of them is known to be enough", () => {
    expect(ofPh([6, 6.1, 6, 6.1, 6.02]).says).toBe("Soil pH shows no detectable trend since 2005, in five samplings. That does not prove it stood still.");
  });

  it("does not ask for samplings that nobody will live to take", () => {
    // Slope about 0.01 a year, noise about 0.1: moreSamplings says some twenty samplings.
    const { says } = ofPh([6.3, 6.2, 6.4, 6.3, 6.4, 6.35]);
    expect(says).toMatch(/ So small a slope would take more than 20 years of sampling to show\.$/);
  });

  it("says too few, and whether the change is more than noise", () => {
    expect(ofPh([5.9, 6.1, 6.4, 6.6]).says).toMatch(/^Too few samplings to tell a trend of soil pH: four so far, and five are the fewest that can show one\. The change since 2005 is more than noise: two samplings of an unchanged soil seldom differ by over 0\.28\. /);
    expect(ofPh([6.2, 6.1, 6.2]).says).toContain("There is no change since 2005.");
    expect(ofPh([6.1, 6.2]).says).toMatch(/The change since 2005 may be noise: two samplings of an unchanged soil may differ by 0\.28\./);
  });

  it("tells what a farm's own duplicates are: bags of one day", () => {
    // Six pairs 0.1 apart: 0.071 for one bag; t of six pairs is 2.447, so two bags lie within 0.245 nineteen times in twenty.
    const own = noiseOf({ analyte: "pH", method: "water1to1", duplicates: Array.from({ length: 6 }, () => [6.3, 6.4]) }, rules);
    const { says } = trendWords(trendOf({ unit: "pH", points: points([5.9, 6.1, 6.4, 6.6], 3) }, own), soilPh);
    expect(says).toContain("The change since 2005 is more than noise: two bags of one day seldom differ by over 0.24.");
  });

  it("asks for no more samplings to show a slope that goes the other way than the change it tells", () => {
    // Limed in between: the middle slope falls, and the last result is above the first.
    const { says } = trendWords(trendOf({ unit: "ppm", points: points([367, 550, 470, 403], 2.3) }, noiseOf({ analyte: "K", method: "mehlich3", cores: 15 }, rules)), potassium);
    expect(says).toContain("The change since 2005");
    expect(says).not.toContain("If the slope seen is real");
    expect(ofPh([6.0, 6.9, 6.7, 6.5, 6.3, 6.1]).says).toMatch(/That does not prove it stood still\.$/);
  });

  it("calls nothing a trend that a change of laboratory may have made", () => {
    // Every later result is higher (S = 10 of 10, p = 0.017), but the first is another laboratory's, and laboratories differ by more.
    const y = points([6.1, 6.2, 6.3, 6.4, 6.5], 2.5);
    const noise = (labs: number) => noiseOf({ analyte: "pH", method: "water1to1", labs }, rules);
    expect(trendWords(trendOf({ unit: "pH", points: y, labs: 1 }, noise(1)), soilPh).says).toBe("Soil pH is rising since 2005, by about 0.4 in ten years.");
    const crossed = trendOf({ unit: "pH", points: y, labs: 2 }, noise(2));
    expect(trendWords(crossed, soilPh).says).toMatch(/^Soil pH shows no trend since 2005 beyond the 0\.\d+ by which two laboratories may differ\.$/);
    expect(trendPhrase(crossed, soilPh)).toBe("no trend beyond what laboratories differ by, in five samplings");
    // More than laboratories differ by is one; so is what one laboratory found at both ends.
    expect(trendWords(trendOf({ unit: "pH", points: points([5.0, 5.4, 5.8, 6.2, 6.6], 2.5), labs: 2 }, noise(2)), soilPh).says).toMatch(/^Soil pH is rising since 2005/);
    expect(trendWords(trendOf({ unit: "pH", points: y, labs: 2 }, noise(2), noise(1)), soilPh).says).toMatch(/^Soil pH is rising since 2005/);
  });

  it("says what it cannot say where no noise is known", () => {
    const { says } = trendWords(trendOf({ unit: "ppm", points: points([1, 1.4], 3) }, noAnswer("no figure for the noise of zinc is installed", [])), { analyte: "Zn", unit: "ppm" });
    expect(says).toMatch(/Whether the change since 2005 is more than noise cannot be said, because no figure for the noise of zinc is installed\.$/);
  });

  it("says that nothing varied, and that one sampling is none", () => {
    expect(ofK([25, 25, 25])).toEqual({ says: "Potassium was 25 ppm at all three samplings since 2005: it did not vary.", numbers: [] });
    expect(ofPh([6.1]).says).toBe("No trend, because there is only one sampling, and nothing to compare it with.");
  });

  it("names no year that lies behind, where nothing was sampled for long", () => {
    const found = trendOf({ unit: "pH", points: points([6.1, 6.2], 3) }, noiseOf({ analyte: "pH", method: "water1to1" }, rules));
    const [says, late] = [2010, 2060].map((today) => trendWords(found, soilPh, { today }).says);
    expect(says).toMatch(/about 3 years apart, until about 20\d\d, would show it/);
    expect(late).toMatch(/about 3 years apart would show it/);
  });

  it("gives a slope that rounds to nothing no sign, and tells no pace of 0", () => {
    // Least squares through these falls by 0.02 ppm a year: 0.0 as shown.
    expect(ofK([150, 149, 152, 151, 148.5], 5).numbers.join(" ")).not.toContain("−0 ");
    // Seven results of 6.0 and then three of 6.1: 2 of the 120 orders are as strong, and of 45 slopes the middle one is 0.
    expect(ofPh([6, 6, 6, 6, 6, 6, 6, 6.1, 6.1, 6.1]).says).toBe("Soil pH is rising since 2005.");
  });

  it("holds no number a reader cannot read", () => {
    for (const y of [[6.8, 6.7, 6.7, 6.5, 6.4], [6, 6.2], [6, 6, 6], [6, 6.5, 6, 6.5, 6, 6.5]]) {
      const { says, numbers } = ofPh(y);
      expect([says, ...numbers].join(" ")).not.toMatch(/NaN|Infinity|undefined|\[object|e-\d|\d\.\d{4}/);
    }
  });
});

it("counts chances as a person does", () => {
  expect([0.5, 0.0107, 0.0001].map(oneIn)).toEqual(["at least every other time", "1 time in 93", "less than 1 time in 2,000"]);
  expect([0.0107, 0.0001].map(chance)).toEqual(["p = 0.011", "p below 0.001"]);
});

it("says where a result could be in either class", () => {
  expect(edgeWords([6], soilPh)).toBe("The class changes at 6.0, within the noise of one sample: it could lie on either side.");
  expect(edgeWords([], soilPh)).toBeUndefined();
});
