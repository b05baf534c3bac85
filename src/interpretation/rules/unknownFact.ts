import type { Step } from "../outcome.ts";
import { soilClassIds, strawIds, textureIds } from "../vocabulary.ts";
import type { When } from "./conditions.ts";
import { firstMatch, missingFactLabel } from "./conditions.ts";
import { organicDoubt } from "./soilDoubts.ts";
import type { Facts, NumericFact } from "./facts.ts";
import { numericFacts } from "./facts.ts";

/** Every value of a fact that can tell rows apart: of a number, each bound and what lies on either side of it. None for the crop, which is planned. */
const valuesThatTell = (fact: string, rows: readonly { when?: When | undefined }[]): readonly unknown[] => {
  if (fact === "texture") return textureIds;
  if (fact === "straw") return strawIds;
  if (fact === "soilClass") return soilClassIds;
  const bounds = rows.flatMap((row) => Object.values(row.when?.[fact as NumericFact] ?? {}));
  return numericFacts.includes(fact as NumericFact) ? bounds.flatMap((b) => [b - beside, b, b + beside]) : [];
};
/** Far less than any laboratory tells. */
const beside = 1e-6;

/**
 * The rows that a place may fall under where a fact is not known: what all of them say does not hang on it.
 * Empty where some value of the fact has no row.
 */
export const possibleRows = <T extends { when?: When | undefined }>(rows: readonly T[], facts: Facts): readonly T[] => {
  const choice = firstMatch(rows, facts);
  if (!("missing" in choice)) return [choice.found];
  const { missing } = choice;
  const supposed = missing === undefined ? [] : valuesThatTell(missing, rows).map((value): Facts => ({ ...facts, [missing]: value }));
  // A texture that the organic matter on record rules out is none that the soil may have.
  const each = supposed.filter((s) => !organicDoubt(s)).map((s) => possibleRows(rows, s));
  return each.every((found) => found.length > 0) ? [...new Set(each.flat())] : [];
};

/** A line of the sum for a fact that is not known and makes no difference. */
export const noMatterStep = (fact: string, why: string): Step => {
  const label = missingFactLabel(fact).replace(/^the /, "");
  return { what: `${label.charAt(0).toUpperCase()}${label.slice(1)}`, result: "not known", note: `it makes no difference: ${why}` };
};
