import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain, round } from "../show.ts";
import { resultStep } from "./bands.ts";
import { limits } from "./limits.ts";
import type { NitrogenPlace } from "./nitrateFacts.ts";
import { chooseRow, historySteps, nitrateWhen, notChosen, rowsOfEachWord } from "./factTests.ts";
import { atLeastNothing, factLabel, historyStep } from "./nitrateFacts.ts";
import { checkNitrateTest, precondition } from "./preconditions.ts";
import type { NutrientRate } from "./nutrientRate.ts";
import { graded, provenance } from "./sourced.ts";

const nitrateClass = z
  .strictObject({
    from: z.number().nonnegative().describe("ppm at which the class begins"),
    rate: z.number().nonnegative().optional().describe("lb N an acre"),
    adjustment: z.number().max(0).optional().describe("lb N an acre, to the rate that was planned"),
    unread: z.string().min(1).optional().describe("why there is no rate: a clause that can follow because"),
  })
  .refine(
    (c) => [c.rate, c.adjustment, c.unread].filter((each) => each !== undefined).length === 1,
    "needs one of rate, adjustment and unread",
  );
export type NitrateClass = z.infer<typeof nitrateClass>;

const table = z
  .strictObject({
    when: nitrateWhen.optional(),
    classes: z
      .array(nitrateClass)
      .min(2)
      .refine((all) => all.every((c, i) => (i === 0 ? c.from === 0 : c.from > all[i - 1]!.from)), "must rise from 0"),
    ...provenance,
  })
  .check(graded);

/** A rate, or a change to the planned rate, by class of nitrate-N. */
export const nitrateTableRule = z.strictObject({
  kind: z.literal("nitrateTable"),
  id: z.string(),
  unit: z.literal("lb/ac"),
  limits,
  requires: z.array(precondition).default([]),
  roundTo: z
    .number()
    .int()
    .min(0)
    .optional()
    .describe("decimals the result is rounded to before it is classed, where the printed classes leave gaps"),
  tables: z.array(table).min(1),
  split: z
    .strictObject({ textures: z.array(z.string()).min(1), from: z.number().positive(), says: z.string(), ...provenance })
    .check(graded)
    .optional()
    .describe("how a large rate is divided on light soil"),
});
export type NitrateTableRule = z.infer<typeof nitrateTableRule>;

/**
 * Nitrogen, lb/ac, by class of nitrate-N in ppm of a 0 to 12 in sample. A result on a class's printed beginning belongs to
 * it; with `roundTo` the result is rounded first. An adjustment comes off the rate planned before the test, never below
 * nothing. No answer where a condition fails, the rate hangs on a fact nobody recorded, no rate was planned, or the class
 * is one whose rate the publication does not print or was not read.
 */
export const rateByNitrateTable = (rule: NitrateTableRule, m: Measurement, place: NitrogenPlace): Outcome<NutrientRate> => {
  const { pack, history } = place;
  const checked = checkNitrateTest(rule, m, place);
  if (checked.refused) return checked.refused;
  const value = rule.roundTo === undefined ? m.value : round(m.value, rule.roundTo);
  const classIn = (classes: readonly NitrateClass[]): number => classes.findLastIndex((c) => c.from <= value);
  const choice = chooseRow(rule.tables, history);
  const tables = choice.found ? [choice.found] : rowsOfEachWord(rule.tables, choice.missing, history);
  const rates = new Set(tables.map(({ classes }) => classes[classIn(classes)]!.rate));
  const [table] = tables;
  if (!table || (tables.length > 1 && (rates.size > 1 || rates.has(undefined)))) return notChosen(choice.missing, pack);
  const { classes, source, evidence, note, when } = table;
  const index = classIn(classes);
  const found = classes[index]!;
  if (found.unread !== undefined) return noAnswer(found.unread, [`a rate for ${plain(m.value)} ppm`]);
  const next = classes[index + 1];
  const span = next ? `${plain(found.from)} to under ${plain(next.from)} ppm` : `${plain(found.from)} ppm and over`;
  const whichever = tables.length > 1 ? `; ${factLabel(choice.missing!)} is not recorded and makes no difference here` : "";
  const from = { source, evidence, note };
  const steps = [...checked.steps, resultStep(m, "Nitrate-N"), ...historySteps(when ?? [], history)];
  if (found.rate !== undefined) {
    steps.push({ what: `Class ${span}${whichever}`, result: `${plain(found.rate)} lb N/ac`, ...from });
    const { split } = rule;
    const light = split && history.texture && split.textures.includes(history.texture.value) && found.rate >= split.from;
    if (light) steps.push({ what: split.says, result: `${plain(found.rate)} lb N/ac`, source: split.source, evidence: split.evidence });
    return answer({ rate: { value: found.rate, unit: "lb/ac" } }, steps, checked.cautions);
  }
  const planned = history.plannedNitrogen;
  if (!planned) return noAnswer(`the nitrogen rate planned before the test is not recorded, and ${pack} adjusts it`, ["plannedNitrogen"]);
  const less = -found.adjustment!;
  const left = atLeastNothing(planned.value - less);
  steps.push(historyStep("plannedNitrogen", history), { what: `Class ${span}: less`, result: `${plain(less)} lb N/ac`, ...from });
  steps.push(
    less >= planned.value
      ? { what: "It covers the planned rate", result: "0 lb N/ac" }
      : {
          what: "Planned rate less the class's",
          expression: `${plain(planned.value, 1)} − ${plain(less)}`,
          result: `${plain(left, 1)} lb N/ac`,
        },
  );
  return answer({ rate: { value: left, unit: "lb/ac" } }, steps, checked.cautions);
};
