import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { belowZero, plain } from "../show.ts";
import { cropIds, nutrients } from "../vocabulary.ts";
import { rateByYield } from "./indexByYield.ts";
import { fromOfftake, offtake } from "./indexFromOfftake.ts";
import type { PartPlace, PartRate } from "./indexPart.ts";
import { amount, byClass, cell, isAt, noCell, tableStep } from "./indexPart.ts";
import { evidence, provenance } from "./sourced.ts";

/** One dose of the season, or all of it: rates by class from a table, by class and yield, or from offtake. */
export const indexPart = z
  .strictObject({
    dose: z.string().optional().describe("when this part is spread, such as autumn before the first cut"),
    crops: z.array(z.enum(cropIds)).min(1).optional().describe("absent: every crop of the row; else a dose that only these get"),
    rates: byClass.optional(),
    byYield: z
      .array(z.strictObject({ yield: z.number().positive(), rates: byClass }))
      .min(2)
      .refine((rows) => rows.every((r, i) => i === 0 || r.yield > rows[i - 1]!.yield), "yields must rise")
      .optional()
      .describe("one table for each printed yield, t/ha; between two the rate is read along the line, outside there is none"),
    offtake: offtake.optional(),
    doubtful: z
      .array(z.strictObject({ class: z.string(), yield: z.number().optional(), note: z.string(), evidence: evidence.optional() }))
      .optional()
      .describe("cells that look like a slip of the press: kept as printed, and flagged"),
    withheld: z
      .array(z.strictObject({ class: z.string(), because: z.string() }))
      .optional()
      .describe("classes without a rate, and why: a clause that reads on from `No rate, because`"),
    note: z.string().optional(),
    source: provenance.source.optional(),
    evidence: provenance.evidence,
  })
  .refine((p) => p.rates !== undefined || p.byYield !== undefined || p.offtake !== undefined, "needs rates, byYield or offtake");
export type IndexPart = z.infer<typeof indexPart>;

/** Rate of one part in the rule's unit, with its lines of the sum. */
export const partRate = (part: IndexPart, place: PartPlace): Outcome<PartRate> => {
  const { at, rule } = place;
  const withheld = part.withheld?.find((w) => isAt(w.class, at));
  if (withheld)
    return noAnswer(withheld.because, [`a ${nutrients[rule.nutrient].label.toLowerCase()} rate at ${rule.indexName} ${at.name}`]);
  if (part.byYield) return rateByYield(part, part.byYield, place);
  const added = part.offtake && cell(part.offtake.add, at);
  if (part.offtake && added !== undefined) return fromOfftake(part.offtake, added, place);
  const rate = cell(part.rates, at);
  if (rate === undefined) return noCell(place);
  const doubt = part.doubtful?.find((d) => isAt(d.class, at));
  const steps: Step[] = [tableStep(part, place, rate, doubt)];
  return correct(rate, place, steps, doubt?.note);
};

/** Add (yield - table yield) x what a t takes away, at the class the publication names and below; never below zero. */
const correct = (rate: number, place: PartPlace, steps: Step[], doubt: string | undefined): Outcome<PartRate> => {
  const { correction, tableYield } = place.row;
  if (!correction || !tableYield) return answer({ rate, doubt }, steps);
  const last = place.classes.findLastIndex((c) => isAt(correction.upTo, c));
  if (place.classes.findIndex((c) => c.name === place.at.name) > last) return answer({ rate, doubt }, steps);
  if (place.yieldTonnes.kind === "noAnswer") return place.yieldTonnes;
  const goal = place.yieldTonnes.value;
  const corrected = rate + (goal.value - tableYield.value) * correction.perTonne.value;
  const value = Math.max(0, corrected);
  const notes = [correction.perTonne.note, correction.note].filter(Boolean);
  steps.push(goal.step, {
    what: `Corrected for yield: the table is for ${plain(tableYield.value)} t/ha`,
    expression: `${plain(rate, 1)} + (${plain(goal.value, 2)} − ${plain(tableYield.value)}) × ${plain(correction.perTonne.value)}`,
    result: `${belowZero(corrected, 1)}${amount(value, place)}`,
    source: correction.perTonne.source,
    evidence: correction.perTonne.evidence,
    ...(notes.length > 0 && { note: notes.join("; ") }),
  });
  return answer({ rate: value, doubt }, steps);
};
