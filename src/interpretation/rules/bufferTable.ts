import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { pH, plain } from "../show.ts";
import { methodIds, methods } from "../vocabulary.ts";
import { assumedMaterial, limeBasis, limeFigure } from "./limeBasis.ts";
import { evidence, graded, provenance, sourcedDepth } from "./sourced.ts";

/** A lime rate by buffer pH and target pH, read from a published table. */
export const bufferTableRule = z
  .strictObject({
    kind: z.literal("bufferTable"),
    id: z.string(),
    buffer: z.enum(methodIds),
    ...limeBasis,
    material: assumedMaterial,
    depth: sourcedDepth.describe("the depth of soil the rates are for"),
    betweenRows: z.literal("linear").describe("a buffer pH between two printed rows is read along the line between them"),
    targets: z.array(z.number()).min(1),
    rows: z.array(z.array(z.number())).min(2).describe("buffer pH, then one rate per target; falling buffer pH"),
    doubtful: z
      .array(z.strictObject({ buffer: z.number(), target: z.number(), evidence, note: z.string() }))
      .optional()
      .describe("single cells known less well than the table"),
    ...provenance,
  })
  .check(graded)
  .check(({ value, issues }) => {
    value.rows.forEach((row, i) => {
      const refuse = (message: string): void => void issues.push({ code: "custom", input: row, path: ["rows", i], message });
      if (row.length !== value.targets.length + 1)
        refuse(`has ${row.length} numbers; must have the buffer pH and ${value.targets.length} rates`);
      else if (i > 0 && row[0]! >= value.rows[i - 1]![0]!) refuse("must have a lower buffer pH than the row before");
    });
    if (value.targets.some((t, i) => i > 0 && t <= value.targets[i - 1]!))
      issues.push({ code: "custom", input: value.targets, path: ["targets"], message: "must rise" });
  });
export type BufferTableRule = z.infer<typeof bufferTableRule>;

/**
 * Lime requirement from the table, in its own unit, material and depth.
 * The column is the lowest printed target at or above the one wanted: a table that prints 6.4 and 6.8 answers 6.5 with
 * its 6.8 column, and a step says so. Between two printed buffer values the rate is read along the straight line.
 * No answer outside the printed buffer values or the printed targets: a table is never stretched, and the lowest column
 * would over-lime a soil that is wanted lower still.
 */
export const limeByBufferTable = (rule: BufferTableRule, bufferPh: number, target: number, pack: string): Outcome<number> => {
  const lowest = rule.targets[0]!;
  if (target < lowest - 1e-9)
    return noAnswer(`the target pH ${pH(target)} is below the lowest that ${pack} prints, ${pH(lowest)}`, ["targetPh"]);
  const column = rule.targets.findIndex((t) => t >= target - 1e-9);
  const printed = rule.targets[column];
  if (printed === undefined)
    return noAnswer(`the target pH ${pH(target)} is above the highest that ${pack} prints, ${pH(rule.targets.at(-1)!)}`, ["targetPh"]);
  const top = rule.rows[0]![0]!;
  const bottom = rule.rows.at(-1)![0]!;
  if (bufferPh > top || bufferPh < bottom)
    return noAnswer(`the buffer pH ${pH(bufferPh)} is outside the table of ${pack}, which runs from ${pH(bottom)} to ${pH(top)}`, [
      `a table for buffer pH ${pH(bufferPh)}`,
    ]);

  const steps: Step[] = [];
  if (Math.abs(printed - target) > 1e-9)
    steps.push({
      what: "Column of the table: the lowest printed target at or above the one wanted",
      expression: `${pH(target)}, printed: ${rule.targets.map(pH).join(", ")}`,
      result: `pH ${pH(printed)}`,
      source: rule.source,
      evidence: rule.evidence,
    });
  const read = (row: readonly number[]): number => row[column + 1]!;
  const doubtOf = (row: readonly number[]) => rule.doubtful?.find((d) => d.buffer === row[0] && d.target === printed);
  const below = rule.rows.findIndex((row) => row[0]! <= bufferPh);
  const lower = rule.rows[below]!;
  const exact = lower[0] === bufferPh;
  const upper = exact ? lower : rule.rows[below - 1]!;
  const share = exact ? 0 : (upper[0]! - bufferPh) / (upper[0]! - lower[0]!);
  const value = read(upper) + share * (read(lower) - read(upper));
  const doubt = doubtOf(lower) ?? doubtOf(upper);
  const note = doubt?.note ?? rule.note;
  steps.push({
    what: exact
      ? `${methods[rule.buffer].label} ${pH(bufferPh)}, target ${pH(printed)}: read from the table`
      : `${methods[rule.buffer].label} ${pH(bufferPh)}, target ${pH(printed)}: on the line between two printed rows`,
    ...(!exact && {
      expression: `${plain(read(upper))} + (${pH(upper[0]!)} − ${pH(bufferPh)}) ÷ ${plain(upper[0]! - lower[0]!)} × (${plain(read(lower))} − ${plain(read(upper))})`,
    }),
    result: `${limeFigure(value, rule.unit)} ${rule.unit} of ${rule.material.label}`,
    source: rule.source,
    evidence: doubt?.evidence ?? rule.evidence,
    note,
  });
  return answer(value, steps);
};
