import { join } from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { installation } from "../../scripts/options.ts";
import type { Farm } from "../../src/records/model.ts";
import { zoneAdviceView } from "../../src/views/advice/adviceView.ts";
import { cautionViews } from "../../src/views/advice/cautionViews.ts";
import { balanceCsv } from "../../src/views/balance/balanceCsv.ts";
import { fieldView } from "../../src/views/field/field.ts";
import { homeView } from "../../src/views/home/home.ts";
import { fieldCsv } from "../../src/views/results/rows.ts";
import { latestAdvice } from "../../src/views/advice/sample.ts";
import { inUnitsOf } from "../../src/views/units.ts";
import { farmFolder } from "../support/farmFolder.ts";
import { paths, tinyFarm } from "../support/tinyFarm.ts";

/**
 * One farm in acres with one garden of it in 1,000 sq ft: the same two fields, the same soil, the same tests.
 * Worked by hand for the West end: K 104 on CEC 14, corn of 180 bu, Tri-State 2020: (120 - 104) x (1 + 0.05 x 14) + 180 x 0.2 + 20
 * = 27.2 + 36 + 20 = 83.2 lb/ac, which is 83.2 / 43.56 = 1.91 lb on 1,000 sq ft; of 0-0-60, 138.67 lb/ac = 3.18.
 * Lime, pH 5.8 and Sikora buffer 6.4 to 6.5, Oregon 2025, is whatever the field gets, times 45.9137.
 */
let farm: Farm;
beforeEach(() => {
  const folder = farmFolder()
    .write(paths.farm, tinyFarm[paths.farm]!.replace("[small-guide]", "[us-tristate-974-2020, us-oregon-lime-2025]").replace("stated: { cce: 90 }", "stated: { limeScore: 92 }\n    price: { value: 46, per: ton }").replace("name: muriate of potash\n", "name: muriate of potash\n    price: { value: 450, per: ton }\n"))
    .remove("guidelines");
  const place = (text: string): string => text.replace("texture: siltLoam,", "texture: siltLoam, subsoilPh: 6.5,").replace("zones:\n", "targetPh: { value: 6.5, reason: a test }\nzones:\n");
  const sampling = tinyFarm[paths.sampling]!.replace("pH: 6.2", "pH: 5.8").replace("bufferPh: 6.7", "bufferPh: 6.4");
  for (const [field, own] of [["north", ""], ["kitchen", "units: garden\n"]] as const) {
    folder.write(`fields/${field}/field.yaml`, `${place(tinyFarm[paths.field]!)}${own}`).write(`fields/${field}/samplings/2025-10-18.yaml`, sampling);
    folder.write(`fields/${field}/zones.geojson`, tinyFarm[paths.zones]!).write(`fields/${field}/seasons/2025.yaml`, tinyFarm[paths.season]!);
  }
  const { farm: read, problems } = folder.read({ library: join(installation, "content") });
  expect(problems).toEqual([]);
  farm = read!;
});

const westEnd = (id: string) => {
  const field = farm.fields.find((f) => f.id === id)!;
  const advice = latestAdvice(farm, field, field.zones[0]!)!;
  return { field, advice, ...zoneAdviceView(inUnitsOf(farm, field), advice) };
};
const row = (id: string, subject: string) => {
  const found = westEnd(id).rows.find((r) => r.subject === subject)!;
  return `${found.value} ${found.unit}`;
};

describe("one farm and one garden", () => {
  it("gives potash by the acre in the field and by 1,000 sq ft in the garden", () => {
    expect(row("north", "Potash (K₂O)")).toBe("83 lb/ac");
    expect(row("kitchen", "Potash (K₂O)")).toBe("1.9 lb/1000 sq ft");
  });

  it("gives lime in tons in the field and in pounds in the garden", () => {
    const { advice } = westEnd("kitchen");
    const [lime] = advice.advice.lime.rates;
    const tons = lime!.outcome.kind === "answer" ? lime!.outcome.value.rate.value : 0;
    expect(tons).toBeGreaterThan(1);
    expect(row("north", "Lime")).toBe(`${tons.toFixed(1)} ton/ac`);
    expect(row("kitchen", "Lime")).toBe(`${Math.round(tons * 45.9137)} lb/1000 sq ft`);
  });

  it("buys for the garden by 1,000 sq ft, in its currency", () => {
    const bought = westEnd("kitchen").rows.find((r) => r.subject === "Fertilizer" && r.value !== "")!;
    expect(`${bought.value} ${bought.unit}`).toBe("3.2 lb/1000 sq ft");
    // 138.67 lb/ac at 450 a ton are 31.20 an acre, 0.72 for 1,000 sq ft.
    expect(bought.detail).toContain("$0.72 for 1,000 sq ft");
    expect(bought.steps.at(-1)).toMatchObject({ what: "Cost for 1,000 sq ft, the least that meets what is asked", expression: "3.18 ÷ 2,000 × $450.00", result: "$0.72" });
  });

  it("warns of lead in the garden, and of no anhydrous ammonia there", () => {
    expect(cautionViews([westEnd("kitchen").advice]).map((c) => c.title)).toContain("lead in garden soil");
    expect(cautionViews([westEnd("north").advice]).map((c) => c.title)).not.toContain("lead in garden soil");
  });

  it("puts each caution beside its advice", () => {
    const beside = Object.fromEntries(westEnd("north").rows.flatMap((r) => (r.cautions ? [[r.subject, r.cautions.map((c) => c.title)]] : [])));
    expect(beside).toMatchObject({ Lime: ["lime dust", "lime and ammonia"] });
  });

  it("shows the garden's area in square feet, on its own page and on the farm's", () => {
    const { field } = westEnd("kitchen");
    const [zone] = fieldView(farm, field).zones;
    expect(Number(zone!.area.replaceAll(",", ""))).toBeGreaterThan(100_000);
    const home = homeView(farm);
    const areas = Object.fromEntries(home.zones!.fields.map((f) => [f.field.id, f.zones[0]!.area]));
    expect(areas["kitchen"]).toBe(`${zone!.area} sq ft`);
    expect(areas["north"]).toMatch(/^\d+\.\d$/);
  });

  it("names the columns of its downloads by its units", () => {
    const { field } = westEnd("kitchen");
    expect(fieldCsv(field, inUnitsOf(farm, field).units).split("\r\n")[0]).toContain("depth_from_in,depth_to_in");
    expect(balanceCsv(farm, field).split("\r\n")[0]).toContain("applied_lb_1000_sq_ft");
  });
});

it("a whole farm may be a garden", () => {
  const { farm: garden, problems } = farmFolder().change(paths.farm, "units: us", "units: garden").read();
  expect(problems).toEqual([]);
  expect(cautionViews([latestAdvice(garden!, garden!.fields[0]!, garden!.fields[0]!.zones[0]!)!]).map((c) => c.title)).toContain("lead in garden soil");
});
