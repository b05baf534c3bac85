import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sectionsOf } from "../../../src/interpretation/guideline.ts";
import { changeBetween, edgesWithinNoise } from "../../../src/interpretation/statistics/change.ts";
import { noiseOf, sdAt } from "../../../src/interpretation/statistics/noise.ts";
import { pooledDuplicates } from "../../../src/interpretation/statistics/ownDuplicates.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";
import { always, between } from "../../support/repeatable.ts";

const rules = sectionsOf(pack("soil-variability"), "noise");
const phosphorus = { analyte: "P", method: "mehlich3" } as const;
const soilPh = { analyte: "pH", method: "water1to1" } as const;

describe("the farm's own duplicates", () => {
  // By hand: differences 2, 4 and 2 about means of 20, 20 and 40: percent 10, 20 and 5; (100 + 400 + 25) / 6 = 87.5.
  const three = [[19, 21], [18, 22], [39, 41]];

  it("are pooled as half the mean square of the differences, in percent of their means", () => expect(pooledDuplicates(three, "percent")).toMatchObject({ value: expect.closeTo(Math.sqrt(87.5), 10) as number, pairs: 3 }));

  it("of pH are pooled in units", () => expect(pooledDuplicates([[6, 6.2], [6.4, 6.4], [5.9, 6]], "units")!.value).toBeCloseTo(Math.sqrt((0.04 + 0 + 0.01) / 6), 10));

  it("replace the published figures from three pairs on, and the answer says which it used", () => {
    const [two, own] = [three.slice(0, 2), three].map((duplicates) => answered(noiseOf({ ...phosphorus, cores: 15, duplicates }, rules)));
    expect(two!.value.from).toBe("cores and laboratory");
    expect(two!.steps.at(-1)).toMatchObject({ what: "The farm's own duplicates are not used", result: "2 pairs", note: "3 are needed" });
    expect(own!.value).toMatchObject({ from: "own duplicates", pairs: 3 });
    expect(sdAt(own!.value, 20)).toBeCloseTo(20 * Math.sqrt(87.5) / 100, 10);
  });

  it("that all agree to the printed digit do not make the noise zero", () => {
    const found = answered(noiseOf({ ...soilPh, duplicates: [[6, 6], [6.2, 6.2], [5.9, 5.9]] }, rules));
    expect(found.value.from).toBe("sampling and analysis together");
    expect(found.steps.at(-1)!.note).toMatch(/agree to the printed digit/);
  });

  it("count three bags of a day as two pairs", () => expect(pooledDuplicates([[6, 6.1, 6.2], [6, 6.1]], "units")!.pairs).toBe(3));

  it("of one laboratory do not speak for several, unless what laboratories differ by is known", () => {
    const wide = answered(noiseOf({ ...phosphorus, labs: 2, duplicates: three }, rules)).value;
    // 17 percent between laboratories and 6 within, of the guideline soil-variability.
    expect(sdAt(wide, 100)).toBeCloseTo(Math.sqrt(87.5 + 17 ** 2 - 6 ** 2), 9);
    const magnesium = answered(noiseOf({ analyte: "Mg", method: "mehlich3", labs: 2, duplicates: three }, rules));
    expect(magnesium.value.from).toBe("sampling and analysis together");
    expect(magnesium.steps.at(-1)!.note).toMatch(/of one laboratory each/);
  });
});

describe("published noise", () => {
  it("is that of the first guideline that has the analyte by this method", () => {
    const rule = rules.find((r) => r.analyte === "pH")!;
    const other = { ...rule, id: "other", together: { ...rule.together!, value: 0.9 } };
    const by = (...all: typeof rules) => answered(noiseOf(soilPh, all)).value;
    expect(by(other, rule)).toEqual(by(other));
    expect(by(rule, other)).toEqual(by(rule));
    expect(by({ ...other, methods: ["calciumChloride"] }, rule)).toEqual(by(rule));
  });

  // By hand: sqrt((6 x 7 / 100)^2 / 15 + 0.1^2) = sqrt(0.01176 + 0.01) = 0.14751; laboratories differ by 0.2 pH in water, by 0.1 in potassium chloride.
  it("is that of the extractant", () => expect(sdAt(answered(noiseOf({ analyte: "pH", method: "potassiumChloridePh", cores: 15, labs: 2 }, rules)).value, 6)).toBeCloseTo(0.14751, 5));

  it("adds nothing where laboratories differ no more than one from day to day", () => {
    const alike = rules.map((r) => (r.analyte === "P" && r.labs ? { ...r, labs: { ...r.labs, value: 5 } } : r));
    expect(sdAt(answered(noiseOf({ ...phosphorus, labs: 2 }, alike)).value, 100)).toBeCloseTo(10, 9);
  });

  it("shrinks with cores and never below the laboratory's own", () =>
    always([fc.integer({ min: 1, max: 60 }), between(1, 300)], (cores, level) => {
      const at = (n: number): number => sdAt(answered(noiseOf({ ...phosphorus, cores: n }, rules)).value, level);
      expect(at(cores + 1)).toBeLessThan(at(cores));
      expect(at(cores)).toBeGreaterThan(0.06 * level);
    }));

  it("is graded by its weakest part", () => expect(answered(noiseOf({ ...phosphorus, cores: 15 }, rules)).steps.map((s) => s.evidence)).toEqual(["read", undefined, "derived"]));

  it("refuses what nobody has published", () => expectRefusal(noiseOf({ analyte: "nitrateN", method: "potassiumChloride", cores: 15 }, rules), /^no figure for the noise of nitrate-N is installed, and there are no duplicates/, "3 pairs of duplicates"));

  it("refuses organic matter whose cores were not counted", () => expectRefusal(noiseOf({ analyte: "organicMatter", method: "lossOnIgnition" }, rules), /how many cores went into a bag is not recorded/, "cores"));
});

