import { expect, it } from "vitest";
import { noiseOf } from "../../../src/interpretation/statistics/noise.ts";
import { rankDetectableSlope } from "../../../src/interpretation/statistics/rankPower.ts";
import { trendOf } from "../../../src/interpretation/statistics/trend.ts";
import { trendWords } from "../../../src/views/trends/trendWords.ts";
import { answered } from "../../support/outcomes.ts";
import { shareOf } from "../../support/simulated.ts";

const soilPh = { analyte: "pH", unit: "pH" } as const;
const noise = noiseOf({ analyte: "pH", method: "water1to1" }, [{ kind: "noise", id: "one", analyte: "pH", together: { value: 0.1, as: "units", source: "common-practice" } }]);

/** A pH that goes up by `slope` from each of six samplings to the next, with a noise of 0.1. */
const six = (normal: () => number, slope: number) => trendOf({ unit: "pH", points: Array.from({ length: 6 }, (_, i) => ({ x: 2005.8 + 3 * i, y: 6 + slope * i + 0.1 * normal() })) }, noise);

it("does not deny a slope that enough samplings would usually have shown: such a one is seen where the soil changes, hardly ever where it does not", () => {
  const told = new Set<string>();
  const seen = (slope: number): number =>
    shareOf(4000, 1, (normal) => {
      const trend = six(normal, slope);
      const found = answered(trend).value;
      const enough = found.finding === "no detectable trend" && found.more?.kind === "answer" && found.more.value.more === 0;
      if (enough) told.add(trendWords(trend, soilPh).says.replace(/since \d+, in six samplings/, "…"));
      return enough;
    });
  const [flat, real] = [seen(0), seen(0.1 * rankDetectableSlope(6))];
  expect(real).toBeGreaterThan(0.04);
  expect(flat).toBeLessThan(real / 50);
  expect([...told]).toEqual([
    "Soil pH shows no detectable trend …. That does not prove it stood still. The slope seen is more than such noise alone would often make, yet the results do not keep to it well enough to call it a trend: the soil may be changing, or results stray farther than reckoned.",
  ]);
});
