import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evenSteps, stepLabel, stepOf } from "../../../src/views/maps/evenSteps.ts";

/** No publication stands behind these classes: they are a way to draw, and are held to what they say of themselves. */
describe("even steps", () => {
  it.each([
    // Calcium of the demo farm's field Causeway, 2014 and 2016: 410 to 1,750; 500 is the narrowest step that needs no more than four classes.
    { values: [1730, 1480, 520, 1750, 1390, 410], isPh: false, step: 500, labels: ["0 to under 500", "500 to under 1,000", "1,000 to under 1,500", "1,500 to under 2,000"] },
    { values: [1.5, 3.2, 3.7], isPh: false, step: 1, labels: ["1 to under 2", "2 to under 3", "3 to under 4"] },
    // A buffer pH: 6.75 and 6.87 lie in two steps of 0.2, and narrower ones are not made.
    { values: [6.75, 6.87], isPh: true, step: 0.2, labels: ["6.6 to under 6.8", "6.8 to under 7.0"] },
    { values: [96], isPh: false, step: 10, labels: ["90 to under 100"] },
    { values: [0, 0], isPh: false, step: 0.001, labels: ["0.000 to under 0.001"] },
  ])("of $values are $step wide", ({ values, isPh, step, labels }) => {
    const steps = evenSteps(values, isPh);
    expect(steps.step).toBe(step);
    expect(labels.map((_, i) => stepLabel(steps, i))).toEqual(labels);
  });

  it("put a value on an edge into the class above it, and less than a limit into the class below", () => {
    const steps = evenSteps([0, 1, 4], false);
    expect(steps).toEqual({ step: 2, first: 0 });
    expect([1.9, 2, 4].map((v) => stepOf(steps, v, undefined))).toEqual([0, 1, 2]);
    expect([2, 3, 4].map((v) => stepOf(steps, v, "<"))).toEqual([0, 1, 1]);
    expect(stepOf(steps, 0, "<")).toBe(0);
  });

  it("hold every value in one of at most four classes, whose words say so", () =>
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 5000, noNaN: true }).map((n) => Number(n.toFixed(2))), { minLength: 1, maxLength: 40 }), (values) => {
        const steps = evenSteps(values, false);
        for (const value of values) {
          const at = stepOf(steps, value, undefined);
          expect(at).toBeLessThan(4);
          const [from, under] = stepLabel(steps, at).replaceAll(",", "").split(" to under ").map(Number);
          expect(value).toBeGreaterThanOrEqual(from! - 1e-9);
          expect(value).toBeLessThan(under! + 1e-9);
        }
      }),
    ));
});
