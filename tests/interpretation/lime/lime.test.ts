import { describe, expect, it } from "vitest";
import { limeCheck } from "../../../src/interpretation/checks/limeCheck.ts";
import { limeAdvice } from "../../../src/interpretation/lime/lime.ts";
import type { Measurement } from "../../../src/interpretation/measurement.ts";
import { meanOfBags } from "../../../src/interpretation/measurement.ts";
import { checkedAsPublished } from "../../support/cases.ts";
import { farmFile, fieldFile, limePlace, limestone, ownTarget } from "../../support/limePlace.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { iowa, oregon, pack, triState } from "../../support/packs.ts";
import { recompute } from "../../support/recompute.ts";
import type { LimePlace } from "../../../src/interpretation/lime/limePlace.ts";

describe("the walk of a lime rate, from published tables and formulas", () => {
  checkedAsPublished(limeCheck);
});

describe("refusals", () => {
  const needed = (change: Partial<LimePlace>) => limeAdvice({ ...limePlace, ...change }).needed;
  const rate = (change: Partial<LimePlace>) => limeAdvice({ ...limePlace, ...change }).rates[0]!.outcome;

  it("no soil pH", () => expectRefusal(needed({ pH: undefined }), /soil pH was not tested/, "pH"));

  it("a soil pH that is only a bound", () =>
    expectRefusal(needed({ pH: measured("pH", 5.0, { qualifier: "<" }) }), /the laboratory says pH < 5.0, and the decision needs a number/, "pH as a number"));

  it("a soil pH in another medium", () =>
    expectRefusal(needed({ pH: measured("pH", 5.6, { method: "calciumChloride" }) }), /soil pH was measured in 0.01 M calcium chloride, and Tri-State 2020 reads it in 1:1 water/, "a soil pH measured as the guideline reads it"));

  it("no guideline that says when to lime, and no target of the field's own, which is one in water", () => {
    expectRefusal(needed({ packs: [oregon], own: undefined }), /none of the chosen guidelines says when to lime/, "a guideline that says when to lime, or targetPh in field.yaml");
    expectRefusal(needed({ packs: [oregon], pH: measured("pH", 5.6, { method: "calciumChloride" }) }), /none of the chosen guidelines says when to lime/, "a guideline that says when to lime");
  });

  it("no subsoil pH", () => expectRefusal(needed({ facts: { crop: "corn" }, pH: measured("pH", 6.1) }), /the subsoil pH is not known, and Tri-State 2020 sets the target by it/, "subsoilPh"));

  it("no target, where the guideline says only when", () =>
    expectRefusal(needed({ own: undefined }), /soil pH 5.6 is below 6.0, but the guideline says when to lime and not how far; set targetPh for the field/, "targetPh"));

  it("a fact by which the guideline chosen first would set the target, before a target of the field's own (North Carolina sets it by the class of the soil)", () => {
    const inTurn = (...packs: string[]) => needed({ own: undefined, packs: packs.map(pack) });
    expectRefusal(inTurn("us-northcarolina-circular1-2014", triState.id), /^the soil class is not known, and North Carolina 2014 sets the target by it$/, "soilClass");
    expectRefusal(inTurn(triState.id, "us-northcarolina-circular1-2014"), /says when to lime and not how far/, "targetPh");
  });

  it("no lime table", () => expectRefusal(needed({ packs: [triState] }), /^Tri-State 2020 holds no lime table$/, "a lime table"));

  it("no buffer", () => expectRefusal(needed({ buffers: [] }), /buffer pH was not measured; soil pH says whether to lime, buffer pH says how much/, "bufferPh"));

  it("another buffer", () =>
    expectRefusal(
      needed({ buffers: [measured("bufferPh", 5.8, { method: "mehlichBuffer" })] }),
      /the buffer used was the Mehlich buffer, and Oregon 2025 reads the Sikora buffer; a buffer pH is never read in another buffer's table/,
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

describe("refusals of the other kinds of rule", () => {
  const acidity = (value: number, over: Partial<Measurement> = {}) => measured("exchangeableAcidity", value, { method: "mehlichBuffer", ...over });
  const carolinaPlace: LimePlace = {
    ...limePlace,
    packs: [pack("us-northcarolina-circular1-2014")],
    facts: { crop: "deerTurkeyFoodPlot", soilClass: "mineral" },
    pH: measured("pH", 5.2),
    buffers: [measured("bufferPh", 6.2, { method: "mehlichBuffer" })],
    own: undefined,
    depth: undefined,
    materials: [{ id: "ag-lime", name: "ag lime", stated: { cce: { value: 90, source: farmFile } } }],
  };
  const pennPlace: LimePlace = { ...carolinaPlace, packs: [pack("us-pennsylvania-agronomy-guide")], facts: { crop: "corn" }, acidities: [acidity(5)] };
  const vermontPlace: LimePlace = { ...carolinaPlace, packs: [pack("us-vermont-lime")], facts: { crop: "corn" }, pH: measured("pH", 5.8, { method: "water1to2" }), aluminums: [measured("Al", 60, { method: "modifiedMorgan" })] };
  const carolina = (change: Partial<LimePlace>) => limeAdvice({ ...carolinaPlace, ...change });
  const penn = (change: Partial<LimePlace>) => limeAdvice({ ...pennPlace, ...change });
  const vermont = (change: Partial<LimePlace>) => limeAdvice({ ...vermontPlace, ...change });

  it("has an answer where everything is known", () => {
    expect(answered(carolina({}).needed).value).toMatchObject({ requirement: { unit: "ton/ac" }, target: 6 });
    expect(answered(penn({}).needed).value).toMatchObject({ requirement: { value: 4800, unit: "lb/ac" }, target: 6.5 });
    expect(answered(vermont({}).needed).value).toMatchObject({ requirement: { value: 2, unit: "ton/ac" }, target: 6.5 });
  });

  it("no soil class, where the target depends on it", () =>
    expectRefusal(carolina({ facts: { crop: "deerTurkeyFoodPlot" } }).needed, /the soil class is not known, and North Carolina 2014 sets the target by it/, "soilClass"));

  it("no soil class, where the field sets the target and earlier lime still counts", () =>
    expectRefusal(
      carolina({ facts: { crop: "corn" }, packs: [iowa, pack("us-northcarolina-circular1-2014")], own: ownTarget(6.0), earlierLime: [{ rate: 1, months: 4, source: farmFile }] }).needed,
      /the soil class is not known/,
      "soilClass",
    ));

  it("a soil pH of 6.6, for a target that a field sets higher", () =>
    expectRefusal(carolina({ pH: measured("pH", 6.6), own: ownTarget(7.0) }).needed, /soil pH 6.6 is not below 6.6, where the formula of North Carolina 2014 ends/, "a lime formula for soil pH 6.6"));

  it("another buffer than Mehlich's", () =>
    expectRefusal(
      carolina({ buffers: [measured("bufferPh", 6.4, { method: "smp" })] }).needed,
      /the buffer used was the SMP buffer, and North Carolina 2014 reads the Mehlich buffer; a buffer pH is never read in another buffer's table/,
      "bufferPh by the Mehlich buffer",
    ));

  it("an acidity by weight is not read for one by volume", () =>
    expectRefusal(carolina({ buffers: [], acidities: [acidity(1.6)] }).needed, /buffer pH was not measured/, "bufferPh"));

  it("no exchangeable acidity", () =>
    expectRefusal(penn({ acidities: [] }).needed, /exchangeable acidity was not tested, and Penn State sets the lime rate by it/, "exchangeableAcidity"));

  it("an acidity by volume where the rule reads one by weight", () =>
    expectRefusal(
      penn({ acidities: [acidity(5, { unit: "meq/100 cm3" })] }).needed,
      /exchangeable acidity was measured by Mehlich buffer in meq\/100 cm3, and Penn State reads it by Mehlich buffer in meq\/100 g/,
      "exchangeableAcidity by Mehlich buffer in meq/100 g",
    ));

  it("an acidity that is only a bound", () =>
    expectRefusal(penn({ acidities: [acidity(1, { qualifier: "<" })] }).needed, /the laboratory says exchangeable acidity < 1.0 meq\/100 g, and the rule needs a number/, "exchangeableAcidity as a number"));

  it("no aluminum", () => expectRefusal(vermont({ aluminums: [] }).needed, /aluminum was not tested, and Vermont sets the lime rate by it/, "Al"));

  it("aluminum by another extract", () =>
    expectRefusal(vermont({ aluminums: [measured("Al", 900)] }).needed, /aluminum was measured by Mehlich-3 in ppm, and Vermont reads it by modified Morgan in ppm/, "Al by modified Morgan in ppm"));

  it("an aluminum that is only a bound", () =>
    expectRefusal(vermont({ aluminums: [measured("Al", 5, { method: "modifiedMorgan", qualifier: "<" })] }).needed, /the laboratory says aluminum < 5 ppm, and the table needs a number/, "Al as a number"));

  it("a target that the field sets otherwise than the table's own", () =>
    expectRefusal(vermont({ own: ownTarget(6.8) }).needed, /the table of Vermont is for target pH 6.5 alone, and the target is 6.8/, "targetPh"));

  it("a soil pH in another medium than the table's", () =>
    expectRefusal(vermont({ pH: measured("pH", 5.8) }).needed, /soil pH was measured in 1:1 water, and Vermont reads it in 1:2 water/, "pH in 1:2 water"));

  it("a material, where the publication does not say of what quality its rates are", () =>
    expectRefusal(vermont({}).rates[0]!.outcome, /Vermont does not say of what quality of lime its rates are, so they cannot be turned into tons of ag lime/, "the quality of lime that Vermont means"));

  it("a material whose worth is known in another index than the rule's", () =>
    expectRefusal(
      carolina({ materials: [{ id: "ag-lime", name: "ag lime", stated: { enmMissouri: { value: 500, source: farmFile } } }] }).rates[0]!.outcome,
      /the table counts in CCE \(calcium carbonate equivalent\), which is not known for ag lime; other measures of lime are not the same thing/,
      "cce of ag-lime",
    ));
});

describe("a target that the field itself sets", () => {
  const place = (change: Partial<LimePlace>) => limeAdvice({ ...limePlace, ...change }).needed;
  it("says when to lime a crop that no chosen guideline has a word for", () => {
    const pasture: Partial<LimePlace> = { facts: { crop: "grassPasture", subsoilPh: 6.5 }, own: ownTarget(6.4) };
    const { value, steps } = answered(place(pasture));
    expect(value).toMatchObject({ target: 6.4, pack: { id: "us-oregon-lime-2025" } });
    expect(steps[1]!.note).toMatch(/no chosen guideline has a word for this crop/);
    expect(answered(place({ ...pasture, pH: measured("pH", 6.4) })).value).toBe("none");
    expectRefusal(place({ ...pasture, own: undefined }), /Tri-State 2020 gives no target pH for grass pasture/, "targetPh");
  });
  it("says when to lime where no chosen guideline does", () => {
    const { value, steps } = answered(place({ packs: [oregon] }));
    expect(value).toEqual(answered(place({})).value);
    expect(steps[1]!.note).toBe("no chosen guideline says when to lime, so lime is called for below the target of the field itself");
    expect(answered(place({ packs: [oregon], pH: measured("pH", 6.4) })).value).toBe("none");
  });
  // Grass for seed is no crop of these records: README has such a field name none, and its owner set the target for what grows there.
  it("says when to lime where no crop is named", () => {
    const unnamed: Partial<LimePlace> = { facts: {}, packs: [pack("us-oregon-west-lime-minimum"), oregon], own: ownTarget(6.4) };
    const { value, steps } = answered(place(unnamed));
    expect(value).toMatchObject({ target: 6.4, pack: { id: "us-oregon-lime-2025" } });
    expect(steps[1]!.note).toBe("no crop is named, and the guidelines say by crop when to lime, so lime is called for below the target of the field itself");
    expectRefusal(place({ ...unnamed, own: undefined }), /the crop is not known, and western Oregon 2013 sets the target by it/, "crop");
  });
  it("but never stands in for a fact that a guideline asks for", () => expectRefusal(place({ facts: { crop: "corn" }, own: ownTarget(6.4), pH: measured("pH", 6.1) }), /the subsoil pH is not known/, "subsoilPh"));
});

// "The soil pH in fields typically is below 5.5 (2:1 soil water), the value at which lime is recommended": Hart, an author of EM 9057, and Mellbye, of
// annual ryegrass seed in western Oregon, International Herbage Seed Group, 2010. EM 9057 itself names no medium in the copy that was read.
it.each(["water1to1", "water1to2"] as const)("western Oregon's least pH is read by pH in %s", (method) => {
  const place: LimePlace = { ...limePlace, packs: [pack("us-oregon-west-lime-minimum"), oregon], facts: { crop: "cornSilage" }, own: ownTarget(6.4), pH: measured("pH", 5.4, { method }) };
  expect(answered(limeAdvice(place).needed).value).toMatchObject({ target: 6.4, pack: { id: "us-oregon-lime-2025" } });
  expect(answered(limeAdvice({ ...place, pH: measured("pH", 5.5, { method }) }).needed).value).toBe("none");
});

describe("a fact that is not known and makes no difference", () => {
  const over = (value: number, subsoilPh?: number) => answered(limeAdvice({ ...limePlace, facts: { crop: "corn", ...(subsoilPh && { subsoilPh }) }, pH: measured("pH", value) }).needed);
  it("is no hindrance below every trigger, nor where none is reached", () => {
    expect(over(5.6).value).toEqual(over(5.6, 5.5).value);
    expect(over(5.6).steps).toContainEqual({ what: "Subsoil pH", result: "not known", note: "it makes no difference: soil of pH 5.6 is below every pH at which to lime" });
    expect(over(6.2).value).toBe("none");
    expect(over(6.2).steps.map((s) => s.note)).toContain("it makes no difference: soil of pH 6.2 is not below any pH at which to lime");
  });
  it("does not let another rule of the guideline lime grass that no soil there would have limed", () => {
    const grass: LimePlace = { ...limePlace, packs: [pack("uk-rb209-2010")], facts: { crop: "grassPasture" }, own: undefined, pH: measured("pH", 6.2, { method: "water1to2half" }), buffers: [] };
    expect(answered(limeAdvice(grass).needed).value).toBe("none");
  });
});

describe("the order of the packs", () => {
  it("a rule that holds its own target answers where no trigger and table do", () => {
    const place = { ...limePlace, packs: [triState, pack("us-vermont-lime")], facts: { crop: "corn" as const }, own: undefined, pH: measured("pH", 5.8, { method: "water1to2" }), aluminums: [measured("Al", 60, { method: "modifiedMorgan" })] };
    expect(answered(limeAdvice(place).needed).value).toMatchObject({ requirement: { value: 2 }, pack: { id: "us-vermont-lime" } });
  });

  it("asks the first guideline first, whether it says when to lime or holds its own target", () => {
    const inVermontsWater = { ...triState, sections: triState.sections.map((s) => (s.kind === "targetPh" ? { ...s, method: "water1to2" as const } : s)) };
    const by = (...packs: LimePlace["packs"]) => answered(limeAdvice({ ...limePlace, packs, facts: { crop: "corn", subsoilPh: 6.5 }, own: ownTarget(6.5), pH: measured("pH", 5.8, { method: "water1to2" }), aluminums: [measured("Al", 60, { method: "modifiedMorgan" })] }).needed).value;
    const vermont = pack("us-vermont-lime");
    expect(by(vermont, inVermontsWater, oregon)).toMatchObject({ pack: { id: "us-vermont-lime" } });
    expect(by(inVermontsWater, vermont, oregon)).toMatchObject({ pack: { id: "us-oregon-lime-2025" } });
    expect(by(inVermontsWater, oregon, vermont)).toMatchObject({ pack: { id: "us-oregon-lime-2025" } });
  });

  it("takes the next buffer's table where the first has no answer", () => {
    const buffers = [measured("bufferPh", 7.2, { method: "sikora" }), measured("bufferPh", 6.4)];
    expect(answered(limeAdvice({ ...limePlace, packs: [triState, oregon, iowa], own: ownTarget(6.5), buffers }).needed).value).toMatchObject({ pack: { id: "us-iowa-lime-2002" } });
    expectRefusal(limeAdvice({ ...limePlace, packs: [triState, oregon, iowa], own: ownTarget(6.5), buffers: buffers.slice(0, 1) }).needed, /the buffer pH 7.2 is outside the table of Oregon 2025/, "a table for buffer pH 7.2");
  });

  it("gives the dose of a country that counts in CaO, with its cap", () => {
    const place: LimePlace = {
      ...limePlace,
      packs: [pack("pl-iung-lime")],
      facts: { soilCategory: "light" },
      own: undefined,
      depth: undefined,
      pH: measured("pH", 4.4, { method: "potassiumChloridePh" }),
      materials: [{ id: "wapno", name: "wapno", stated: { calciumOxide: { value: 50, source: farmFile } } }],
    };
    const { needed, rates } = limeAdvice(place);
    expect(answered(needed).value).toMatchObject({ requirement: { value: 3.5, unit: "t/ha" }, target: undefined });
    const { rate, applications, then } = answered(rates[0]!.outcome).value;
    expect(rate.value).toBeCloseTo(7 / 2.2417, 3);
    expect(applications).toHaveLength(2);
    expect(then).toMatch(/spread the rest after a new test a year later/);
    expect(answered(limeAdvice({ ...place, pH: measured("pH", 5.4, { method: "potassiumChloridePh" }) }).rates[0]!.outcome).value).toMatchObject({ applications: { length: 1 }, then: undefined });
    expect(answered(rates[0]!.outcome).steps.slice(-2)).toMatchObject([
      { what: "What it takes of wapno", expression: "3.5 × 100 ÷ 50", result: "7 t/ha" },
      { what: "Most to work in at one time", result: "2 applications of 3.5 t/ha" },
    ]);
  });

  it("scales the rate of a country that states its depth only where the record sets one", () => {
    const place: LimePlace = { ...limePlace, packs: [pack("uk-rb209-2010")], facts: { crop: "oats" }, own: undefined, depth: undefined, pH: measured("pH", 5.7, { method: "water1to2half", depth: { from: 0, to: 15, unit: "cm" } }), materials: [] };
    expect(answered(limeAdvice(place).needed).value).toMatchObject({ requirement: { value: 6, unit: "t/ha" } });
    expect(answered(limeAdvice({ ...place, depth: { value: 10, unit: "cm", source: fieldFile } }).needed).value).toMatchObject({ requirement: { unit: "t/ha" } });
    const shallow = answered(limeAdvice({ ...place, depth: { value: 10, unit: "cm", source: fieldFile } }).needed).value;
    if (shallow !== "none") expect(shallow.requirement.value).toBeCloseTo(3, 9);
  });
});

it("a rate that is scaled to another depth is known no better than derived, and no better than it was", () => {
  const known = (evidence: "read" | "memory") => {
    const graded = { ...oregon, sections: oregon.sections.map((s) => (s.kind === "bufferTable" ? { ...s, depth: { ...s.depth, evidence } } : s)) };
    return answered(limeAdvice({ ...limePlace, packs: [triState, graded] }).needed).steps.find((s) => s.what.startsWith("The table is for"))!.evidence;
  };
  expect([known("read"), known("memory")]).toEqual(["derived", "memory"]);
});

describe("lime that holds water", () => {
  it("takes more tons by its water, and every line of the sum comes to the result beside it", () => {
    const inNebraskasIndex = { ...oregon, sections: oregon.sections.map((s) => (s.kind === "bufferTable" ? { ...s, material: { ...s.material, index: "eccNebraska" as const } } : s)) };
    const holding = (moisture: number) => answered(limeAdvice({ ...limePlace, packs: [triState, inNebraskasIndex, pack("us-nebraska-lime-quality")], materials: [{ id: "wet", name: "wet lime", stated: {}, analysis: { cce: 100, moisture, passing: { "8": 90, "50": 50 }, source: farmFile } }] }).rates[0]!.outcome);
    const { value, steps } = holding(20);
    expect(value.rate.value).toBeCloseTo(holding(0).value.rate.value / 0.8, 9);
    const sums = steps.flatMap((step) => recompute(step) ?? []);
    expect(sums.length).toBeGreaterThan(2);
    for (const { computed, printed, within } of sums) expect(Math.abs(computed - printed)).toBeLessThanOrEqual(within);
  });
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

  it("costs what the tons cost at the material's price, and is of no known cost without one", () => {
    const unpriced = { ...limestone, pricePerTon: undefined };
    const [priced, other] = limeAdvice({ ...limePlace, materials: [limestone, unpriced] }).rates.map((r) => answered(r.outcome).value);
    expect(priced!.costPerAcre).toBeCloseTo(priced!.rate.value * 24, 9);
    expect(other).toMatchObject({ rate: priced!.rate, costPerAcre: undefined });
  });

  it("reads three bags on the first row as on it, whatever the computer makes of their sum", () => {
    const bag = measured("bufferPh", 6.9, { method: "sikora" });
    expect((6.9 + 6.9 + 6.9) / 3).not.toBe(6.9);
    const { value } = answered(limeAdvice({ ...limePlace, buffers: [meanOfBags([bag, bag, bag])], depth: { value: 6, unit: "in", source: fieldFile } }).needed);
    expect(value).toMatchObject({ requirement: { value: 0.5, unit: "ton/ac" } });
  });
});
