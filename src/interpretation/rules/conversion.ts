import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import { boundWords, measurementLabel } from "../measurement.ts";
import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { analyteIds, methodIds, methods, soilTestUnits } from "../vocabulary.ts";
import { resultStep } from "./bands.ts";
import { conditionLabel, conditionSteps, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { graded, provenance } from "./sourced.ts";
import type { Facts } from "./facts.ts";

const form = z
  .strictObject({ when: when.optional(), factor: z.number().positive(), plus: z.number().default(0), ...provenance })
  .check(graded);

/** What another test of the same soil would read, as a publication relates the two: information, never read by another rule. */
export const conversionRule = z
  .strictObject({
    kind: z.literal("conversion"),
    id: z.string(),
    analyte: z.enum(analyteIds),
    unit: z.enum(soilTestUnits),
    from: z.enum(methodIds),
    to: z.enum(methodIds),
    soils: z.string().min(1).describe("the soils the relation was found on, as it reads after 'found on': soils of Ohio and Indiana"),
    forms: z
      .array(form)
      .min(1)
      .describe("the test in `to` is factor x the test in `from`, plus `plus`; the first form whose condition the place meets"),
  })
  .refine((r) => r.from !== r.to, { path: ["to"], error: "must be another method than from" });
export type ConversionRule = z.infer<typeof conversionRule>;

/**
 * A result as the other test of the relation would read, in the same unit: factor x value + plus from `from` to `to`, and
 * turned round from `to` to `from`. A second, flagged value beside the laboratory's own, which it never replaces.
 * `undefined`: the relation is not about this result. No answer for "<" or ">", at or below nothing, or without the soil it asks for.
 */
export const convertedResult = (
  rule: ConversionRule,
  m: Measurement,
  facts: Facts,
  pack: string,
): Outcome<{ value: number; method: ConversionRule["to"] }> | undefined => {
  if (m.analyte !== rule.analyte || m.unit !== rule.unit || (m.method !== rule.from && m.method !== rule.to)) return undefined;
  const forward = m.method === rule.from;
  if (m.qualifier) return noAnswer(`${boundWords(m)}, and a relation reads a number`, [`${m.analyte} as a number`]);
  const chosen = firstMatch(rule.forms, facts);
  if (!chosen.found)
    return chosen.missing
      ? noAnswer(`${missingFactLabel(chosen.missing)} is not known, and ${pack} has a relation for each`, [chosen.missing])
      : noAnswer(`${pack} has no relation for this soil`, []);
  const { factor, plus, when: condition, source, evidence, note } = chosen.found;
  const value = forward ? factor * m.value + plus : (m.value - plus) / factor;
  const to = forward ? rule.to : rule.from;
  if (value <= 0)
    return noAnswer(`the relation of ${pack} gives nothing or less at ${measurementLabel(m)}`, [`${m.analyte} by ${methods[to].label}`]);
  const shift = plus === 0 ? "" : ` ${plus > 0 === forward ? "+" : "−"} ${plain(Math.abs(plus))}`;
  const label = conditionLabel(condition);
  return answer({ value, method: to }, [
    resultStep(m, "Laboratory result"),
    ...conditionSteps(condition, facts),
    {
      what: `As ${methods[to].label} might read it, found on ${rule.soils}${label ? `, ${label}` : ""}`,
      expression: forward
        ? `${plain(factor)} × ${plain(m.value)}${shift}`
        : shift === ""
          ? `${plain(m.value)} ÷ ${plain(factor)}`
          : `(${plain(m.value)}${shift}) ÷ ${plain(factor)}`,
      result: `${plain(value, 2)} ${rule.unit}`,
      source,
      evidence,
      note,
    },
  ]);
};
