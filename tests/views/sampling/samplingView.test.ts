import { expect, it } from "vitest";
import { installation } from "../../../scripts/options.ts";
import { join } from "node:path";
import { readFarm } from "../../../src/records/reading/readFarm.ts";
import { samplingView } from "../../../src/views/sampling/samplingView.ts";

const demo = readFarm({ content: join(installation, "content") }).farm!;

it("leads to the guidelines that its classes, or their want, are put down to, and to no other of the field's seven", () => {
  const guidelines = (fieldId: string, id: string): string[] => {
    const field = demo.fields.find((f) => f.id === fieldId)!;
    return samplingView(demo, field, field.samplings.find((s) => s.id === id)!).guidelines.map((g) => g.short);
  };
  expect(guidelines("causeway", "2025-10-18")).toEqual(["Tri-State 2020"]);
  expect(guidelines("causeway", "2025-06-11-nitrate")).toEqual(["Iowa late-spring nitrate"]);
});
