import type { Sample } from "../../src/interpretation/sample.ts";
import { farmFile, fieldFile, limePlace, limestone, ownTarget } from "./limePlace.ts";
import { measured } from "./measured.ts";
import { oregon, triState } from "./packs.ts";

/** A full Tri-State sample with lime due: every question of it is answered, with every step. */
export const fullSample: Sample = {
  depth: limePlace.depth,
  own: ownTarget(6.5),
  incorporated: true,
  packs: [triState, oregon],
  facts: { crop: "corn", cec: 11.3, subsoilPh: 6.5, origins: { cec: fieldFile, subsoilPh: fieldFile, yieldGoal: fieldFile } },
  yieldGoal: { value: 185, unit: "bu/ac" },
  measurements: [
    measured("pH", 5.8),
    measured("bufferPh", 6.37, { method: "sikora" }),
    measured("P", 14),
    measured("K", 96),
    measured("Ca", 1240),
    measured("Mg", 165),
  ],
  materials: [{ ...limestone, stated: { limeScore: { value: 85, source: farmFile } } }],
};
