import { describe, expect, it } from "vitest";
import * as z from "zod";
import type { LimePlace } from "../../src/interpretation/lime.ts";
import { limeAdvice } from "../../src/interpretation/lime.ts";
import { meanOfBags } from "../../src/interpretation/measurement.ts";
import { lengthUnits } from "../../src/interpretation/units.ts";
import { cropIds } from "../../src/interpretation/vocabulary.ts";
import { published, readCases, toleranceOf } from "../support/cases.ts";
import { farmFile, fieldFile, limePlace, limestone, ownTarget } from "../support/limePlace.ts";
import { measured } from "../support/measured.ts";
import { answered, expectRefusal } from "../support/outcomes.ts";
import { iowa, oregon, pack, packOf, ruleNamed, triState } from "../support/packs.ts";

const input = z.strictObject({
  crop: z.enum(cropIds).default("corn"),
  subsoilPh: z.number().default(6.5),
  pH: z.number(),
  buffer: z.enum(["sikora", "smp"]),
  bufferPh: z.number(),
  own: z.number().optional(),
  depth: z.number(),
  limeDepth: z.number().optional(),
  depthUnit: z.enum(lengthUnits).default("in"),
  incorporated: z.boolean(),
  stated: z.partialRecord(z.enum(["limeScore", "ecce", "cce"]), z.number()).default({}),
  analysis: z.strictObject({ cce: z.number(), moisture: z.number(), passing: z.record(z.string(), z.number()) }).optional(),
  pricePerTon: z.number().optional(),
});

const { rules, cases } = readCases(
  "lime.yaml",
  published.extend({
    packs: z.array(z.string()).min(1),
    table: z.string().optional(),
    input,
    expect: z.union([
      z.strictObject({ none: z.literal(true) }),
      z.strictObject({
        requirement: z.number().optional(),
        rate: z.number(),
        applications: z.array(z.number()).optional(),
        costPerAcre: z.number().optional(),
      }),
    ]),
  }),
);
type LimeCase = (typeof cases)[number];

const placeOf = (c: LimeCase): LimePlace => {
  const { crop, subsoilPh, pH, buffer, bufferPh, own, depth, limeDepth, depthUnit: unit, incorporated, stated, analysis, pricePerTon } = c.input;
  const sampled = { depth: { from: 0, to: depth, unit } };
  return {
    facts: { crop, subsoilPh },
    packs: [...c.packs.map(pack), ...(c.table === undefined ? [] : [packOf(ruleNamed(c.table, rules, "bufferTable"))])],
    pH: measured("pH", pH, sampled),
    buffers: [measured("bufferPh", bufferPh, { ...sampled, method: buffer })],
    depth: limeDepth === undefined ? undefined : { value: limeDepth, unit, source: fieldFile },
    own: own === undefined ? undefined : ownTarget(own),
    incorporated,
    materials: [
      {
        id: "lime",
        name: "lime",
        stated: Object.fromEntries(Object.entries(stated).map(([index, value]) => [index, { value, source: farmFile }])),
        analysis: analysis && { ...analysis, source: farmFile },
        pricePerTon,
      },
    ],
  };
};

describe("the walk of a lime rate, from published tables and formulas", () => {
  it.each(cases)("$case", (c) => {
    const { needed, rates } = limeAdvice(placeOf(c));
    if ("none" in c.expect) return expect([answered(needed).value, rates]).toEqual(["none", []]);
    const near = (got: number | undefined, wanted: number) => expect(Math.abs(got! - wanted)).toBeLessThanOrEqual(toleranceOf(c));
    const requirement = answered(needed).value;
    if (requirement === "none") return expect.unreachable("no lime, where some is due");
    if (c.expect.requirement !== undefined) near(requirement.requirement.value, c.expect.requirement);
    expect(rates).toHaveLength(1);
    const { rate, applications, costPerAcre } = answered(rates[0]!.outcome).value;
    near(rate.value, c.expect.rate);
    if (c.expect.applications) {
      expect(applications).toHaveLength(c.expect.applications.length);
      c.expect.applications.forEach((part, i) => near(applications[i]!.value, part));
    }
    if (c.expect.costPerAcre !== undefined) near(costPerAcre, c.expect.costPerAcre);
    return undefined;
  });
});

