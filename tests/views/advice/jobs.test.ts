import { join } from "node:path";
import { expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { forAudience } from "../../../src/records/audience/forAudience.ts";
import type { Zone } from "../../../src/records/model.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import type { Action } from "../../../src/views/advice/adviceView.ts";
import { fieldView } from "../../../src/views/field/field.ts";
import { jobs } from "../../../src/views/advice/jobs.ts";

const library = join(installation, "content");
const demo = readFarm({ content: library, library }).farm!;
const field = (id: string, farm = demo) => farm.fields.find((f) => f.id === id)!;

const zone = (name: string): Zone => ({ ...field("causeway").zones[0]!, id: name.toLowerCase(), name });
const lime = (name: string, tons: number, material = "ground limestone"): Action => ({ zone: zone(name), kind: "lime", amount: `${tons} tons per acre`, size: tons, material });

it("lime is one job a material, however many zones take it: its name is said once", () => {
  expect(jobs([lime("East", 4.1), lime("West", 3.4), lime("Knoll", 4.1)], 5)).toEqual([{ text: "Spread 4.1 tons per acre of ground limestone on East and Knoll and 3.4 tons per acre on West", detail: "", lime: true }]);
  expect(jobs([lime("East", 4), lime("West", 4)], 2).map((j) => j.text)).toEqual(["Spread 4 tons per acre of ground limestone on both zones"]);
  expect(jobs([lime("East", 4), lime("West", 3, "marl")], 2).map((j) => j.text)).toEqual(["Spread 4 tons per acre of ground limestone on East", "Spread 3 tons per acre of marl on West"]);
});

it("of more rates than a sentence can hold it says where, and the rates beside it", () => {
  const [job] = jobs([1, 2, 3, 4].map((tons) => lime(`Strip ${tons}`, tons)), 9);
  expect(job!.text).toBe("Spread ground limestone on Strip 1, Strip 2, Strip 3 and Strip 4");
  expect(job!.detail).toBe("Ground limestone: 1 tons per acre on Strip 1; 2 tons per acre on Strip 2; 3 tons per acre on Strip 3; 4 tons per acre on Strip 4.");
});

it("of a field in many cells it says the least and the most", () => {
  const cells = (many: number): Action[] => Array.from({ length: many }, (_, i) => ({ zone: zone(`Cell ${i + 1}`), kind: "K2O", amount: `${90 + ((i * 5) % many)} lb/ac`, size: 90 + ((i * 5) % many) }));
  expect(jobs(cells(8), 64)[0]!.detail).toMatch(/^Potash \(K₂O\): 90 lb\/ac on Cell 1; 95 lb\/ac on Cell 2; .*; 93 lb\/ac on Cell 8\.$/);
  expect(jobs(cells(9), 64)[0]!.detail).toBe("Potash (K₂O): 90 lb/ac to 98 lb/ac on Cell 1, Cell 2, Cell 3, Cell 4, Cell 5, Cell 6, Cell 7, Cell 8 and Cell 9.");
  expect(jobs(cells(13), 64)[0]).toMatchObject({ text: "Apply potash on 13 of 64 zones", detail: "Potash (K₂O): 90 lb/ac to 102 lb/ac on 13 of 64 zones." });
});

it("zones that get the same rate are named together, and a field of one zone says the rate alone", () => {
  const potash = (name: string, rate: number): Action => ({ zone: zone(name), kind: "K2O", amount: `${rate} lb/ac`, size: rate });
  expect(jobs([potash("Hill", 73), potash("Flat", 90), potash("Draw", 73)], 4)[0]!.detail).toBe("Potash (K₂O): 73 lb/ac on Hill and Draw; 90 lb/ac on Flat.");
  expect(jobs([potash("Hill", 90), potash("Flat", 90)], 2)[0]!.detail).toBe("Potash (K₂O): 90 lb/ac on both zones.");
  expect(jobs([potash("Hill", 90)], 1)[0]!.detail).toBe("Potash (K₂O): 90 lb/ac.");
});

it("a field's page says what to do and then why", () => {
  const { lede, why } = fieldView(demo, field("causeway"));
  expect(lede).toBe("Spread 1.4 tons per acre of ground limestone on Outwash; apply potash on all three zones and phosphate on Knoll and Outwash.");
  expect(why).toMatch(/^Soil pH on Outwash is 5\.7\. Potassium and phosphorus are deficient on Knoll and Outwash\. From the newest routine sampling of each zone, 18 October 2025\./);
});

it("a reader who is shown no rates is told what is low, not what he is not shown", () => {
  const farm = forAudience(demo, demo.audiences.get("landlord")!);
  expect(fieldView(farm, field("saltings", farm)).lede).toBe("Potassium is deficient.");
});

it("a field that was sampled in part says so, and asks for the rest", () => {
  const { samplings, ...rest } = field("causeway");
  const part = { ...rest, samplings: samplings.map((s) => ({ ...s, composites: s.composites.filter((c) => c.zone !== "apron") })) };
  const farm = { ...demo, fields: [part] };
  expect(fieldView(farm, part).lede).toMatch(/^Sample every zone: not all have been sampled; spread 1\.4 tons per acre of ground limestone on Outwash; apply potash/);
});
