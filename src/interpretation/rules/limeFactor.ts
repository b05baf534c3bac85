import * as z from "zod";
import type { NoAnswer, Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { pH as showPh, plain } from "../show.ts";
import { crops, limeIndexIds, methodIds, textures } from "../vocabulary.ts";
import { metLabel, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { leftOutHere, leftOutPlace } from "./leftOutPlace.ts";
import { mineralOnly, mineralSteps, notMineral } from "./mineralOnly.ts";
import { graded, provenance, sourcedDepth, sourcedNumber } from "./sourced.ts";
import type { Facts } from "./facts.ts";
import type { OwnTarget } from "./targetPh.ts";

const amount = {
  when: when.optional(),
  factor: sourcedNumber.describe("t/ha of the material for each whole unit of pH below the target"),
  depth: sourcedDepth.optional().describe("the depth of soil the rate is for"),
  mostAtOnce: sourcedNumber.optional().describe("t/ha"),
  mostOnSurface: sourcedNumber.optional().describe("t/ha, where lime is not worked in; absent: mostAtOnce holds there too"),
  then: z.string().optional().describe("what the publication says to do with the rest"),
  printed: z
    .array(z.strictObject({ pH: z.number(), rate: z.number().nonnegative(), note: z.string() }))
    .default([])
    .describe("cells of the table that differ from the formula: kept as printed, and flagged"),
  ...provenance,
};
const row = z.strictObject({ ...amount, target: sourcedNumber.describe("the pH to lime to") }).check(graded);
const rowOfAnyTarget = z.strictObject(amount).check(graded);
type Row = z.infer<typeof rowOfAnyTarget> & Partial<Pick<z.infer<typeof row>, "target">>;

/** A place without a target that the publication leaves clear, where one that the field sets may be limed to by these rows. */
const leftOutFactor = leftOutPlace.extend({ withTarget: z.array(rowOfAnyTarget).min(1).optional() });

/** Lime from soil pH alone: (target pH - pH) x factor. The target is the rule's own and no other, unless the publication prints the sum for any. */
export const limeFactorRule = z
  .strictObject({
    kind: z.literal("limeFactor"),
    id: z.string(),
    method: z.enum(methodIds).describe("the medium the pH is measured in"),
    unit: z.literal("t/ha"),
    material: z.strictObject({ index: z.enum(limeIndexIds), value: z.number().positive(), label: z.string(), ...provenance }).check(graded),
    from: z
      .number()
      .optional()
      .describe("the lowest pH of the printed table; below it there is no answer. Absent where the publication prints the sum itself"),
    anyTarget: z
      .strictObject(provenance)
      .check(graded)
      .optional()
      .describe("the publication prints the sum for any target: one that the field sets is put in"),
    least: sourcedNumber.optional().describe("the smallest rate worth spreading, t/ha; shown, and never added"),
    mineralOnly: mineralOnly.optional().describe("an organic soil gets no answer"),
    leftOut: z.array(leftOutFactor).default([]).describe("places without an answer, and why"),
    rows: z.array(row).min(1),
  })
  .check(({ value, issues }) => {
    value.leftOut.forEach(({ withTarget }, i) => {
      if (withTarget && !value.anyTarget)
        issues.push({
          code: "custom",
          input: value,
          path: ["leftOut", i, "withTarget"],
          message: "needs anyTarget: the publication's sum must be for any target",
        });
    });
  });
export type LimeFactorRule = z.infer<typeof limeFactorRule>;

export interface LimeByPh {
  /** t/ha of the rule's material; 0 where none is called for. */
  readonly rate: number;
  readonly target: number | undefined;
  readonly mostAtOnce: number | undefined;
  readonly doubt?: string | undefined;
}

/** The rows that a place is asked by, or why it has none: of a place that is left out those for a target that the field sets. */
const rowsAt = (rule: LimeFactorRule, facts: Facts, own: OwnTarget | undefined): readonly Row[] | NoAnswer => {
  const here = leftOutHere(rule.leftOut, facts);
  if (!here) return rule.rows;
  const { withTarget } = here;
  if (!withTarget) return noAnswer(here.because, ["a guideline for this soil"]);
  return own ? withTarget : noAnswer(here.because, ["targetPh"]);
};

/** The row that gives the rate of a place, for whoever asks for its crops, its depth or the most that may be spread. */
export const limeRowAt = (rule: LimeFactorRule, facts: Facts, own: OwnTarget | undefined): Row | undefined => {
  const rows = rowsAt(rule, facts, own);
  return "kind" in rows ? undefined : firstMatch(rows, facts).found;
};

/** The place in the words of a refusal: with its texture where that is what no row names. */
const noRow = (rule: LimeFactorRule, { crop, texture }: Facts, pack: string): NoAnswer => {
  if (!crop) return noAnswer(`${pack} has no lime rate for this place`, ["a guideline for this place"]);
  const named = rule.rows.some(({ when: w }) => w?.crops === undefined || w.crops.includes(crop));
  return noAnswer(`${pack} has no lime rate for ${crops[crop].label}${named && texture ? ` on ${textures[texture]}` : ""}`, [
    "a guideline for this place",
  ]);
};

/**
 * Lime requirement, t/ha of the rule's material, from soil pH in the rule's medium.
 * At and above the target 0, which is an answer. `own` (from the field's record) is put in place of the rule's target where the
 * publication's sum is for any, else it is not asked. No answer below the printed pH, since a table is never stretched, for
 * an organic soil where the rule is for mineral ones, for a place that is left out, nor where no row covers the place. A
 * printed cell that breaks the formula is answered as printed, with its doubt.
 */
export const limeByFactor = (rule: LimeFactorRule, soilPh: number, facts: Facts, pack: string, own?: OwnTarget): Outcome<LimeByPh> => {
  const refused = notMineral(rule.mineralOnly, facts, pack, "a lime rate for organic soil");
  if (refused) return refused;
  const rows = rowsAt(rule, facts, own);
  if ("kind" in rows) return rows;
  const chosen = firstMatch(rows, facts);
  if (!chosen.found)
    return chosen.missing
      ? noAnswer(`${missingFactLabel(chosen.missing)} is not known, and ${pack} sets the lime rate by it`, [chosen.missing])
      : noRow(rule, facts, pack);
  const { factor, mostAtOnce, printed, ...of } = chosen.found;
  const set = rule.anyTarget ? own : undefined;
  const target = set ?? of.target!;
  const condition = metLabel(of.when, facts);
  const steps: Step[] = [
    ...mineralSteps(rule.mineralOnly, facts),
    set?.step ?? {
      what: condition ? `Lime up to, for ${condition}` : "Lime up to",
      result: `pH ${showPh(target.value)}`,
      ...(of.target && { source: of.target.source, evidence: of.target.evidence, note: of.target.note }),
    },
  ];
  const result = (rate: number, doubt?: string): Outcome<LimeByPh> =>
    answer({ rate, target: target.value, mostAtOnce: mostAtOnce?.value, ...(doubt !== undefined && { doubt }) }, steps);
  if (soilPh >= target.value) {
    steps.push({
      what: "The soil is at the target or above it",
      expression: `${showPh(soilPh)} against ${showPh(target.value)}`,
      result: "no lime",
    });
    return result(0);
  }
  if (rule.from !== undefined && soilPh < rule.from)
    return noAnswer(`soil pH ${showPh(soilPh)} is below the lowest that ${pack} prints, ${showPh(rule.from)}`, [
      `a table for pH ${showPh(soilPh)}`,
    ]);
  const odd = printed.find((p) => Math.abs(p.pH - soilPh) < 1e-9);
  // 6.7 - 6.4 is 0.2999... in the computer; on paper it is 0.3.
  const rate = odd?.rate ?? Number(((target.value - soilPh) * factor.value).toPrecision(12));
  const notes = [
    odd && `doubtful: ${odd.note}`,
    factor.note,
    rule.least && rate < rule.least.value && `less than ${plain(rule.least.value)} t/ha is not worth a pass`,
  ].filter(Boolean);
  steps.push({
    what: odd ? "As printed in the table" : "Rate for each unit of pH below the target",
    ...(!odd && { expression: `(${showPh(target.value)} − ${showPh(soilPh)}) × ${plain(factor.value)}` }),
    result: `${plain(rate, 2)} t/ha of ${rule.material.label}`,
    source: factor.source,
    evidence: odd ? of.evidence : factor.evidence,
    ...(notes.length > 0 && { note: notes.join("; ") }),
  });
  return result(rate, odd?.note);
};
