import { describe, expect, it } from "vitest";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import type { Outcome } from "../../../src/interpretation/outcome.ts";
import { answer, noAnswer } from "../../../src/interpretation/outcome.ts";
import type { Noise } from "../../../src/interpretation/statistics/noise.ts";
import type { Classed } from "../../../src/views/alike/oneClass.ts";
import { oneClass } from "../../../src/views/alike/oneClass.ts";

const bands = [{ name: "low", position: "below" as const }, { name: "high", position: "above" as const, from: 200 }];
const high = (value: number, change: Partial<Classed> = {}): Classed => ({
  by: "Small",
  bands,
  measurement: { analyte: "K", value, unit: "ppm", method: "mehlich3", date: "2025-10-18", depth: { from: 0, to: 8, unit: "in" }, lab: "north-lab", purpose: "routine" } as Measurement,
  rating: { band: "high", position: "above", rank: 1 },
  ...change,
});
/** A standard deviation of 10 ppm: on one side at 5 %, 16.4. */
const known = (): Outcome<Noise> => answer({ from: "sampling and analysis together", parts: [{ value: 10, as: "units", over: 1 }], step: 0 }, []);

describe("one class of two zones", () => {
  it("is told where neither result is within noise of a bound", () => {
    expect(oneClass([high(217), high(300)], known)).toEqual({ name: "high", by: "Small" });
    expect(oneClass([high(216), high(300)], known)).toBeUndefined();
  });

  it.each<[string, Classed[]]>([
    ["of one zone", [high(300)]],
    ["by two guidelines, whose words mean different things", [high(300), high(300, { by: "Another" })]],
    ["of an index, whose bounds are none of the test", [high(300, { bands: [] }), high(300, { bands: [] })]],
    ["that describes and does not judge", [high(300), high(300, { rating: { band: "high", position: undefined, rank: 1 } })]],
    ["of a result that the laboratory only bounds", [high(300), high(300, { measurement: { ...high(300).measurement, qualifier: ">" } })]],
  ])("is not told %s", (_, zones) => expect(oneClass(zones, known)).toBeUndefined());

  it("is not told where no noise is known", () => expect(oneClass([high(300), high(300)], () => noAnswer("nobody measured it", []))).toBeUndefined());
});
