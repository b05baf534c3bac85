import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { followed } from "../../src/views/issued/followed.ts";
import { replay } from "../../src/views/issued/replay.ts";
import { readFarm } from "../../src/records/reading/readFarm.ts";

/** The demo keeps two pieces of advice, issued from its records as they stood on those days: with the plan and the prices of then. */
const { farm } = readFarm({ content: fileURLToPath(new URL("../../content", import.meta.url)) });
const kept = (field: string) => {
  const found = farm!.fields.find((f) => f.id === field)!;
  const [frozen] = found.recommendations;
  if (!frozen) throw new Error(`${field} keeps no advice`);
  return { zones: replay(frozen, farm!), done: followed(frozen, farm!, found), record: frozen.record };
};

describe("the advice that the demo keeps", () => {
  it("is two pieces, of two fields", () => {
    expect(farm!.fields.flatMap((f) => f.recommendations.map((r) => r.file))).toEqual(["fields/causeway/recommendations/2020-11-05.yaml", "fields/saltings/recommendations/2019-07-25.yaml"]);
  });

  it("Causeway's rested on a result that was corrected two weeks later", () => {
    const { zones, record } = kept("causeway");
    // 212 was over the maintenance limit of 170 ppm, so no potash was advised; 122 is not.
    const then = record.zones[0]!.answers.find((a) => a.question === "k2o")!;
    expect(then.figures!["value"]).toBe(0);
    const potash = zones[0]!.differences.find((d) => d.question === "k2o")!;
    expect(potash.then).toMatch(/^0 lb\/ac /);
    expect(potash.now).not.toMatch(/^0 lb\/ac /);
    expect(potash.because[0]).toBe("the result of potassium was corrected on 19 November 2020 from 212 ppm to 122 ppm: the laboratory reissued its report; two digits had been transposed");
    expect(zones[0]!.changes.filter((c) => c.startsWith("the price of"))).toHaveLength(4);
  });

  it("Saltings' was for the seeding, and what was spread for it stands in the seasons", () => {
    const { done } = kept("saltings");
    const [west, east] = done;
    expect(west!.period).toBe("From 25 July 2019 to the next sampling, 20 October 2020. Harvested in that time: alfalfa 2020.");
    // 195 lb of triple superphosphate at 46 %: 89.7; 250 lb of muriate at 60 %: 150.
    expect(east!.rows.find((r) => r.subject.startsWith("Phosphate"))!.applied).toBe("90 lb/ac");
    expect(east!.rows.find((r) => r.subject.startsWith("Potash"))!.applied).toBe("150 lb/ac");
    expect(west!.rows[0]).toMatchObject({ subject: "Lime", applied: "1.5 ton/ac", next: { text: "Soil pH 6.2 then; 6.6 on 20 October 2020 (+0.4)", change: 0.4 } });
    expect(east!.rows[0]).toMatchObject({ applied: "0 ton/ac", verdict: "followed: none was called for, and none applied" });
  });
});
