import { expect, it } from "vitest";
import { advise } from "../../src/interpretation/advise.ts";
import { fullSample } from "../support/fullSample.ts";
import { triState } from "../support/packs.ts";
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

// Of 7 and at most 5 the mean is at most 6, whichever bag stands first in the record: the first alone would be "< 5" one way and 7 the other.
it("a mean of bags is bounded where one of them is", () => {
  const P = (...bags: readonly (number | readonly ["<" | ">", number])[]) => {
    const [first, ...rest] = bags.map((bag) => (typeof bag === "number" ? measured("P", bag) : { ...measured("P", bag[1]), qualifier: bag[0] }));
    return meanOfBags([first!, ...rest]);
  };
  expect([P(["<", 5], 7), P(7, ["<", 5]), P(["<", 5], ["<", 3]), P(300, [">", 400])].map(numberLabel)).toEqual(["< 6", "< 6", "< 4", "> 350"]);
  expect(P(7, ["<", 5], [">", 400])).toEqual(measured("P", 7));
  const classOf = (m: ReturnType<typeof P>) => {
    const { outcome } = advise({ ...fullSample, packs: [triState], measurements: [m] }).ratings[0]!;
    return outcome.kind === "answer" ? [outcome.value.band, outcome.steps[0]] : outcome.because;
  };
  // Tri-State's critical level of corn is 20 ppm.
  expect(classOf(P(7, ["<", 5]))).toEqual(["deficient", expect.objectContaining({ what: "Laboratory result, mean of 2 bags", expression: "(7 + < 5) ÷ 2", result: "< 6 ppm" })]);
  expect(classOf(P(38, ["<", 5]))).toMatch(/^the mean of 2 bags is < 21\.5 ppm, which /);
});
