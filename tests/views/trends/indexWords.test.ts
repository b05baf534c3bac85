import { expect, it } from "vitest";
import { measurementLabel } from "../../../src/interpretation/measurement.ts";
import { answer } from "../../../src/interpretation/outcome.ts";
import { bandLimits } from "../../../src/views/advice/bandLimits.ts";
import { amount, edgeWords, finely, trendPhrase, trendWords } from "../../../src/views/trends/trendWords.ts";
import { sectionsOf } from "../../../src/interpretation/guideline.ts";
import { rateByBands } from "../../../src/interpretation/rules/bands.ts";
import { expectRefusal } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";
import { measured } from "../../support/measured.ts";

// North Carolina reports phosphorus and potassium as an index that has no unit: "a P-index of 60", not "60 index".
const what = { analyte: "K", unit: "index" } as const;
const still = (samplings: number) => answer({ finding: "no variation", samplings, first: { x: 2013.5, y: 30 }, last: { x: 2025.5, y: 30 } } as never, []);

it("a result that is an index is told as one", () => {
  expect(measurementLabel(measured("K", 60, { method: "mehlich3", unit: "index" }))).toBe("index 60");
  expect(measurementLabel(measured("K", 96))).toBe("96 ppm");
  expect(measurementLabel(measured("pH", 6.3))).toBe("6.3");
  expect(amount(30, what)).toBe("index 30");
  expect(edgeWords([25], what)).toBe("The class changes at index 25, within the noise of one sample: it could lie on either side.");
  expect(bandLimits({ above: 50 }, { above: 100 }, "index")).toBe("index above 50 to 100");
  expect(bandLimits({ from: 51 }, undefined, "index")).toBe("index 51 or more");
  expect(bandLimits(undefined, { from: 26 }, "index")).toBe("index below 26");
});

it("a guideline that reads another unit is told that it is one", () =>
  expectRefusal(rateByBands(sectionsOf(pack("us-tristate-974-2020"), "bands")[0]!, measured("Mg", 60, { method: "mehlich3", finish: "icp", unit: "index" }), {}, "Tri-State"), /^the result is an index and Tri-State reads ppm$/, "Mg in ppm"));

it("a difference or a pace is one of points", () => expect(finely(-4.5, what)).toBe("4.5 index points"));

it("what did not vary in two samplings was so at both", () => {
  expect(trendWords(still(2), what).says).toBe("Potassium was index 30 at both samplings since 2013: it did not vary.");
  expect(trendWords(still(6), { analyte: "P", unit: "ppm" }).says).toBe("Phosphorus was 30 ppm at all six samplings since 2013: it did not vary.");
  expect(trendPhrase(still(2), what)).toBe("did not vary in two samplings");
});
