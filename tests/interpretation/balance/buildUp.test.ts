import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { buildUpFor } from "../../../src/interpretation/balance/buildUp.ts";
import type { NutrientId } from "../../../src/interpretation/vocabulary.ts";
import type { Farm } from "../../../src/records/model.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { archivedFarm, farmIn } from "../../support/archived.ts";
import { farmFolder } from "../../support/farmFolder.ts";
import { gardenFarm, library } from "../../support/gardenFarm.ts";
import { paths } from "../../support/tinyFarm.ts";

const buildUp = (farm: Farm, field: string, zone: string, nutrient: NutrientId) => {
  const found = farm.fields.find((f) => f.id === field)!;
  const { sample, advice } = latestAdvice(farm, found, found.zones.find((z) => z.id === zone)!)!;
  return buildUpFor(sample, advice.rates.find((r) => r.nutrient === nutrient)!);
};
const metric = readFarm({ content: join(installation, "tests", "fixtures", "metric"), library }).farm!;
const garden = (): Farm => gardenFarm().read({ library }).farm!;

describe("what it takes to reach the target, removal not counted", () => {
  // Tri-State 2020, four years of (120 - 104) x (1 + 0.05 x 14) = 27.2: 108.8 lb/ac. The same equation's constants as in its rate's cases.
  it("is the yearly build-up times the years of the publication", () => {
    const { outcome, pack } = buildUp(garden(), "north", "west", "K2O");
    expect(outcome).toMatchObject({ kind: "answer", value: { over: "all years", years: 4, amount: { unit: "lb/ac" } } });
    expect(outcome.kind === "answer" && outcome.value.amount.value).toBeCloseTo(108.8, 9);
    expect(outcome.kind === "answer" && outcome.steps.at(-1)!.expression).toBe("27.2 × 4");
    expect(pack!.id).toBe("us-tristate-974-2020");
  });

  // 138 is above the critical level of 120.
  it("is nothing from the critical level up", () => expect(buildUp(garden(), "north", "east", "K2O").outcome).toMatchObject({ kind: "answer", value: { amount: { value: 0 } } }));

  it("needs a number where the laboratory gives a bound", () =>
    expect(buildUp(garden(), "north", "west", "P2O5").outcome).toMatchObject({ kind: "noAnswer", because: "the laboratory says < 3 ppm, and the amount needs a number" }));

  it("is not known where nothing was tested", () => expect(buildUp(garden(), "north", "east", "P2O5").outcome).toMatchObject({ kind: "noAnswer", because: "phosphorus was not tested" }));

  // RB209 2010, potatoes: 210 at index 1, 170 at index 2; winter wheat: 30 is added at index 1. Teagasc, barley of 7 t/ha: 37 at index 2, 27 at 3; potassium 95 and 80.
  it.each([
    ["longstrand", "west", "P2O5", 40],
    ["longstrand", "east", "P2O5", 30],
    ["longstrand", "east", "K2O", 30],
    ["shingle", "whole", "P", 10],
    ["shingle", "whole", "K", 15],
  ] as const)("in an index system is what a year asks over the target index: %s, %s, %s", (field, zone, nutrient, kilograms) =>
    expect(buildUp(metric, field, zone, nutrient).outcome).toMatchObject({ kind: "answer", value: { amount: { value: kilograms, unit: "kg/ha" }, over: "each year" } }));

  it("is refused where a guideline only says what the next crop needs", () =>
    expect(buildUp(farmIn(archivedFarm()), "north", "west", "K2O").outcome).toMatchObject({ kind: "noAnswer", because: "Full says what the next crop needs, and not what would bring the soil up to a target" }));

  // Iowa 2013 prints no build-up: P of Mehlich-3, ICP, is optimum from 26 to 35 ppm.
  it.each([
    [25, undefined],
    [26, 0],
    [35, 0],
    [90, 0],
  ])("of a guideline without build-up is nothing from the lower end of the range up, and not known below it: %s ppm", (ppm, amount) => {
    const folder = farmFolder().change("farm.yaml", "[small-guide]", "[us-iowa-pm1688-2013]");
    folder.write(paths.sampling, `date: 2025-10-18\npurpose: routine\nlab: north-lab\npackage: basic\ndepth: { from: 0, to: 6, unit: in }\ncomposites:\n  - { label: A1, zone: west, results: { pH: 6.1, P: ${ppm} } }\n  - { label: B1, zone: east, results: { pH: 6.1 } }\n`);
    const { farm, problems } = folder.read({ library });
    expect(problems).toEqual([]);
    const { outcome } = buildUp(farm!, "north", "west", "P2O5");
    if (amount === undefined) expect(outcome).toMatchObject({ kind: "noAnswer", because: "Iowa 2013 says what the next crop needs, and not what would bring the soil up to a target" });
    else expect(outcome).toMatchObject({ kind: "answer", value: { amount: { value: amount } } });
  });
});
