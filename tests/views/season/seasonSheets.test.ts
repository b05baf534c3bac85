import { describe, expect, it } from "vitest";
import { sheetCautions, spreaderSheets } from "../../../src/views/season/seasonSheets.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { gardenFarm, library } from "../../support/gardenFarm.ts";

const demo = readFarm({ content: library, library }).farm!;

describe("spreader sheets", () => {
  it("are one a product, lime first, zones in the order of fields", () => {
    const sheets = spreaderSheets(demo);
    expect(sheets.map((s) => s.title)).toEqual(["Ground limestone", "Muriate of potash, 0-0-60", "Triple superphosphate, 0-46-0"]);
    expect(sheets[1]!.rows.map((r) => `${r.field} ${r.zone.letter} ${r.area} ${r.rate} ${r.mass}`)).toEqual([
      "Causeway A 9.7 178 1,719",
      "Causeway B 17.2 147 2,534",
      "Causeway C 6.1 178 1,082",
      "Saltings A 4.9 411 2,020",
      "Saltings B 5.8 480 2,764",
    ]);
    expect(sheets[1]).toMatchObject({ mass: "10,118", area: "43.6", sources: "Tri-State 2020", unchecked: true });
  });

  it("begin with local codes and hold the cautions of what is spread", () => {
    // Nothing that is spread brings nitrogen, so neither ammonia as such nor nitrate in wells is spoken of.
    expect(sheetCautions(demo).map((c) => c.title)).toEqual(["local codes first", "lime dust", "lime and ammonia", "phosphorus near water", "potash at planting", "potash on alfalfa"]);
  });

  it("hold each the cautions of its own product, since each goes to the field alone", () =>
    expect(spreaderSheets(demo).map((s) => s.cautions.map((c) => c.title))).toEqual([
      ["local codes first", "lime dust", "lime and ammonia"],
      ["local codes first", "potash at planting", "potash on alfalfa"],
      ["local codes first", "phosphorus near water"],
    ]));

  // Oregon 2025, at most 2 ton/ac left on a surface: 4.2 ton/ac of limestone, 3.87 of its pure lime, are 2 applications of 2.1 on untilled ground.
  it("take a row for each application of a rate that is split, and say what to do with the later ones", () => {
    const folder = gardenFarm();
    for (const field of ["north", "kitchen"]) folder.change("fields/north/field.yaml", "zones:\n", "tillage: noTill\ntargetPh: { value: 6.5, reason: a test }\nzones:\n").remove(`fields/${field}/seasons`);
    folder.write("fields/north/field.yaml", `name: North Field\nsoil: { texture: siltLoam, cec: 14, subsoilPh: 6.5 }\ntargetPh: { value: 6.5, reason: a test }\ntillage: noTill\nzones:\n  west: { letter: A, name: West end }\n  east: { letter: B, name: East end }\nplan:\n  - { season: 2026, crop: corn, yieldGoal: { value: 180, unit: bu/ac } }\n`);
    const { farm, problems } = folder.read({ library });
    expect(problems).toEqual([]);
    const [lime] = spreaderSheets(farm!);
    const parts = lime!.rows.map((r) => r.part);
    expect(parts).toEqual(parts.map((_, i) => `${i + 1} of ${parts.length}`));
    expect(parts.length).toBeGreaterThan(1);
    expect(lime!.then).toEqual(["Leave the rest for later years and test again first."]);
    const tons = (text: string): number => Number(text.replaceAll(",", ""));
    expect(Math.abs(lime!.rows.reduce((sum, r) => sum + tons(r.mass), 0) - tons(lime!.mass))).toBeLessThan(0.1 * parts.length);
  });

  it("mark an overdue sampling", () => {
    const { farm } = gardenFarm().change("fields/north/field.yaml", "season: 2026", "season: 2032").read({ library, today: "2032-05-01" });
    const sheet = spreaderSheets(farm!).find((s) => s.title === "Muriate of potash");
    expect(sheet!.rows[0]!.beware).toBe("sampled 18 October 2025, overdue: sample again first");
  });
});
