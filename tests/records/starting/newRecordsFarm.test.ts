import { expect, it } from "vitest";
import type { MethodId } from "../../../src/interpretation/vocabulary.ts";
import { newFarm } from "../../../src/records/starting/newRecordsFarm.ts";
import { newField } from "../../../src/records/starting/newRecordsField.ts";
import { pack } from "../../support/packs.ts";

const files = (guidelines: readonly string[], extractant: MethodId) =>
  newFarm({ name: "A farm", units: "metric", currency: "GBP", guidelines: guidelines.map(pack), lab: { id: "lab", name: "Lab", extractant }, field: { id: "north", name: "North", zones: ["West"] } });
const text = (path: string, guidelines: readonly string[], extractant: MethodId): string => files(guidelines, extractant).find((f) => f.path === path)!.text;

it("offers the other tests that the guidelines read, each as they read it", () => {
  expect(text("labs/lab.yaml", ["uk-rb209-2010"], "olsen")).toContain("      #Mg: { method: ammoniumNitrate, unit: mg/l }\n");
  expect(text("labs/lab.yaml", ["us-umass-modified-morgan"], "modifiedMorgan")).toMatch(/#Ca: \{ method: modifiedMorgan, unit: ppm \}\n {6}#Mg: \{ method: modifiedMorgan, unit: ppm \}\n {6}#S: /);
  expect(text("labs/lab.yaml", ["us-vermont-lime"], "modifiedMorgan")).toContain("#Al: { method: modifiedMorgan, unit: ppm }");
  expect(text("labs/lab.yaml", ["soil-chemistry"], "mehlich3")).not.toContain("#Mg:");
  // Penn State's lime goes by the acidity that the Mehlich buffer shows, and not by the buffer pH.
  expect(text("labs/lab.yaml", ["us-pennsylvania-agronomy-guide"], "mehlich3")).toContain("      #exchangeableAcidity: { method: mehlichBuffer, unit: meq/100 g }\n");
  expect(text("labs/lab.yaml", ["us-umass-modified-morgan"], "modifiedMorgan")).not.toContain("exchangeableAcidity");
});

it("offers a metric farm a buffer pH only where a guideline reads one, and says how oxides in 100 g become elements", () => {
  expect(text("labs/lab.yaml", ["uk-rb209-2010"], "olsen")).not.toContain("bufferPh");
  expect(text("labs/lab.yaml", ["us-oregon-lime-2025"], "mehlich3")).toContain("#bufferPh: { method: sikora, unit: pH }");
  // 10 / 2.2914 and 10 / 1.2046, by the atomic weights of units.test.ts.
  expect(text("labs/lab.yaml", ["de-ordinance-2017"], "calciumAcetateLactate")).toContain("1 mg of P2O5 in 100 g is 4.36 ppm of P, and of K2O 8.3 ppm of K.");
  expect(text("labs/lab.yaml", ["de-ordinance-2017"], "calciumAcetateLactate")).toContain("#    P2O5: { analyte: P, unit: mg/100 g, as: P2O5 }\n");
  expect(text("labs/lab.yaml", ["uk-rb209-2010"], "olsen")).not.toContain("oxides");
});

it("states lime by the measure that the guidelines' lime rates are in", () => {
  expect(text("farm.yaml", ["uk-rb209-2010"], "olsen")).toContain("stated: { neutralizingValue: 50 }");
  expect(text("farm.yaml", ["us-oregon-lime-2025"], "mehlich3")).toContain("stated: { limeScore: 90 }");
  expect(text("farm.yaml", ["us-vermont-lime"], "modifiedMorgan")).toContain("stated: { cce: 95 }");
});

it("plans a metric farm's example wheat with its straw, which British rates depend on", () => {
  expect(newField({ id: "north", name: "North", zones: ["West"], units: "metric" }).text).toContain("crop: winterWheat, straw: incorporated, yieldGoal: { value: 8, unit: t/ha }");
});
