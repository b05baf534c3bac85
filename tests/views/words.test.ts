import { expect, it } from "vitest";
import { capital, count, list, longDate, monthYear, stopped } from "../../src/views/words.ts";
import { decimalYear } from "../../src/interpretation/statistics/series.ts";

it("ends a sentence once, whatever name it ends in", () =>
  expect([stopped("Sent to North Laboratory"), stopped("Sent to Old Lab, Inc."), stopped("Silage: what to apply?")]).toEqual(["Sent to North Laboratory.", "Sent to Old Lab, Inc.", "Silage: what to apply?"]));

it("writes dates, lists and counts as a person does", () => {
  expect(longDate("2025-10-08")).toBe("8 October 2025");
  expect(monthYear("2025-06-11")).toBe("June 2025");
  expect([list([]), list(["a"]), list(["a", "b"]), list(["a", "b", "c"])]).toEqual(["", "a", "a and b", "a, b and c"]);
  expect([count(1, "field"), count(4, "field"), count(23, "sampling")]).toEqual(["one field", "four fields", "23 samplings"]);
  expect([capital("spread lime"), capital("pH check")]).toEqual(["Spread lime", "pH check"]);
});

it("places a day in its year", () => {
  expect(decimalYear("2023-01-01")).toBe(2023);
  expect(decimalYear("2023-07-02")).toBeCloseTo(2023 + 182 / 365, 12);
  expect(decimalYear("2024-12-31")).toBeCloseTo(2024 + 365 / 366, 12);
});

