import { describe, expect, it } from "vitest";
import type { Sampling } from "../../src/records/model.ts";
import { readFarm } from "../../src/records/reading/readFarm.ts";
import { planTitle } from "../../src/views/plan/plan.ts";
import { plannedName, samplingCounts, samplingName } from "../../src/views/samplingName.ts";
import { library } from "../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const pack = (id: string) => demo.allGuidelines.get(id)!;
const taken = (purpose: Sampling["purpose"], ...tests: string[]) => ({ purpose, measures: Object.fromEntries(tests.map((test) => [test, {}])) }) as unknown as Sampling;
const sheet = [taken("routine", "pH"), taken("routine", "pH"), taken("phCheck", "pH"), taken("nitrate", "nitrateN"), taken("nitrate", "mineralN")];

describe("a sampling for nitrogen is named by what is tested", () => {
  it("once it was taken, by its package", () => {
    expect(sheet.map((s) => samplingName(s).label)).toEqual(["routine sampling", "routine sampling", "pH check", "nitrate sampling", "nitrogen sampling"]);
    // A full sampling may have its nitrogen tested too.
    expect(samplingName(taken("routine", "pH", "mineralN")).label).toBe("routine sampling");
    expect(samplingCounts(sheet).map(({ n, name }) => `${n} ${name.short}`)).toEqual(["2 routine", "1 pH check", "1 nitrate", "1 nitrogen"]);
  });

  it.each([
    [["de-ordinance-2017"], "nitrogen sampling"],
    [["uk-rb209-2023"], "nitrogen sampling"],
    [["us-iowa-nitrate"], "nitrate sampling"],
    [["us-tristate-974-2020"], "nitrate sampling"],
    [["us-iowa-nitrate", "uk-rb209-2023"], "nitrate sampling"],
  ])("while it is planned, by %s: %s", (ids, label) => {
    expect(plannedName(ids.map(pack), "nitrate").label).toBe(label);
    expect(plannedName(ids.map(pack), "phCheck").label).toBe("pH check");
  });

  it("and so is its plan", () => {
    const field = { ...demo.fields[0]!, name: "Hooge", guidelines: [pack("de-ordinance-2017")] };
    expect((["routine", "phCheck", "nitrate"] as const).map((purpose) => planTitle(field, purpose))).toEqual(["Sampling plan for Hooge", "pH check plan for Hooge", "Nitrogen sampling plan for Hooge"]);
  });
});
