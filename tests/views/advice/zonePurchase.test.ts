import { join } from "node:path";
import { expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { latestAdvice } from "../../../src/views/advice/sample.ts";
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
