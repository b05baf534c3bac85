import { expect, it } from "vitest";
import { samplingAdvice } from "../../../src/interpretation/sampling/samplingAdvice.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, triState } from "../../support/packs.ts";

const forty = { purpose: "routine", area: { value: 40, unit: "acre" }, tillage: "tilled", terrain: "level" } as const;

it("puts each part to the guidelines in order, and each answer names its own", () => {
  const advice = samplingAdvice([triState, pack("us-minnesota-sampling")], forty);
  expect([answered(advice.interval.outcome).value, advice.interval.pack!.id]).toEqual([{ least: 3, most: 4 }, "us-tristate-974-2020"]);
  expect([answered(advice.composites.outcome).value, advice.composites.pack!.id]).toEqual([{ least: 2, most: 2 }, "us-tristate-974-2020"]);
  expect([answered(advice.cores.outcome).value, advice.cores.pack!.id]).toEqual([{ least: 15, most: 30 }, "us-minnesota-sampling"]);
  expect([answered(advice.depth.outcome).value.to, advice.depth.pack!.id]).toEqual([6, "us-minnesota-sampling"]);
});

it("asks only the rules that are for the purpose", () => {
  const advice = samplingAdvice([triState, pack("us-iowa-nitrate")], { purpose: "nitrate", bandedAmmonia: "no" });
  expect(answered(advice.cores.outcome).value).toEqual({ least: 16, most: 24 });
  expectRefusal(samplingAdvice([triState], { purpose: "nitrate" }).cores.outcome, /^none of the chosen guidelines says how many cores to take for nitrate sampling$/, "a guideline on sampling");
});

it("gives the first refusal where none can answer", () => {
  const { outcome, pack: from } = samplingAdvice([triState, pack("us-minnesota-sampling")], { ...forty, tillage: "noTill" }).depth;
  expect(from!.id).toBe("us-tristate-974-2020");
  expectRefusal(outcome, /^Tri-State 2020 says nothing of the depth for routine sampling$/, "a guideline on the depth");
});
