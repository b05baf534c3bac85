import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { nutrients } from "../vocabulary.ts";
import { missingFactLabel } from "./conditions.ts";
import { mineralSteps } from "./mineralOnly.ts";
import { isOrganic, organicDoubt } from "./soilDoubts.ts";
import type { IndexClass, IndexOfftakeRule } from "./indexRule.ts";
import type { Facts } from "./facts.ts";

/**
 * The class whose rate holds: the result's own or, on organic soil (muck or peat, or more than 20 percent organic matter), at
 * most the named one, with the line that says so. Where nothing tells, the soil is taken for mineral, and that is said; no
 * answer where the record contradicts itself. The result keeps its own class.
 */
export const classOnOrganic = (
  rule: IndexOfftakeRule,
  classes: readonly IndexClass[],
  at: IndexClass,
  facts: Facts,
  pack: string,
): Outcome<IndexClass> => {
  const { organicMost: most } = rule;
  const last = most === undefined ? -1 : classes.findIndex((c) => c.name === most.class);
  if (most === undefined || classes.indexOf(at) >= last) return answer(at, []);
  const doubt = organicDoubt(facts);
  if (doubt)
    return noAnswer(
      `${missingFactLabel(doubt)} is not known, and ${pack} gives organic soil less ${nutrients[rule.nutrient].label.toLowerCase()}`,
      [doubt],
    );
  if (isOrganic(facts) !== true) return answer(at, mineralSteps(most, facts));
  const step: Step = {
    what: `On organic soil no more than at ${rule.indexName} ${most.class}`,
    result: `${rule.indexName} ${most.class} in place of ${at.name}`,
    source: most.source,
    evidence: most.evidence,
    note: most.note,
  };
  return answer(classes[last]!, [step]);
};
