import { describe, expect, it } from "vitest";
import { usualDepth } from "../../../src/interpretation/sampling/usualDepth.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";

const place = (ids: readonly string[], crop?: "corn" | "grassPasture", sod = false) => ({ packs: ids.map(pack), crop, sod });

describe("the depth of a first sampling, where no guideline says", () => {
  // The depth in each guideline's own limits; Iowa's was read on its contents page and the Irish one on the sampling page, Tri-State's is recalled.
  it.each([
    ["us-tristate-974-2020", 8, "in", "memory"],
    ["us-iowa-pm1688-2013", 6, "in", "read"],
    ["ie-teagasc", 10, "cm", "read"],
  ] as const)("%s: as deep as it reads phosphorus and potassium, %d %s", (id, to, unit, evidence) => {
    const { value, steps } = answered(usualDepth("routine", place([id])));
    expect(value).toEqual({ from: 0, to, unit });
    expect(steps[0]).toMatchObject({ evidence });
  });

  it("is that of the first guideline that has one, and goes for a pH check too", () => {
    expect(answered(usualDepth("phCheck", place(["us-oregon-lime-2025", "us-iowa-pm1688-2013", "us-tristate-974-2020"], "corn"))).value.to).toBe(6);
  });

  it("is not guessed where one guideline has two: RB209 reads grass from 7.5 cm and arable from 15", () => {
    expectRefusal(usualDepth("routine", place(["uk-rb209-2010"])), /^RB209.* reads results from 0 to 15 cm and from 0 to 7\.5 cm, by what is grown$/, "depth");
  });

  it("is common practice for a crop that none of them reads for, but not under sod", () => {
    const { value, steps } = answered(usualDepth("routine", place(["us-tristate-974-2020"], "grassPasture")));
    expect([value, steps[0]!.source]).toEqual([{ from: 0, to: 6, toMost: 9, unit: "in" }, "common-practice"]);
    expectRefusal(usualDepth("routine", place(["us-tristate-974-2020"], "grassPasture", true)), /^how deep sod is sampled differs between places$/, "depth");
  });

  it("is the top foot for the June nitrate test, whatever phosphorus is read at", () => {
    expect(answered(usualDepth("nitrate", place(["us-tristate-974-2020"], "corn", true))).value).toEqual({ from: 0, to: 12, unit: "in" });
  });
});
