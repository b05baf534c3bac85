import { expect, it } from "vitest";
import { onNitrateSampling } from "../../../src/interpretation/firstAnswer.ts";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Farm } from "../../../src/records/model.ts";
import type { WithheldPart } from "../../../src/records/schemas/audience.ts";
import { latestAdvice, zoneSample } from "../../../src/views/advice/sample.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { library } from "../../support/gardenFarm.ts";
import { paths } from "../../support/tinyFarm.ts";

const deep = "2025-10-18-nitrate";
/** A field of wheat in South Dakota: the top six inches, and two feet for nitrate, chloride and sulfate, as laboratories of the northern plains sell them. */
const farmOf = (day = "2025-10-18", top = "{ pH: 6.8, K: 240 }", results = "{ nitrateN: 38, Cl: 18, S: 8 }"): Farm => {
  const { farm, problems } = farmFolder()
    .change(paths.farm, "guidelines: [small-guide]", "guidelines: [us-southdakota-s-cl]")
    .change(paths.field, "crop: corn\n    yieldGoal: { value: 180, unit: bu/ac }", "crop: wheat\n    yieldGoal: { value: 60, unit: bu/ac }")
    .change(paths.lab, "packages:\n", "packages:\n  deep:\n    name: two feet\n    measures:\n      nitrateN: { method: potassiumChloride, unit: lb/ac }\n      Cl: { method: calciumNitrate, unit: lb/ac }\n      S: { method: calciumPhosphate, unit: lb/ac }\n  top:\n    name: six inches\n    measures:\n      pH: { method: water1to1, unit: pH }\n      K: { method: ammoniumAcetate, unit: ppm }\n      S: { method: calciumPhosphate, unit: ppm }\n")
    .remove("fields/north/samplings")
    .write("fields/north/samplings/2025-10-18.yaml", `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: top\ndepth: { from: 0, to: 6, unit: in }\ncomposites:\n  - { label: A1, zone: west, results: ${top} }\n`)
    .write(`fields/north/samplings/${deep.replace("2025-10-18", day)}.yaml`, `date: ${day}\npurpose: nitrate\nlab: north-lab\npackage: deep\ndepth: { from: 0, to: 24, unit: in }\ncomposites:\n  - { label: N1, zone: west, results: ${results} }\n`)
    .read({ library });
  expect(problems.map((p) => p.message)).toEqual([]);
  return farm!;
};
const toldIn = (farm: Farm) => {
  const [field] = farm.fields;
  const { advice } = latestAdvice(farm, field!, field!.zones[0]!)!;
  const told = (nutrient: string) => {
    const outcome = advice.rates.find((r) => r.nutrient === nutrient)!.outcome;
    return outcome.kind === "answer" ? outcome.value.rate.value : outcome.because;
  };
  return { Cl: told("Cl"), S: told("S") };
};
const rates = (...asked: Parameters<typeof farmOf>) => toldIn(farmOf(...asked));

// South Dakota State: 60 lb/ac less the chloride of two feet; and 25 lb of sulfur where two feet hold 0 to 9 lb/ac.
it("chloride and sulfur of two feet are read from the sampling for nitrate, beside which they are tested", () => {
  expect(rates()).toEqual({ Cl: 42, S: 25 });
  // The top six inches hold no word on two feet.
  expect(rates("2025-10-18", "{ pH: 6.8, S: 12 }")).toEqual({ Cl: 42, S: 25 });
});
it("and are history a year after, as nitrate is", () => expect(rates("2024-10-17")).toEqual({ Cl: "chloride was not tested", S: "sulfur was not tested" }));
it("not tested is said where they were not", () => expect(rates("2025-10-18", "{ pH: 6.8 }", "{ nitrateN: 38 }")).toEqual({ Cl: "chloride was not tested", S: "sulfur was not tested" }));
// That they were not tested would be untrue, and what another guideline says of the top six inches was never advised in place of the first one's rate.
it("to a reader who is not shown nitrogen they are left out, whether they were tested or not", () => {
  const shown = (leaveOut: WithheldPart, ...asked: Parameters<typeof farmOf>) => toldIn(forAudience(farmOf(...asked), { name: "A reader", leaveOut: [leaveOut] }));
  const hidden = { Cl: onNitrateSampling.because, S: onNitrateSampling.because };
  expect(shown("nitrogen")).toEqual(hidden);
  expect(shown("nitrogen", undefined, "{ pH: 6.8, S: 12 }")).toEqual(hidden);
  expect(shown("nitrogen", undefined, "{ pH: 6.8 }", "{ nitrateN: 38 }")).toEqual(hidden);
  expect(shown("costs")).toEqual({ Cl: 42, S: 25 });
});

it("while the results of a later sampling for nitrate are awaited, those before it stand", () => {
  const farm = farmOf();
  const [field] = farm.fields;
  const awaited = field!.samplings.filter((s) => s.purpose === "nitrate").map((s) => ({ ...s, id: "2025-10-25", date: "2025-10-25", composites: s.composites.map((c) => ({ ...c, measurements: [] })) }));
  expect(toldIn({ ...farm, today: "2025-10-26", fields: [{ ...field!, samplings: [...field!.samplings, ...awaited] }] })).toEqual({ Cl: 42, S: 25 });
});
it("the sampling for nitrate itself holds them once", () => {
  const farm = farmOf();
  const [field] = farm.fields;
  const own = zoneSample(farm, field!, field!.zones[0]!, field!.samplings.find((s) => s.purpose === "nitrate")!);
  expect(own!.sample.measurements.map((m) => m.analyte)).toEqual(["nitrateN", "Cl", "S"]);
});
