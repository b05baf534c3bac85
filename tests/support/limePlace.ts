import type { Source } from "../../src/interpretation/outcome.ts";
import type { OwnTarget } from "../../src/interpretation/rules/targetPh.ts";
import { measured } from "./measured.ts";
import { oregon, triState } from "./packs.ts";
import type { LimeMaterial, LimePlace } from "../../src/interpretation/lime/limePlace.ts";

export const fieldFile: Source = { record: { file: "fields/north/field.yaml", line: 7, column: 3 } };
export const farmFile: Source = { record: { file: "farm.yaml", line: 20, column: 3 } };

export const ownTarget = (value: number): OwnTarget => ({ value, step: { what: "Target pH of the field", result: `pH ${value}`, source: fieldFile } });

export const limestone: LimeMaterial = {
  id: "quarry-lime",
  name: "quarry lime",
  stated: { limeScore: { value: 85, source: farmFile } },
  pricePerTon: 24,
};

/** Corn over a good subsoil that needs lime by the Sikora buffer, with everything known that a lime rate asks for. */
export const limePlace: LimePlace = {
  facts: { crop: "corn", subsoilPh: 6.5 },
  packs: [triState, oregon],
  pH: measured("pH", 5.6),
  buffers: [measured("bufferPh", 6.35, { method: "sikora" })],
  depth: { value: 8, unit: "in", source: fieldFile },
  own: ownTarget(6.4),
  incorporated: true,
  materials: [limestone],
};