describe("refusals", () => {
  const needed = (change: Partial<LimePlace>) => limeAdvice({ ...limePlace, ...change }).needed;
  const rate = (change: Partial<LimePlace>) => limeAdvice({ ...limePlace, ...change }).rates[0]!.outcome;

  it("no soil pH", () => expectRefusal(needed({ pH: undefined }), /soil pH was not tested/, "pH"));

  it("a soil pH that is only a bound", () =>
    expectRefusal(needed({ pH: measured("pH", 5.0, { qualifier: "<" }) }), /the laboratory says pH < 5.0, and the decision needs a number/, "pH as a number"));

  it("a soil pH in another medium", () =>
    expectRefusal(needed({ pH: measured("pH", 5.6, { method: "calciumChloride" }) }), /soil pH was measured in 0.01 M calcium chloride, and the chosen guidelines read another medium/, "a target pH for this medium"));

  it("no guideline that says when to lime", () => expectRefusal(needed({ packs: [oregon] }), /none of the chosen guidelines says when to lime/, "a target pH for this medium"));

  it("no subsoil pH", () => expectRefusal(needed({ facts: { crop: "corn" } }), /the subsoil pH is not known, and Tri-State 2020 sets the target by it/, "subsoilPh"));

  it("no target, where the guideline says only when", () =>
    expectRefusal(needed({ own: undefined }), /soil pH 5.6 is below 6.0, but the guideline says when to lime and not how far; set targetPh for the field/, "targetPh"));

  it("no lime table", () => expectRefusal(needed({ packs: [triState] }), /none of the chosen guidelines holds a lime table/, "a lime table"));

  it("no buffer", () => expectRefusal(needed({ buffers: [] }), /buffer pH was not measured; soil pH says whether to lime, buffer pH says how much/, "bufferPh"));

  it("another buffer", () =>
    expectRefusal(
      needed({ buffers: [measured("bufferPh", 5.8, { method: "mehlichBuffer" })] }),
      /the buffer used was the Mehlich buffer, and the lime tables chosen read the Sikora buffer; a buffer pH is never read in another buffer's table/,
      "bufferPh by the Sikora buffer",
    ));

  it("a buffer pH that is only a bound", () =>
    expectRefusal(needed({ buffers: [measured("bufferPh", 6.9, { method: "sikora", qualifier: ">" })] }), /the laboratory says buffer pH > 6.90, and the table needs a number/, "bufferPh as a number"));

  it("a buffer outside the table", () =>
    expectRefusal(needed({ buffers: [measured("bufferPh", 7.1, { method: "sikora" })] }), /the buffer pH 7.1 is outside the table of Oregon 2025/, "a table for buffer pH 7.1"));

  it("a target above the highest column", () =>
    expectRefusal(needed({ own: ownTarget(7.3) }), /the target pH 7.3 is above the highest that Oregon 2025 prints, 7.2/, "targetPh"));

  it("a material whose worth is known in another measure only", () =>
    expectRefusal(
      rate({ materials: [{ id: "river-lime", name: "river lime", stated: { cce: { value: 95, source: farmFile } } }] }),
      /the table counts in lime score, which is not known for river lime; other measures of lime are not the same thing/,
      "limeScore of river-lime",
    ));

  it("a material whose sieves do not reach the rule's screens", () =>
    expectRefusal(
      rate({
        packs: [triState, iowa],
        buffers: [measured("bufferPh", 6.4)],
        own: ownTarget(6.5),
        materials: [{ id: "river-lime", name: "river lime", stated: {}, analysis: { cce: 90, moisture: 1, passing: { "8": 90 }, source: farmFile } }],
      }),
      /the share passing 4 mesh and 60 mesh is not known/,
      "passing 4 mesh",
      "passing 60 mesh",
    ));

  it("a material that is worth nothing", () =>
    expectRefusal(rate({ materials: [{ ...limestone, stated: { limeScore: { value: 0, source: farmFile } } }] }), /quarry lime is worth nothing by this measure/, "limeScore of quarry-lime"));
});

describe("limeAdvice", () => {
  it("reads the buffer that a chosen guideline has a table for, among several", () => {
    const both = [measured("bufferPh", 6.6), measured("bufferPh", 6.0, { method: "sikora" })];
    const { value } = answered(limeAdvice({ ...limePlace, buffers: both, depth: { value: 6, unit: "in", source: fieldFile } }).needed);
    expect(value).toMatchObject({ requirement: { value: 3.5, unit: "ton/ac" }, target: 6.4, pack: { id: "us-oregon-lime-2025" } });
  });

  it("gives one outcome for each material, an answer or why not", () => {
    const { rates } = limeAdvice({ ...limePlace, materials: [limestone, { id: "river-lime", name: "river lime", stated: {} }] });
    expect(rates.map((r) => [r.material.id, r.outcome.kind])).toEqual([
      ["quarry-lime", "answer"],
      ["river-lime", "noAnswer"],
    ]);
  });

  it("reads three bags on the first row as on it, whatever the computer makes of their sum", () => {
    const bag = measured("bufferPh", 6.9, { method: "sikora" });
    expect((6.9 + 6.9 + 6.9) / 3).not.toBe(6.9);
    const { value } = answered(limeAdvice({ ...limePlace, buffers: [meanOfBags([bag, bag, bag])], depth: { value: 6, unit: "in", source: fieldFile } }).needed);
    expect(value).toMatchObject({ requirement: { value: 0.5, unit: "ton/ac" } });
  });
});
