import { expect, it } from "vitest";
import { amountLabel, meanOfBags, numberLabel } from "../../src/interpretation/measurement.ts";
import type { AnalyteId } from "../../src/interpretation/vocabulary.ts";
import { measured } from "../support/measured.ts";

const mean = (analyte: AnalyteId, first: number, ...more: readonly number[]): string => numberLabel(meanOfBags([measured(analyte, first), ...more.map((value) => measured(analyte, value))]));

it("a result is shown with the decimals the laboratory wrote", () => {
  expect(([["K", 96], ["P", 5.1], ["pH", 6], ["pH", 6.25], ["Zn", 1]] as const).map(([analyte, value]) => numberLabel(measured(analyte, value)))).toEqual(["96", "5.1", "6.0", "6.25", "1.0"]);
  expect(numberLabel({ ...measured("P", 3), qualifier: "<" })).toBe("< 3");
});

// Morgan's phosphorus is classed at 5.1 and 10.1 mg/l, and lime is due below a pH of 6.5: a mean must not be rounded across.
it("a mean of bags has the decimals of its bags, and one more where it needs it", () => {
  expect([mean("P", 4.9, 5.3), mean("P", 10.1, 9.7), mean("P", 27, 28), mean("K", 101, 95), mean("K", 101, 95, 97)]).toEqual(["5.1", "9.9", "27.5", "98", "97.7"]);
  expect([mean("pH", 6.5, 6.4), mean("pH", 6.4, 6.4), mean("pH", 5.2, 5.4, 5.9), mean("pH", 6.4, 6.4, 6.5)]).toEqual(["6.45", "6.4", "5.5", "6.43"]);
});

it("a bound is shown with one decimal more than usual where it has one", () => {
  expect([amountLabel("P", 10.1), amountLabel("P", 20), amountLabel("P", 6.23456), amountLabel("pH", 6.5), amountLabel("pH", 6.25)]).toEqual(["10.1", "20", "6.2", "6.5", "6.25"]);
});