// By hand, at 100 ppm of phosphorus by 15 cores: 46 percent between cores, 6 within a laboratory, 17 between laboratories.
describe("the mean of two bags of a day", () => {
  const at = (labs: number, from = rules): number => sdAt(answered(noiseOf({ ...phosphorus, cores: 15, labs }, from)).value, 100, 2);
  it("strays less by what each bag adds", () => expect(at(1)).toBeCloseTo(Math.sqrt((46 ** 2 / 15 + 6 ** 2) / 2), 9));
  it("and no less by what another laboratory does", () => {
    expect(at(2)).toBeCloseTo(Math.sqrt((46 ** 2 / 15 + 6 ** 2) / 2 + 17 ** 2 - 6 ** 2), 9);
    // Three ppm between laboratories and 6 percent within: of what is common to both nothing can be taken off.
    const apart = rules.map((r) => (r.analyte === "P" && r.labs ? { ...r, labs: { ...r.labs, value: 3, as: "units" as const } } : r));
    expect(at(2, apart)).toBeCloseTo(Math.sqrt(46 ** 2 / 15 / 2 + 3 ** 2), 9);
  });
});

describe("changeBetween", () => {
  const noise = noiseOf({ ...phosphorus, cores: 15 }, rules);

  it("is the same both ways but for its sign", () =>
    always([between(1, 200), between(1, 200)], (a, b) => {
      const [up, down] = [answered(changeBetween({ value: a }, { value: b }, noise)).value, answered(changeBetween({ value: b }, { value: a }, noise)).value];
      expect(up.least).toBeCloseTo(down.least, 10);
      expect(up.change).toBeCloseTo(-down.change, 12);
    }));

  it("says in its steps whether the change is more than noise, and by how many pairs where few know it", () => {
    const said = (second: number, ...duplicates: number[][]) => answered(changeBetween({ value: 20 }, { value: second }, duplicates.length === 0 ? noise : noiseOf({ ...phosphorus, duplicates }, rules))).steps;
    expect([said(20.1), said(200)].map((steps) => steps.at(-1)!.result)).toEqual(["0.1, no more than noise", "180, more than noise"]);
    expect([said(26), said(26, [19, 21], [18, 22], [39, 41])].map((steps) => steps.at(-2)!.note)).toEqual([undefined, "Student's t for 3 pairs instead of 1.96: so few pairs know the noise only roughly"]);
  });

  it("says of how many bags a result is the mean", () =>
    expect(answered(changeBetween({ value: 20, bags: [18, 22] }, { value: 24 }, noise)).steps.find((s) => s.what.startsWith("Noise of each"))!.expression).toBe("at 20 of 2 bags and 24"));

  it("asks more where fewer pairs know the noise", () => {
    const few = answered(changeBetween({ value: 20 }, { value: 26 }, noiseOf({ ...phosphorus, duplicates: [[19, 21], [18, 22], [39, 41]] }, rules))).value;
    // t at 0.975 with 3 degrees of freedom, scipy 1.17.1.
    expect(few.factor).toBeCloseTo(3.1824463, 6);
  });

  it("refuses without noise, and where both results are zero", () => {
    expectRefusal(changeBetween({ value: 5 }, { value: 6 }, noiseOf({ analyte: "Zn", method: "dtpa" }, rules)), /no figure for the noise of zinc/, "3 pairs of duplicates");
    expectRefusal(changeBetween({ value: 0 }, { value: 0 }, noise), /both results are zero/, "a result above zero");
  });
});

describe("a result near the edge of a class", () => {
  const { value } = answered(noiseOf(soilPh, rules));
  it("could be in either class within 1.64 standard deviations of the edge, here 0.16 pH", () => {
    expect(edgesWithinNoise({ value: 6.2 }, [5.9, 6.0, 6.3, 6.5], value)).toEqual([6.3]);
    expect(edgesWithinNoise({ value: 6.2 }, [6.02, 6.04], value)).toEqual([6.04]);
    expect(edgesWithinNoise({ value: 6.15 }, [5.9, 6.0, 6.3, 6.5], value)).toEqual([6.0, 6.3]);
  });
  it("as the mean of two bags within 0.12", () => expect(edgesWithinNoise({ value: 6.2, bags: [6.1, 6.3] }, [6.07, 6.09], value)).toEqual([6.09]));
});
