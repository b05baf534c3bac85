import { describe, expect, it } from "vitest";
import { advise } from "../../../src/interpretation/advise.ts";
import type { Sample } from "../../../src/interpretation/sample.ts";
import type { CropId } from "../../../src/interpretation/vocabulary.ts";
import { fullSample } from "../../support/fullSample.ts";
import { ownTarget } from "../../support/limePlace.ts";
import { measured } from "../../support/measured.ts";
import { answered, expectRefusal } from "../../support/outcomes.ts";
import { pack } from "../../support/packs.ts";

const vermont = pack("us-vermont-lime");
const oregon = pack("us-oregon-west-lime-minimum");
const sample = (crop: CropId | undefined, pH: number, over: Partial<Sample> = {}): Sample => ({
  ...fullSample,
  own: undefined,
  packs: [vermont],
  facts: { crop },
  measurements: [measured("pH", pH, { method: "water1to2" }), measured("Al", 60, { method: "modifiedMorgan" })],
  ...over,
});
const needed = (...of: Parameters<typeof sample>) => advise(sample(...of)).lime.needed;

describe("lime for a crop of acid soil", () => {
  it("is refused by a table that does not name the crop, which it would lime to death", () => {
    expect(answered(needed("broccoli", 5.2)).value).toMatchObject({ requirement: { value: 2.75 } });
    expectRefusal(needed("blueberry", 5.2), /^blueberries are grown on acid soil, and Vermont does not name them$/, "targetPh");
  });

  it("is asked for below the pH of a guideline that names it", () => {
    const west = (pH: number): Partial<Sample> => ({ packs: [vermont, oregon], measurements: [measured("pH", pH)] });
    expect(answered(needed("blueberry", 5.2, west(5.2))).value).toBe("none");
    expect(advise(sample("blueberry", 4.4, west(4.4))).ratings.find((r) => r.measurement.analyte === "pH")!.outcome).toMatchObject({ value: { band: "lime due" } });
    expect(advise(sample("blueberry", 4.5, west(4.5))).ratings.find((r) => r.measurement.analyte === "pH")!.outcome).toMatchObject({ value: { band: "in range" } });
  });

  // eXtension, Blueberry Soil pH: they grow best at 4.0 to 5.3. Oregon prints a least pH and no greatest one.
  it("is above its range over the pH that blueberries grow best at: of a minimum alone pH 7 was 'the range to stay in'", () => {
    const rating = (pH: number, over: Partial<Sample> = {}) => advise(sample("blueberry", pH, { packs: [oregon], measurements: [measured("pH", pH)], ...over })).ratings[0]!;
    expect([5.3, 5.4, 7].map((pH) => answered(rating(pH).outcome).value)).toEqual([
      { band: "in range", position: "within", rank: 1 },
      { band: "above range", position: "above", rank: 2 },
      { band: "above range", position: "above", rank: 2 },
    ]);
    expect(answered(rating(5.4).outcome).steps.at(-1)).toMatchObject({ what: "Blueberries grow best up to", result: "pH 5.3", source: { reference: "extension-blueberry-ph" } });
    // Who sets more than that is not told that his own target is too much.
    expect(answered(rating(5.5, { own: ownTarget(5.6), packs: [] }).outcome).value.band).toBe("lime due");
    expect(answered(rating(5.6, { own: ownTarget(5.6), packs: [] }).outcome).value.band).toBe("in range");
    // Of no other crop is anything known.
    expect(answered(advise(sample("broccoli", 7.4, { packs: [oregon], measurements: [measured("pH", 7.4)] })).ratings[0]!.outcome).value.band).toBe("in range");
  });

  it("follows the pH that the field's own record sets", () => {
    expectRefusal(needed("blueberry", 4.4, { own: ownTarget(4.8) }), /6\.5/, "targetPh");
    expect(needed("blueberry", 5.2, { own: ownTarget(4.8) })).not.toMatchObject({ kind: "answer", value: { requirement: {} } });
  });
});
