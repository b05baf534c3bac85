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

  it("follows the pH that the field's own record sets", () => {
    expectRefusal(needed("blueberry", 4.4, { own: ownTarget(4.8) }), /6\.5/, "targetPh");
    expect(needed("blueberry", 5.2, { own: ownTarget(4.8) })).not.toMatchObject({ kind: "answer", value: { requirement: {} } });
  });
});
