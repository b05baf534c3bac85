import * as z from "zod";
import { rateUnits } from "../units.ts";
import { analyteIds, cropIds, nutrientIds } from "../vocabulary.ts";
import { positions } from "./bands.ts";
import { when } from "./conditions.ts";
import { limits } from "./limits.ts";
import { evidence, graded, provenance, sourcedNumber } from "./sourced.ts";

export const byClass = z.record(z.string(), z.number().nonnegative()).describe("rate by index class, in the rule's unit");

/** Yield x what a ton of it takes away, with steps added below the target class. */
const offtake = z.strictObject({
  perTonne: sourcedNumber.describe("in the rule's rate unit per t of yield"),
  add: byClass.describe("what is added to offtake, by class; a class that is not named gets its rate from `rates`"),
  roundTo: z
    .number()
    .positive()
    .optional()
    .describe("the table's own rounding, at tableYield, before a correction for yield: 5 rounds 62.4 to 60"),
  steps: z.strictObject(provenance).check(graded).describe("where the additions come from"),
});

/** One dose of the season, or all of it: rates by class from a table, by class and yield, or from offtake. */
const indexPart = z
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

const indexTable = z
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
export type IndexTable = z.infer<typeof indexTable>;

/** In place of the table's rate, where a second condition holds: it may reopen a zero, or close a rate. */
const exception = z
  .strictObject({
    when: when.optional(),
    classes: z.array(z.string()).min(1).describe("the classes it holds in"),
    testAbove: z.number().optional().describe("it also needs a result above this, in the rule's test unit"),
    rate: z.number().nonnegative(),
    ...provenance,
  })
  .check(graded);
export type IndexException = z.infer<typeof exception>;

/** The class whose rate is the most that organic soil gets: it holds no phosphorus that is built up there. */
const organicMost = z.strictObject({ class: z.string(), ...provenance }).check(graded);

/** What changes with the yield: tons (t) over or under the table's own, times what one takes away. */
const correction = z.strictObject({
  perTonne: sourcedNumber.describe("in the rule's rate unit per t of yield"),
  upTo: z.string().describe("the highest class that is corrected; above it the table's rate stands"),
  note: z.string().optional(),
});

/** A rate that is too much for one dressing: spread in equal parts, each with its own time. */
const split = z
  .strictObject({
    above: z.number().positive().describe("in the rule's unit; a rate up to this is one dressing"),
    doses: z.array(z.string().min(1)).min(2).describe("when each part is spread, such as `in spring`"),
    unless: when.optional().describe("places where all of it is spread at one time"),
    ...provenance,
  })
  .check(graded);
export type IndexSplit = z.infer<typeof split>;

const crop = z
  .strictObject({
    when: when.optional(),
    condition: z
      .string()
      .optional()
      .describe("what else the publication states the rates for, such as tops ploughed in; printed, not tested"),
    tableYield: sourcedNumber.optional().describe("t/ha that the table's rates are for"),
    correction: correction.optional(),
    parts: z.array(indexPart).min(1).describe("one, or one for each dose of the year"),
    split: split.optional(),
    ...provenance,
  })
  .check(graded)
  .refine((c) => c.correction === undefined || c.tableYield !== undefined, "corrects for yield and needs tableYield")
  .refine(
    (c) => c.correction === undefined || c.parts.length === 1,
    "corrects for yield and must have one part, or the doses would not sum",
  )
  .refine((c) => c.split === undefined || c.parts.length === 1, "has a split and must have one part, which is split");
export type IndexCrop = z.infer<typeof crop>;

/** A rate by index class and crop: from a table, corrected for yield, or from offtake with steps below the target. */
export const indexOfftakeRule = z
  .strictObject({
    kind: z.literal("indexOfftake"),
    id: z.string(),
    analyte: z.enum(analyteIds),
    nutrient: z.enum(nutrientIds).describe("what the publication prints its rates in: oxides or elements, never turned into the other"),
    unit: z.enum(rateUnits),
    limits,
    roundTo: z
      .number()
      .int()
      .min(0)
      .optional()
      .describe("decimals the result is rounded to before it is classed, where the printed classes leave gaps"),
    on: z.string().optional().describe("the land, where a publication has one set of tables for each, such as grass"),
    indexName: z.string().default("index").describe("what the publication calls a class"),
    indexes: z.array(indexTable).min(1),
    crops: z.array(crop).min(1),
    exceptions: z.array(exception).default([]),
    organicMost: organicMost.optional().describe("the class whose rate organic soil gets at most"),
  })
  .check(({ value, issues }) => {
    const known = new Set(value.indexes.flatMap((t) => t.classes.flatMap((c) => [c.name, ...(c.of === undefined ? [] : [c.of])])));
    const named = [
      ...value.crops.flatMap((c) => [...(c.correction ? [c.correction.upTo] : []), ...c.parts.flatMap(classesOf)]),
      ...value.exceptions.flatMap((e) => e.classes),
      ...(value.organicMost ? [value.organicMost.class] : []),
    ];
    for (const name of new Set(named))
      if (!known.has(name))
        issues.push({ code: "custom", input: value, path: [], message: `names class "${name}", which no index table has` });
  });
export type IndexOfftakeRule = z.infer<typeof indexOfftakeRule>;

const classesOf = (part: IndexPart): string[] => [
  ...Object.keys(part.rates ?? {}),
  ...Object.keys(part.offtake?.add ?? {}),
  ...(part.byYield ?? []).flatMap((y) => Object.keys(y.rates)),
  ...(part.doubtful ?? []).map((d) => d.class),
  ...(part.withheld ?? []).map((w) => w.class),
];
