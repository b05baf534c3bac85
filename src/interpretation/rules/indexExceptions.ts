import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { boundWords } from "../measurement.ts";
import { plain } from "../show.ts";
import { firstMatch, missingFactLabel } from "./conditions.ts";
import type { IndexClass, IndexOfftakeRule } from "./indexRule.ts";
import type { IndexException } from "./indexRule.ts";
import type { Facts } from "./facts.ts";

/** The exception that holds, if one does. A fact that an exception for this class asks for must be known. */
export const exceptionFor = (
  rule: IndexOfftakeRule,
  m: Measurement,
  at: IndexClass,
  facts: Facts,
  pack: string,
): Outcome<IndexException | undefined> => {
  const possible = rule.exceptions.filter((e) => e.classes.includes(at.name) || (at.of !== undefined && e.classes.includes(at.of)));
  for (const each of possible) {
    const chosen = firstMatch([each], facts);
    if (!chosen.found) {
      if (chosen.missing)
        return noAnswer(`${missingFactLabel(chosen.missing)} is not known, and ${pack} decides by it in this class`, [chosen.missing]);
      continue;
    }
    if (each.testAbove === undefined) return answer(each, []);
    if (m.qualifier && !(m.qualifier === ">" && m.value >= each.testAbove) && !(m.qualifier === "<" && m.value <= each.testAbove))
      return noAnswer(`${boundWords(m)}, and ${pack} decides by whether it is above ${plain(each.testAbove)}`, [
        `${m.analyte} as a number`,
      ]);
    if (m.qualifier === ">" || (m.qualifier === undefined && m.value > each.testAbove)) return answer(each, []);
  }
  return answer(undefined, []);
};
