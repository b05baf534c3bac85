import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { boundWords } from "../measurement.ts";
import { plain } from "../show.ts";
import type { Band, Rating } from "./bands.ts";
import { bandOfMeasurement, classNote, resultStep } from "./bands.ts";
import { metLabel, firstMatch, missingFactLabel } from "./conditions.ts";
import { assumptionSteps, outsideLimits } from "./limits.ts";
import type { IndexClass, IndexOfftakeRule } from "./indexRule.ts";
import type { IndexTable } from "./indexRule.ts";
import type { Facts } from "./facts.ts";

/** The classes that hold for a place. */
export const classesFor = (rule: IndexOfftakeRule, facts: Facts, pack: string): Outcome<IndexTable> => {
  const chosen = firstMatch(rule.indexes, facts);
  if (chosen.found) return answer(chosen.found, []);
  return chosen.missing
    ? noAnswer(`${missingFactLabel(chosen.missing)} is not known, and ${pack} sets the classes by it`, [chosen.missing])
    : noAnswer(`${pack} has no classes for this crop or soil`, ["a guideline for this crop and soil"]);
};

/** The classes as bands, for a chart, a map and the rating. */
export const bandsOfIndex = (rule: IndexOfftakeRule, classes: readonly IndexClass[]): Band[] =>
  classes.map((c) => ({ name: `${rule.indexName} ${c.name}`.trim(), position: c.position, from: c.from, above: c.above }));

/**
 * The index class of a result. Test value in the rule's unit in, class out; with `roundTo` the value is rounded first.
 * A value on a printed lower bound belongs to the class that begins there. No answer outside the rule's limits, where a
 * fact that decides the classes is missing, or where a "<" or ">" result spans classes.
 */
export const rateByIndex = (rule: IndexOfftakeRule, m: Measurement, facts: Facts, pack: string): Outcome<Rating> => {
  const outside = outsideLimits(rule.limits, m, facts.crop, pack);
  if (outside) return outside;
  const table = classesFor(rule, facts, pack);
  if (table.kind === "noAnswer") return table;
  const { classes } = table.value;
  const rating = bandOfMeasurement(m, bandsOfIndex(rule, classes), rule.roundTo);
  if (!rating) return noAnswer(`${boundWords(m)}, which spans more than one class`, [`${m.analyte} as a number`]);
  const condition = metLabel(table.value.when, facts);
  const bounds = classes.map((c) =>
    c.from !== undefined ? `${c.name} from ${plain(c.from)}` : c.above !== undefined ? `${c.name} above ${plain(c.above)}` : c.name,
  );
  return answer(rating, [
    resultStep(m, "Laboratory result"),
    ...assumptionSteps(rule.limits, m),
    {
      what: condition ? `Classes for ${condition}` : "Classes",
      expression: `${bounds.join(", ")} ${rule.limits.unit}`,
      result: rating.band,
      source: table.value.source,
      evidence: table.value.evidence,
      ...classNote(m, rule.roundTo, table.value.note),
    },
  ]);
};
