import { join } from "node:path";
import { expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
import { zoneProducts } from "../../../src/views/advice/productsView.ts";
import { zonePurchase } from "../../../src/views/advice/zonePurchase.ts";
import { library } from "../../support/gardenFarm.ts";

const metric = readFarm({ content: join(installation, "tests", "fixtures", "metric"), library }).farm!;

// Winter wheat is read from another publication than the one that gives the Irish guideline its name.
it("what is asked of the products names the publication that the rate was read in", () => {
  const shingle = metric.fields.find((f) => f.id === "shingle")!;
  const wheat = { ...shingle, plan: shingle.plan.map((p) => ({ ...p, crop: "winterWheat" as const })) };
  const farm = { ...metric, fields: [wheat] };
  const bought = zonePurchase(farm, latestAdvice(farm, wheat, wheat.zones[0]!)!).outcome;
  if (bought?.kind !== "answer") throw new Error("nothing is bought");
  const asked = bought.steps.filter((s) => s.what.endsWith("asked for by Teagasc, as worked above"));
  expect(asked.map((s) => [s.source, s.evidence])).toEqual([
    [{ reference: "ie-trade-requirements" }, "secondary"],
    [{ reference: "ie-trade-requirements" }, "secondary"],
  ]);
});

// Apron has phosphorus above the maintenance limit, 58 of 50 ppm, and is to have 88.4 lb of potash and no phosphate.
it("phosphate that a compound brings to a soil which has enough is told, and not as if nobody had asked", () => {
  const demo = readFarm({ content: join(installation, "content") }).farm!;
  const potash = demo.products.get("potash")!;
  const grade = { ...potash, fertilizer: { ...potash.fertilizer!, name: "6-24-24", analysis: { N: 6, P2O5: 24, K2O: 24 } } };
  const farm = { ...demo, products: new Map([["potash", grade]]) };
  const causeway = farm.fields.find((f) => f.id === "causeway")!;
  const [knoll, apron] = causeway.zones.map((zone) => zoneProducts(farm, latestAdvice(farm, causeway, zone)!).rows.at(-1)!.detail);
  expect(knoll).toContain("supplies 27 lb/ac of N, 107 of P₂O₅ and 107 of K₂O, 54 lb/ac of P₂O₅ more than asked, N not asked for here;");
  expect(apron).toContain("supplies 22 lb/ac of N, 88 of P₂O₅ and 88 of K₂O, 88 lb/ac of P₂O₅ more than is called for, N not asked for here;");
});
