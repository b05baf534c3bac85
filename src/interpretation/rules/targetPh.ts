import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Band } from "./bands.ts";
import { pH } from "../show.ts";
import { crops, methodIds } from "../vocabulary.ts";
import { unnamedAcidCrop } from "./acidCrop.ts";
import type { Facts } from "./conditions.ts";
import { metLabel, conditionSteps, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { mineralOnly, mineralSteps, notMineral } from "./mineralOnly.ts";
import { sourcedNumber } from "./sourced.ts";

const row = z
  .strictObject({
    when: when.optional(),
    limeBelow: sourcedNumber.optional().describe("lime is called for below this soil pH"),
    target: sourcedNumber.optional().describe("the pH to lime to"),
  })
  .refine((r) => r.limeBelow !== undefined || r.target !== undefined, "needs limeBelow, target or both");

/** When to lime, and how far, by crop and soil. A publication may say only one of the two. */
export const targetPhRule = z.strictObject({
  kind: z.literal("targetPh"),
  id: z.string(),
  method: z.enum(methodIds).describe("the medium the publication's pH is measured in"),
  range: z.strictObject({ from: sourcedNumber, to: sourcedNumber }).optional().describe("the range to stay in, where one is printed"),
  mineralOnly: mineralOnly.optional().describe("the publication speaks of mineral soils alone: an organic soil gets no answer"),
  rows: z.array(row).min(1),
});
export type TargetPhRule = z.infer<typeof targetPhRule>;

export interface TargetPh {
  readonly limeBelow: number;
  /** Absent where the publication says when to lime and not how far, and the record sets no target. */
  readonly target: number | undefined;
}

/** A pH to lime to that the record itself sets, for a publication that says when to lime and not how far. */
export interface OwnTarget {
  readonly value: number;
  readonly step: Step;
}

/**
 * Decide below which soil pH to lime, and to which. pH in the rule's medium, in and out.
 * `own` (from the field's record) overrides the publication's target. Where the publication prints no trigger, lime is
 * called for below the target. No answer where no row covers the place, nor for an organic soil where the rule is for mineral ones.
 */
export const targetPhFor = (rule: TargetPhRule, facts: Facts, own: OwnTarget | undefined, pack: string): Outcome<TargetPh> => {
  const organic = notMineral(rule.mineralOnly, facts, pack, "targetPh");
  if (organic) return organic;
  const chosen = firstMatch(rule.rows, facts);
  if (!chosen.found) {
    if (chosen.missing)
      return noAnswer(`${missingFactLabel(chosen.missing)} is not known, and ${pack} sets the target by it`, [chosen.missing]);
    return noAnswer(`${pack} gives no target pH for ${facts.crop ? crops[facts.crop].label : "this place"}`, ["targetPh"]);
  }
  const acid = own ? undefined : unnamedAcidCrop(chosen.found.when?.crops, facts, pack);
  if (acid) return acid;
  const { limeBelow, target } = chosen.found;
  const condition = metLabel(chosen.found.when, facts);
  const steps: Step[] = [...mineralSteps(rule.mineralOnly, facts), ...conditionSteps(chosen.found.when, facts)];
  const push = (what: string, from: z.infer<typeof sourcedNumber>): void => {
    steps.push({
      what: condition ? `${what}, for ${condition}` : what,
      result: `pH ${pH(from.value)}`,
      source: from.source,
      evidence: from.evidence,
      note: from.note,
    });
  };
  if (limeBelow) push("Lime when the soil is below", limeBelow);
  const goal = own?.value ?? target?.value;
  if (own) steps.push(own.step);
  else if (target) push("Lime up to", target);
  // A target below the printed trigger would order lime for soil that already meets it.
  return answer({ limeBelow: Math.min(limeBelow?.value ?? Infinity, goal ?? Infinity), target: goal }, steps);
};

/** The target as bands, for a map or the ground of a chart: lime due, in range and, where a range is printed, above it. */
export const phBands = (rule: TargetPhRule, target: TargetPh): Band[] => [
  { name: "lime due", position: "below" },
  { name: "in range", position: "within", from: target.limeBelow },
  ...(rule.range ? [{ name: "above range", position: "above" as const, above: rule.range.to.value }] : []),
];
