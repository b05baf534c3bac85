import { describe, expect, it } from "vitest";
import { advise } from "../../../src/interpretation/advise.ts";
import { firstMatch, meets, when } from "../../../src/interpretation/rules/conditions.ts";
import { limeByClass } from "../../../src/interpretation/rules/limeClass.ts";
import { categoryDoubt, organicDoubt, organicMatterDoubt } from "../../../src/interpretation/rules/soilDoubts.ts";
import { fullSample } from "../../support/fullSample.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack, ruleIn } from "../../support/packs.ts";
import type { Facts } from "../../../src/interpretation/rules/facts.ts";

const iowa = pack("us-iowa-pm1688-2013");
const inch = { from: 0, to: 6, unit: "in" } as const;
const potash = (facts: Facts) =>
  advise({ ...fullSample, packs: [iowa], facts: { crop: "corn", ...facts }, measurements: [measured("K", 90, { method: "ammoniumAcetate", depth: inch })] }).rates.find((r) => r.nutrient === "K2O")!.outcome;

describe("a soil said to be organic and mineral at once", () => {
  it.each<[Facts, boolean]>([
    [{ texture: "muck", organicMatter: 2 }, true],
    [{ texture: "muck", organicMatter: 19.9 }, true],
    [{ texture: "muck", organicMatter: 20 }, false],
    [{ texture: "muck" }, false],
    [{ texture: "muck", soilClass: "mineral" }, true],
    [{ texture: "muck", soilClass: "organic", organicMatter: 60 }, false],
    [{ texture: "siltLoam", organicMatter: 32.9 }, false],
    [{ texture: "siltLoam", organicMatter: 33 }, true],
    [{ organicMatter: 60 }, false],
  ])("%j: %s", (facts, doubtful) => expect(organicDoubt(facts) !== undefined).toBe(doubtful));

  it("meets no condition on any of the facts that contradict each other, and fails none", () => {
    const facts: Facts = { crop: "corn", texture: "muck", organicMatter: 2, soilClass: "organic" };
    for (const condition of [{ textures: ["muck"] }, { textures: ["sand"] }, { organicMatter: { below: 20 } }, { organicMatter: { from: 20 } }, { soilClass: "mineral" }])
      expect(meets(when.parse(condition), facts)).toEqual({ matches: false, missing: organicDoubt(facts) });
    expect(meets(when.parse({ crops: ["wheat"], textures: ["sand"] }), facts)).toEqual({ matches: false });
    expect(firstMatch([{ when: when.parse({ crops: ["corn"] }) }], facts).found).toBeDefined();
  });

  it("gets no rate that goes by texture, and is told which facts to put right", () => {
    expect(answered(potash({ texture: "siltLoam", organicMatter: 4 })).value.rate.value).toBe(130);
    expectRefusal(
      potash({ texture: "siltLoam", organicMatter: 40 }),
      /^whether the soil is organic or mineral \(its texture and organic matter contradict each other\) is not known, and Iowa 2013 sets the rates by it$/,
      organicMatterDoubt,
    );
  });
});

describe("a category that its texture cannot have", () => {
  it.each<[Facts, boolean]>([
    [{ soilCategory: "heavy", texture: "sand" }, true],
    [{ soilCategory: "heavy", texture: "clay" }, false],
    [{ soilCategory: "veryLight", texture: "clay" }, true],
    [{ soilCategory: "light", texture: "clayLoam" }, true],
    [{ soilCategory: "medium", texture: "clay" }, true],
    [{ soilCategory: "medium", texture: "clayLoam" }, false],
    [{ soilCategory: "light", texture: "sandyLoam" }, false],
    [{ soilCategory: "heavy" }, false],
    [{ texture: "sand" }, false],
  ])("%j: %s", (facts, doubtful) => expect(categoryDoubt(facts) !== undefined).toBe(doubtful));

  it("gets no lime by the category", () =>
    expectRefusal(
      limeByClass(ruleIn(pack("pl-iung-lime"), "lime", "limeClass"), 5, { soilCategory: "heavy", texture: "sand" }, "the page"),
      /^the soil's category is heavy and its texture sand, which cannot both be, and the page sets the dose by the category$/,
      "soilCategory and texture that agree",
    ));
});
