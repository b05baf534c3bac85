import { expect, it } from "vitest";
import { historyOf } from "../../../src/interpretation/checks/nitrogenInput.ts";
import { nitrateNitrogen } from "../../../src/interpretation/nitrogen/nitrateNitrogen.ts";
import { nitrogenAdvice } from "../../../src/interpretation/nitrogen/nitrogen.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";

const top = { method: "potassiumChloride", purpose: "nitrate", depth: { from: 0, to: 12, unit: "in" } } as const;
const advice = (...measurements: ReturnType<typeof measured>[]) =>
  nitrogenAdvice([pack("us-iowa-nitrate")], { measurements, facts: { crop: "corn" }, history: historyOf({ cropHeight: 9, cores: 18, keeping: "chilled", rainOfNormal: 100, manuredSinceHarvest: "no", previousCrop: "corn" }), yieldGoal: undefined, manure: [] });

it("turns nitrate into nitrate-N by atomic weights: 30 hold 6.78 (scienceofagriculture.org, example results)", () => {
  const { measurements, steps } = nitrateNitrogen([measured("nitrate", 30, top)]);
  expect(measurements).toMatchObject([{ analyte: "nitrateN", unit: "ppm" }]);
  expect(measurements[0]!.value).toBeCloseTo(6.78, 2);
  expect(steps).toMatchObject([{ expression: "30 ppm × 0.2259", result: "6.78 ppm" }]);
});

it("leaves nitrate-N as it is, and prefers it where both are reported", () => {
  const direct = measured("nitrateN", 7, top);
  expect(nitrateNitrogen([measured("nitrate", 30, top), direct])).toEqual({ measurements: [direct], steps: [] });
});

// Mineral nitrogen holds ammonium too (Düngeverordnung, § 4 (1) no. 3, counts it whole).
it("never takes mineral nitrogen for nitrate, nor nitrate for mineral nitrogen", () => {
  const mineral = measured("mineralN", 45, { ...top, method: "calciumChlorideNitrogen", unit: "kg/ha", depth: { from: 0, to: 90, unit: "cm" } });
  const nitrate = measured("nitrate", 30, top);
  expect(nitrateNitrogen([mineral, nitrate]).measurements.map((m) => m.value)).toEqual(nitrateNitrogen([nitrate]).measurements.map((m) => m.value));
  const german = (...measurements: ReturnType<typeof measured>[]) =>
    nitrogenAdvice([pack("de-ordinance-2017")], { measurements, facts: { crop: "winterWheat" }, history: historyOf({ organicMatter: 2, previousCrop: "winterBarley" }), yieldGoal: { value: 8, unit: "t/ha" }, manure: [] }).nitrogen!;
  // Annex 4: 230 kg for 8 t of wheat, less the 45 in the soil.
  expect(answered(german(measured("nitrateN", 20, top), mineral)).value.rate).toEqual({ value: 185, unit: "kg/ha" });
  expectRefusal(german(nitrate), /^mineral nitrogen was not tested$/, "mineralN");
});

it("keeps a less-than a less-than", () => expect(nitrateNitrogen([measured("nitrate", 4, { ...top, qualifier: "<" })]).measurements[0]!.qualifier).toBe("<"));

it("never reads 71 ppm of nitrate as enough, where 71 ppm of nitrate-N would be: (25 - 16.04) x 8", () => {
  const found = answered(advice(measured("nitrate", 71, top)).nitrogen!);
  expect(found.value.rate.value).toBeCloseTo((25 - 71 * 0.2259) * 8, 1);
  expect(found.steps[0]).toMatchObject({ what: "The laboratory reports nitrate; its nitrogen, by atomic weights", expression: "71 ppm × 0.2259", result: "16.04 ppm" });
  expect(answered(advice(measured("nitrateN", 71, top)).nitrogen!).value.rate.value).toBe(0);
});
