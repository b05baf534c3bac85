import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain, round } from "../show.ts";
import type { RateUnit } from "../units.ts";
import type { CropId, NutrientId } from "../vocabulary.ts";
import { cropIds, crops, nutrients } from "../vocabulary.ts";
import { evidence, graded, provenance, sourcedNumber } from "./sourced.ts";

const byClass = z.record(z.string(), z.number().nonnegative()).describe("rate by index class, in the rule's unit");

/** Yield x what a ton of it takes away, with steps added below the target class. */
const offtake = z.strictObject({
  perTonne: sourcedNumber.describe("in the rule's rate unit per t of yield"),
  add: byClass.describe("what is added to offtake, by class; a class that is not named gets its rate from `rates`"),
  roundTo: z.number().positive().optional().describe("the table's own rounding, at tableYield, before a correction for yield: 5 rounds 62.4 to 60"),
  steps: z.strictObject(provenance).check(graded).describe("where the additions come from"),
});

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

interface ClassName {
  readonly name: string;
  readonly of?: string | undefined;
}

export interface PartPlace {
  readonly classes: readonly ClassName[];
  readonly at: ClassName;
  readonly row: {
    readonly condition?: string | undefined;
    readonly tableYield?: z.infer<typeof sourcedNumber> | undefined;
    readonly correction?: { readonly perTonne: z.infer<typeof sourcedNumber>; readonly upTo: string; readonly note?: string | undefined } | undefined;
    readonly source: z.infer<typeof provenance.source>;
    readonly evidence?: z.infer<typeof evidence> | undefined;
    readonly note?: string | undefined;
  };
  readonly rule: { readonly nutrient: NutrientId; readonly unit: RateUnit; readonly indexName: string };
  readonly crop: CropId;
  readonly yieldTonnes: Outcome<{ value: number; step: Step }>;
  readonly pack: string;
}

export interface PartRate {
  readonly rate: number;
  readonly doubt?: string | undefined;
}

/** What a table holds for a class: under its own name, else under the whole class it is half of. */
const cell = (rates: Readonly<Record<string, number>> | undefined, at: ClassName): number | undefined =>
  rates?.[at.name] ?? (at.of === undefined ? undefined : rates?.[at.of]);

const isAt = (name: string, at: ClassName): boolean => name === at.name || name === at.of;

/** Rate of one part in the rule's unit, with its lines of the sum. */
export const partRate = (part: IndexPart, place: PartPlace): Outcome<PartRate> => {
  const { at, rule, pack } = place;
  const withheld = part.withheld?.find((w) => isAt(w.class, at));
  if (withheld) return noAnswer(withheld.because, [`a ${nutrients[rule.nutrient].label.toLowerCase()} rate at ${rule.indexName} ${at.name}`]);
  if (part.byYield) return byYield(part, part.byYield, place);
  const added = part.offtake && cell(part.offtake.add, at);
  if (part.offtake && added !== undefined) return fromOfftake(part.offtake, added, place);
  const rate = cell(part.rates, at);
  if (rate === undefined)
    return noAnswer(`${pack} gives no ${nutrients[rule.nutrient].label.toLowerCase()} rate for ${crops[place.crop].label} at ${rule.indexName} ${at.name}`, [
      `a ${nutrients[rule.nutrient].label.toLowerCase()} rate at ${rule.indexName} ${at.name}`,
    ]);
  const doubt = part.doubtful?.find((d) => isAt(d.class, at));
  const steps: Step[] = [tableStep(part, place, rate, doubt)];
  return correct(rate, place, steps, doubt?.note);
};

const provenanceOf = (part: IndexPart, place: PartPlace, doubt?: { note: string; evidence?: PartPlace["row"]["evidence"] }) => {
  const note = doubt ? `doubtful: ${doubt.note}` : (part.note ?? place.row.note);
  return { source: part.source ?? place.row.source, evidence: doubt?.evidence ?? part.evidence ?? place.row.evidence, ...(note && { note }) };
};

const amount = (value: number, place: PartPlace): string => `${plain(value, 1)} ${place.rule.unit} ${nutrients[place.rule.nutrient].symbol}`;

const tableStep = (part: IndexPart, place: PartPlace, rate: number, doubt: { note: string; evidence?: PartPlace["row"]["evidence"] } | undefined): Step => {
  const { row, rule, at, crop } = place;
  const detail = [row.condition, row.tableYield && `${plain(row.tableYield.value)} t/ha`].filter(Boolean);
  const what = `Table for ${crops[crop].label}${detail.length > 0 ? ` (${detail.join(", ")})` : ""} at ${rule.indexName} ${at.name}`;
  return { what: part.dose ? `${what}, ${part.dose}` : what, result: amount(rate, place), ...provenanceOf(part, place, doubt) };
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
  const notes = [correction.perTonne.note, correction.note, corrected < 0 && "a rate cannot be below nothing"].filter(Boolean);
  steps.push(goal.step, {
    what: `Corrected for yield: the table is for ${plain(tableYield.value)} t/ha`,
    expression: `${plain(rate, 1)} + (${plain(goal.value, 2)} − ${plain(tableYield.value)}) × ${plain(correction.perTonne.value)}`,
    result: amount(value, place),
    source: correction.perTonne.source,
    evidence: correction.perTonne.evidence,
    ...(notes.length > 0 && { note: notes.join("; ") }),
  });
  return answer({ rate: value, doubt }, steps);
};

