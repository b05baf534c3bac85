import { describe, expect, it } from "vitest";
import { nutrientSpan } from "../../src/views/units.ts";

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
});
