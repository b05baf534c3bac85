import { expect, it } from "vitest";
import { axis, niceStep, yearAxis } from "../../../src/views/trends/axis.ts";

it.each([[100, 20], [7, 2], [0.9, 0.2], [45, 10], [250, 50], [5, 1]])("a span of %d goes in steps of %d", (span, step) => expect(niceStep(span, 5)).toBeCloseTo(step, 12));

it.each([
  [0, 100, 20, [0, 20, 40, 60, 80, 100]],
  [4.9, 5.6, 0.5, [4.5, 5, 5.5, 6]],
  [0.1, 0.3, 0.1, [0.1, 0.2, 0.3]],
  [-15, 12, 10, [-20, -10, 0, 10, 20]],
])("from %d to %d by %d", (from, to, step, ticks) => expect(axis(from, to, step)).toEqual({ from: ticks[0], to: ticks.at(-1), ticks }));

it.each([
  [2014.8, 2025.8, 2026, [2014, 2017, 2020, 2023, 2026]],
  [2020.3, 2025.8, 2026, [2020, 2022, 2024, 2026]],
  [2021.8, 2025.8, 2026, [2021, 2022, 2023, 2024, 2025, 2026]],
  [2025.8, 2025.8, 2026, [2025, 2026]],
  [2025, 2025, 2026, [2025, 2026]],
])("results from %d to %d", (first, last, to, ticks) => expect(yearAxis(first, last)).toEqual({ from: ticks[0], to, ticks }));
