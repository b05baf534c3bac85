import { describe, expect, it } from "vitest";
import { planCores, planDepth } from "../../../src/interpretation/sampling/planCores.ts";
import { answer, noAnswer } from "../../../src/interpretation/outcome.ts";
import { samplingAdvice } from "../../../src/interpretation/sampling/samplingAdvice.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";

const last = <T>(value: T) => ({ value, source: { record: { file: "fields/x/samplings/2021-10-12.yaml", line: 9, column: 5 } } });
const cores = (id: string, before?: number): number => answered(planCores("routine", samplingAdvice([pack(id)], { purpose: "routine", tillage: "tilled", extent: "zone" }).cores, before === undefined ? undefined : last(before), undefined)).value;
const silent = samplingAdvice([pack("us-tristate-974-2020")], { purpose: "routine" });

describe("cores in a bag", () => {
  // Each publication's number as its guideline has it: "Cores per composite" of eleven publications.
  it.each([
    ["us-wisconsin-a2100-sampling", 10],
    ["us-minnesota-sampling", 15],
    ["us-pennsylvania-agronomy-guide", 15],
    ["us-ohio-sampling", 10],
    ["us-kansas-sampling", 12],
    ["us-nebraska-sampling", 10],
    ["us-kentucky-agr16-sampling", 10],
    ["us-illinois-sampling", 10],
    ["us-oklahoma-sampling", 15],
    ["us-colorado-sampling", 15],
    ["us-northcarolina-grid-sampling", 15],
  ])("%s: the least it asks for, where nothing was sampled before", (id, least) => expect(cores(id)).toBe(least));

  it.each([
    [18, 18],
    [12, 15],
    [40, 30],
  ])("last time %d, where Minnesota asks for 15 to 30: %d", (before, now) => expect(cores("us-minnesota-sampling", before)).toBe(now));

  it("has no upper end where the guideline prints none", () => expect(cores("us-wisconsin-a2100-sampling", 25)).toBe(25));

  it("is as many as last time where the chosen guidelines are silent, and says so", () => {
    const { value, steps } = answered(planCores("routine", silent.cores, last(15), undefined));
    expect(value).toBe(15);
    expect(steps[0]).toMatchObject({ result: "15 cores", source: { record: { line: 9 } } });
    expect(steps[1]!.note).toMatch(/^Tri-State 2020 says nothing of the number of cores/);
  });

  it("is the upper end of common practice, six to nine, where nobody says one", () => {
    const { value, steps } = answered(planCores("routine", silent.cores, undefined, undefined));
    expect([value, steps[0]!.source]).toEqual([9, "common-practice"]);
  });

  it("is no number for a nitrate test where nobody says one", () => expectRefusal(planCores("nitrate", silent.cores, undefined, undefined), /^Tri-State 2020 says nothing of the number of cores .* and no sampling of this kind is recorded/, "a guideline on the number of cores", "cores"));

  // scipy 1.10.1: CV 10, within 15 and 20 at 0.95 (tests/cases/coresNeeded.yaml).
  it.each([
    [{ cv: 10, error: 10 }, 7],
    [{ cv: 10, error: 15 }, 5],
    [{ cv: 10, error: 20 }, 4],
  ])("by a wanted error, %o: %d", (wanted, n) => expect(answered(planCores("routine", silent.cores, last(15), wanted)).value).toBe(n));

  it("refuses an error nobody can walk for", () => expectRefusal(planCores("routine", silent.cores, undefined, { cv: 50, error: 0.01 }), /cores are wanted for so small an error/, "a larger error allowed"));

  // (1.96 x 50 / 1)^2 = 9,604: no bag holds them.
  it("refuses more than a bag takes", () => expectRefusal(planCores("routine", silent.cores, undefined, { cv: 50, error: 1 }), /^so small an error is met by 9,60\d cores, and one bag takes 200 at most$/, "a larger error allowed"));
});

describe("depth", () => {
  const nobody = noAnswer("how deep sod is sampled differs between places", ["depth"]);
  const eight = { from: 0, to: 8, unit: "in" as const };
  const minnesota = samplingAdvice([pack("us-minnesota-sampling")], { purpose: "routine", tillage: "tilled" }).depth;
  const illinois = samplingAdvice([pack("us-illinois-sampling")], { purpose: "routine" }).depth;
  const iowa = samplingAdvice([pack("us-iowa-nitrate")], { purpose: "nitrate" }).depth;

  it("is as last time, also where the guideline prints a range that holds it", () => {
    expect(answered(planDepth("routine", silent.depth, last(eight), nobody)).value).toEqual(eight);
    const { value, cautions } = answered(planDepth("routine", minnesota, last(eight), nobody));
    expect([value, cautions]).toEqual([eight, []]);
  });

  // Minnesota prints 6 to 8 in: as last time within it, in whatever unit that was recorded, and another depth beyond either end.
  it.each([
    [0, 6, "in", 0],
    [0, 20.32, "cm", 0],
    [0, 15.24, "cm", 0],
    [0, 5, "in", 1],
    [0, 9, "in", 1],
    [1, 8, "in", 1],
  ] as const)("of %d to %d %s last time is another in %i cases", (from, to, unit, another) =>
    expect(answered(planDepth("routine", minnesota, last({ from, to, unit }), nobody)).cautions).toHaveLength(another));

  it("stays as last time where the guideline asks for another, and says so", () => {
    const { value, cautions } = answered(planDepth("routine", illinois, last(eight), nobody));
    expect(value).toEqual(eight);
    expect(cautions).toEqual(["Illinois sampling asks for 0 to 7 in. A change of depth starts a new history."]);
  });

  it("is the guideline's where nothing was sampled before, and always for nitrate", () => {
    expect(answered(planDepth("routine", illinois, undefined, nobody)).value.to).toBe(7);
    const { value, cautions } = answered(planDepth("nitrate", iowa, last(eight), nobody));
    expect(value.to).toBe(12);
    expect(cautions).toEqual(["Last time it was 0 to 8 in deep: the two results cannot be compared, but only this depth fits the nitrate rule."]);
    expect(answered(planDepth("nitrate", iowa, last({ from: 0, to: 30.48, unit: "cm" }), nobody)).cautions).toEqual([]);
  });

  it("is not known where nobody says one", () => expectRefusal(planDepth("routine", silent.depth, undefined, nobody), /^Tri-State 2020 says nothing of the depth .*, no sampling of this kind is recorded, and how deep sod is sampled differs between places$/, "a guideline on the depth", "depth"));

  it("is the usual one where the guidelines are silent and nothing was sampled, and never goes before last time", () => {
    const usual = answer({ from: 0, to: 6, unit: "in" as const }, []);
    expect(answered(planDepth("routine", silent.depth, undefined, usual)).value.to).toBe(6);
    expect(answered(planDepth("routine", silent.depth, last(eight), usual)).value).toEqual(eight);
    expect(answered(planDepth("routine", illinois, undefined, usual)).value.to).toBe(7);
  });
});
