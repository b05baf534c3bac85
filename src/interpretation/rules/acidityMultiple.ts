import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { pH as showPh, plain } from "../show.ts";
import { methodIds } from "../vocabulary.ts";
import { limeBasis, limeFigure, limeName } from "./limeBasis.ts";
import { graded, provenance } from "./sourced.ts";

const row = z
  .strictObject({
    above: z.number().optional().describe("holds for acidity above this"),
    below: z.number().optional().describe("holds for acidity below this"),
    multiply: z.number().positive().optional().describe("the rate for each meq/100 g of acidity"),
    flat: z.number().nonnegative().optional().describe("the rate, whatever the acidity"),
    ...provenance,
  })
  .check(graded)
  .refine((r) => (r.multiply === undefined) !== (r.flat === undefined), "needs multiply or flat, and not both");

/** A lime rate as a multiple of exchangeable acidity, by target. */
export const acidityMultipleRule = z
  .strictObject({
    kind: z.literal("acidityMultiple"),
    id: z.string(),
    method: z.enum(methodIds).describe("how the acidity is measured"),
    ...limeBasis,
    targets: z.array(z.strictObject({ target: z.number(), rows: z.array(row).min(1) })).min(1),
    ...provenance,
  })
  .check(graded)
  .refine((r) => r.targets.every((t, i) => i === 0 || t.target > r.targets[i - 1]!.target), { path: ["targets"], error: "must rise" });
export type AcidityMultipleRule = z.infer<typeof acidityMultipleRule>;

/**
 * Lime requirement in the rule's unit from exchangeable acidity, meq/100 g.
 * The lowest printed target at or above the one wanted is used, and a step says so. At and above the target 0.
 * No answer outside the printed targets, or where no row covers the acidity: between "above 4.0" and "below 4.0" lies
 * exactly 4.0, of which the publication says nothing.
 */
export const limeByAcidity = (
  rule: AcidityMultipleRule,
  acidity: number,
  soilPh: number,
  target: number,
  pack: string,
): Outcome<number> => {
  const chosen = printedTarget(rule.targets, target, pack);
  if (chosen.kind === "noAnswer") return chosen;
  const printed = chosen.value;
  const steps: Step[] = [];
  if (Math.abs(printed.target - target) > 1e-9)
    steps.push({
      what: "The lowest printed target at or above the one wanted",
      expression: `${showPh(target)}, printed: ${rule.targets.map((t) => showPh(t.target)).join(", ")}`,
      result: `pH ${showPh(printed.target)}`,
      source: rule.source,
      evidence: rule.evidence,
    });
  if (soilPh >= printed.target) {
    steps.push({
      what: "The soil is at the target or above it",
      expression: `${showPh(soilPh)} against ${showPh(printed.target)}`,
      result: "no lime",
      source: rule.source,
      evidence: rule.evidence,
    });
    return answer(0, steps);
  }
  const found = printed.rows.find((r) => (r.above === undefined || acidity > r.above) && (r.below === undefined || acidity < r.below));
  if (!found)
    return noAnswer(
      `${pack} has no rule for an exchangeable acidity of exactly ${plain(acidity)} meq/100 g at target pH ${showPh(printed.target)}; its rules are for more and for less`,
      [`a rule for an acidity of ${plain(acidity)} meq/100 g`],
    );
  const value = found.flat ?? acidity * found.multiply!;
  const bounds = [found.above !== undefined && `above ${plain(found.above)}`, found.below !== undefined && `below ${plain(found.below)}`]
    .filter(Boolean)
    .join(", ");
  const where = bounds ? `acidity ${bounds}, target pH ${showPh(printed.target)}` : `target pH ${showPh(printed.target)}`;
  const note = found.note ?? rule.note;
  steps.push({
    what: found.flat === undefined ? `Acidity times the factor, for ${where}` : `The same rate for every acidity, for ${where}`,
    ...(found.multiply !== undefined && { expression: `${plain(acidity)} × ${plain(found.multiply)}` }),
    result: `${limeFigure(value, rule.unit)} ${rule.unit} of ${limeName(rule)}`,
    source: found.source,
    evidence: found.evidence,
    note,
  });
  return answer(value, steps);
};

/** The lowest printed target at or above the one wanted; none below the lowest, which would over-lime, or above the highest. */
export const printedTarget = <T extends { target: number }>(targets: readonly T[], target: number, pack: string): Outcome<T> => {
  const lowest = targets[0]!.target;
  if (target < lowest - 1e-9)
    return noAnswer(`the target pH ${showPh(target)} is below the lowest that ${pack} prints, ${showPh(lowest)}`, ["targetPh"]);
  const printed = targets.find((t) => t.target >= target - 1e-9);
  return printed
    ? answer(printed, [])
    : noAnswer(`the target pH ${showPh(target)} is above the highest that ${pack} prints, ${showPh(targets.at(-1)!.target)}`, ["targetPh"]);
};
