import * as z from "zod";
import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { measurementLabel } from "../measurement.ts";
import { plain } from "../show.ts";
import type { Band, Rating } from "./bands.ts";
import { bandOfMeasurement, classNote, positions, resultStep } from "./bands.ts";
import type { Facts } from "./conditions.ts";
import { metLabel, firstMatch, missingFactLabel, when } from "./conditions.ts";
import type { IndexOfftakeRule } from "./indexOfftake.ts";
import { outsideLimits } from "./limits.ts";
import { graded, provenance } from "./sourced.ts";

/** An index class: a band that may be one half of a whole class, such as 2- and 2+ of 2. */
const indexClass = z
  .strictObject({
    name: z.string().min(1),
    of: z.string().min(1).optional().describe("the whole class this one is a part of: crops whose table is not split read that"),
    position: z.enum(positions).optional(),
    from: z.number().optional(),
    above: z.number().optional(),
  })
  .refine((c) => c.from === undefined || c.above === undefined, "has both from and above; keep one");
export type IndexClass = z.infer<typeof indexClass>;

const startOf = (c: IndexClass): number => c.from ?? c.above ?? -Infinity;

export const indexTable = z
  .strictObject({
    when: when.optional(),
    classes: z
      .array(indexClass)
      .min(2)
      .refine(
        (all) => all.every((c, i) => (i === 0 ? startOf(c) === -Infinity : startOf(c) > startOf(all[i - 1]!))),
        "must rise: the first class without from or above, each later one beginning higher",
      ),
    ...provenance,
  })
  .check(graded);

/** The classes that hold for a place. */
export const classesFor = (rule: IndexOfftakeRule, facts: Facts, pack: string): Outcome<z.infer<typeof indexTable>> => {
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
  if (!rating) return noAnswer(`the laboratory says ${measurementLabel(m)}, which spans more than one class`, [`${m.analyte} as a number`]);
  const condition = metLabel(table.value.when, facts);
  const bounds = classes.map((c) =>
    c.from !== undefined ? `${c.name} from ${plain(c.from)}` : c.above !== undefined ? `${c.name} above ${plain(c.above)}` : c.name,
  );
  return answer(rating, [
    resultStep(m, "Laboratory result"),
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
