import { describe, expect, it } from "vitest";
import { limeRate, nitrogenRate, nutrientSpan } from "../../src/views/units.ts";

describe("a rate on a page", () => {
  const rate = { value: 20, unit: "lb/ac" } as const;
  it("shows both ends of a range", () => {
    expect(nutrientSpan({ rate, to: 40 }, "us")).toEqual({ value: "20 to 40", unit: "lb/ac" });
    expect(nutrientSpan({ rate, to: 40 }, "metric")).toEqual({ value: "22 to 45", unit: "kg/ha" });
  });

  it("shows one number where there is one, or where both ends round to one", () => {
    expect(nutrientSpan({ rate }, "us")).toEqual({ value: "20", unit: "lb/ac" });
    expect(nutrientSpan({ rate, to: 20.3 }, "us")).toEqual({ value: "20", unit: "lb/ac" });
  });

  it.each([
    // An acre is 43.56 times 1,000 sq ft.
    [{ value: 1, unit: "lb/ac" }, 2, "garden", "0.023 to 0.046"],
    [{ value: 10, unit: "lb/ac" }, undefined, "garden", "0.23"],
    [{ value: 100, unit: "lb/ac" }, undefined, "garden", "2.3"],
    [{ value: 0, unit: "lb/ac" }, undefined, "garden", "0.0"],
    [{ value: 0.25, unit: "lb/ac" }, undefined, "us", "0.25"],
    [{ value: 1.5, unit: "lb/ac" }, 2.5, "us", "1.5 to 2.5"],
    [{ value: 2, unit: "lb/ac" }, 3, "metric", "2.2 to 3.4"],
  ] as const)("keeps the figures of a small one, %o to %s in %s", (small, to, units, value) => expect(nutrientSpan({ rate: small, to }, units).value).toBe(value));
});

it.each([
  [0.024, "us", "0.024"],
  [0.06, "us", "0.1"],
  [0, "us", "0.0"],
  // 44.8 kg on a hectare; 0.46 lb on 1,000 sq ft.
  [0.02, "metric", "0.045"],
  [0.01, "garden", "0.459"],
] as const)("no lime that is called for is shown as none: %s ton/ac in %s", (value, units, shown) => expect(limeRate({ value, unit: "ton/ac" }, units).value).toBe(shown));

it("the most that a law allows is rounded down, and a whole number stays what it is", () => {
  const most = (value: number, atMost?: boolean): string[] => [nitrogenRate({ rate: { value, unit: "kg/ha" }, atMost }, "metric").value, nutrientSpan({ rate: { value, unit: "kg/ha" }, atMost }, "metric").value];
  expect(most(175.8, true)).toEqual(["175", "175"]);
  expect(most(175.8)).toEqual(["176", "176"]);
  expect(most(230 + 5 - 45.1 - 9.9, true)).toEqual(["180", "180"]);
});
