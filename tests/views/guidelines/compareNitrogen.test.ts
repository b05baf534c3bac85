import { expect, it } from "vitest";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Farm } from "../../../src/records/model.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { compareView } from "../../../src/views/guidelines/compareView.ts";
import { shownGuidelines } from "../../../src/views/guidelines/comparison.ts";
import { library } from "../../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;
const causeway = (farm: Farm) => compareView(farm).sections.find((s) => s.id === "causeway")!;

it("compares nitrogen by the newest nitrate test: 27 ppm is above every state's critical level, and each says so by itself", () => {
  const section = causeway(demo);
  expect(section.sample).toContain("Nitrogen is for corn 2025, now past, from the nitrate test of 11 June 2025: nitrate-N 27 ppm.");
  // Iowa 25 ppm, Illinois 25 ppm, Ohio 25 to 30 ppm: in each pack with its source.
  expect(section.rows.filter((r) => !r.N.none).map((r) => [r.pack.short, r.N.text])).toEqual([
    ["Iowa late-spring nitrate", "0 lb/ac"],
    ["Illinois spring nitrate", "0 lb/ac"],
    ["Minnesota PSNT", "0 lb/ac"],
    ["Ohio PSNT 2022", "0 lb/ac"],
  ]);
  expect(section.rows.find((r) => r.pack.short === "Tri-State 2020")!.N).toEqual({ text: "not in it", none: true });
  expect(section.silent.find((s) => s.names === "New York PSNT")!.reasons).toBe("the fertilizer nitrogen before the test is 89.7 lb/ac, and the guideline asks for less than 40 lb/ac");
  // A row leads to its guideline's page.
  for (const { pack } of section.rows) expect(shownGuidelines(demo).has(pack.id)).toBe(true);
});

it("has no such column where nothing gives nitrogen, and no word on it for a reader from whom it is kept", () => {
  const untested = { ...demo, fields: demo.fields.map((f) => ({ ...f, samplings: f.samplings.filter((s) => s.purpose !== "nitrate") })) };
  expect(causeway(untested)).toMatchObject({ nitrogen: false, sample: expect.not.stringContaining("Nitrogen") as string });
  expect(causeway(untested).silent.some((s) => s.names.includes("PSNT"))).toBe(false);
  const kept = forAudience(demo, { name: "a reader", leaveOut: ["nitrogen"], fields: ["causeway"] });
  expect(compareView(kept).sections.map((s) => [s.nitrogen, s.sample.includes("Nitrogen"), s.rows.some((r) => !r.N.none)])).toEqual([[false, false, false]]);
});