/** Yield x offtake + the class's step. With `roundTo`, as a table made so: rounded at the table's yield, then corrected. */
const fromOfftake = (how: z.infer<typeof offtake>, added: number, place: PartPlace): Outcome<PartRate> => {
  if (place.yieldTonnes.kind === "noAnswer") return place.yieldTonnes;
  const { value: tonnes, step } = place.yieldTonnes.value;
  const { tableYield } = place.row;
  const per = how.perTonne.value;
  const from = { source: how.perTonne.source, evidence: how.perTonne.evidence, ...(how.perTonne.note && { note: how.perTonne.note }) };
  const steps: Step[] = [step];
  let base = tonnes;
  let taken: number;
  if (how.roundTo !== undefined && tableYield) {
    base = tableYield.value;
    taken = round((base * per) / how.roundTo, 0) * how.roundTo;
    steps.push({ what: "The table is made for a yield of", result: `${plain(base)} t/ha`, source: tableYield.source, evidence: tableYield.evidence, ...(tableYield.note && { note: tableYield.note }) });
    steps.push({ what: `What ${plain(base)} t of ${crops[place.crop].label} take away, to the nearest ${plain(how.roundTo)}`, expression: `${plain(base)} × ${plain(per)} = ${plain(base * per, 1)}`, result: amount(taken, place), ...from });
  } else {
    taken = base * per;
    steps.push({ what: `What the harvest of ${crops[place.crop].label} takes away`, expression: `${plain(base, 2)} × ${plain(per)}`, result: amount(taken, place), ...from });
  }
  const rate = taken + added;
  steps.push({
    what: added > 0 ? `Added at ${place.rule.indexName} ${place.at.name}, to build up` : `Nothing is added at ${place.rule.indexName} ${place.at.name}`,
    expression: `${plain(taken, 1)} + ${plain(added)}`,
    result: amount(rate, place),
    source: how.steps.source,
    evidence: how.steps.evidence,
    ...(how.steps.note && { note: how.steps.note }),
  });
  if (base === tonnes) return answer({ rate }, steps);
  const value = Math.max(0, rate + (tonnes - base) * per);
  steps.push({ what: `Corrected for yield`, expression: `${plain(rate, 1)} + (${plain(tonnes, 2)} − ${plain(base)}) × ${plain(per)}`, result: amount(value, place), ...from });
  return answer({ rate: value }, steps);
};

/** A rate between two printed yields, along the line. Outside them there is none: a table is never stretched. */
const byYield = (part: IndexPart, rows: NonNullable<IndexPart["byYield"]>, place: PartPlace): Outcome<PartRate> => {
  const { at, rule, pack, crop } = place;
  const rates = rows.map((r) => ({ yield: r.yield, rate: cell(r.rates, at) }));
  const missing = noAnswer(`${pack} gives no ${nutrients[rule.nutrient].label.toLowerCase()} rate for ${crops[crop].label} at ${rule.indexName} ${at.name}`, [
    `a ${nutrients[rule.nutrient].label.toLowerCase()} rate at ${rule.indexName} ${at.name}`,
  ]);
  // One rate at every yield, such as nothing at the highest class, needs no yield.
  const [first] = rates;
  if (first?.rate !== undefined && rates.every((r) => r.rate === first.rate)) return answer({ rate: first.rate }, [tableStep(part, place, first.rate, undefined)]);
  if (place.yieldTonnes.kind === "noAnswer") return place.yieldTonnes;
  const { value: tonnes, step } = place.yieldTonnes.value;
  const above = rates.findIndex((r) => r.yield >= tonnes);
  const least = rates[0]!.yield;
  if (above < 0 || tonnes < least)
    return noAnswer(`the yield of ${plain(tonnes, 2)} t/ha is outside the table of ${pack}, which runs from ${plain(least)} to ${plain(rates.at(-1)!.yield)} t/ha`, [
      `a yield from ${plain(least)} to ${plain(rates.at(-1)!.yield)} t/ha`,
    ]);
  const upper = rates[above]!;
  const lower = upper.yield === tonnes ? upper : rates[above - 1]!;
  if (upper.rate === undefined || lower.rate === undefined) return missing;
  const doubt = part.doubtful?.find((d) => isAt(d.class, at) && (d.yield === undefined || d.yield === upper.yield || d.yield === lower.yield));
  const exact = upper === lower;
  const rate = exact ? upper.rate : lower.rate + ((tonnes - lower.yield) / (upper.yield - lower.yield)) * (upper.rate - lower.rate);
  return answer({ rate, doubt: doubt?.note }, [
    step,
    {
      what: exact ? `Table for ${crops[crop].label}, ${plain(tonnes)} t/ha, at ${rule.indexName} ${at.name}` : `Table for ${crops[crop].label} at ${rule.indexName} ${at.name}, on the line between two printed yields`,
      ...(!exact && { expression: `${plain(lower.rate)} + (${plain(tonnes, 2)} − ${plain(lower.yield)}) ÷ ${plain(upper.yield - lower.yield)} × (${plain(upper.rate)} − ${plain(lower.rate)})` }),
      result: amount(rate, place),
      ...provenanceOf(part, place, doubt),
    },
  ]);
};
