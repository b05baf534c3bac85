import type { CropId, StrawId } from "../vocabulary.ts";
import { firstMatch, missingFactLabel } from "./conditions.ts";
import type { Coefficient } from "./removalCoefficient.ts";
import type { IndexCrop, IndexOfftakeRule } from "./indexRule.ts";

/** What one t of a row's crop takes away: the offtake its rates are worked from, or that its correction for yield multiplies. */
const offtakeOf = (row: IndexCrop): Coefficient | undefined => {
  const stated = row.parts[0]?.offtake?.perTonne ?? row.correction?.perTonne;
  if (!stated) return undefined;
  const { value, source, evidence, note } = stated;
  const words = [row.condition, note].filter(Boolean).join("; ");
  return { value, source, evidence, ...(words && { note: words }), per: "t", withStraw: row.when?.straw === "removed" };
};

export const statesOfftake = (rule: IndexOfftakeRule): boolean =>
  rule.unit === "kg/ha" && rule.crops.some((row) => offtakeOf(row) !== undefined);

/** The offtake of a crop, `undefined` where none is stated, or the name of the fact it depends on and that is not known. */
export const offtakeFor = (
  rule: IndexOfftakeRule,
  crop: CropId,
  straw: StrawId | undefined,
): Coefficient | { readonly missing: string } | undefined => {
  const rows = rule.crops.filter((row) => offtakeOf(row) !== undefined);
  const chosen = firstMatch(rows, { crop, straw });
  if (chosen.found) return offtakeOf(chosen.found);
  return chosen.missing === undefined ? undefined : { missing: missingFactLabel(chosen.missing) };
};
