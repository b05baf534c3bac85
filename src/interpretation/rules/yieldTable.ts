import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { sourcedNumber } from "./sourced.ts";
import { graded, provenance } from "./sourced.ts";

const row = z.strictObject({ yield: z.number().positive(), nitrogen: z.number().nonnegative() });
const rising = (rows: readonly z.infer<typeof row>[]): boolean =>
  rows.every((r, i) => i === 0 || (r.yield > rows[i - 1]!.yield && r.nitrogen >= rows[i - 1]!.nitrogen));

/** Nitrogen printed for some yields: lb N an acre for each yield goal, in the unit of the rule that holds the table. */
export const yieldTable = z
  .strictObject({ rows: z.array(row).min(2).refine(rising, "must rise: each row a higher yield and no less nitrogen"), ...provenance })
  .check(graded);
export type YieldTable = z.infer<typeof yieldTable>;

/** A yield goal as the record counts it, and the pounds of that unit: a goal that is called for in pounds could not be recorded. */
interface AskedGoal {
  readonly goal: number;
  readonly unit: string;
  readonly weight: number;
}

/**
 * What the table prints for a yield goal, lb N an acre. Only printed rows are read: a goal between two of them gets no
 * number, because no publication with such a table was found to say that it may be read along a line.
 * `asked`: where the record counts in another unit than the table.
 */
export const nitrogenForYield = (
  { rows, source, evidence, note }: YieldTable,
  goal: number,
  unit: string,
  pack: string,
  asked: AskedGoal = { goal, unit, weight: 1 },
): Outcome<number> => {
  const from = { source, evidence, note };
  const inAsked = (y: number): string => plain(asked.weight === 1 ? y : Math.round(y / asked.weight));
  const goalWords = `the yield goal is ${plain(asked.goal)} ${asked.unit}`;
  const exact = rows.find((r) => Math.abs(r.yield - goal) < 1e-9 * r.yield);
  if (exact)
    return answer(exact.nitrogen, [
      { what: `Printed for a yield of ${plain(goal)} ${unit}`, result: `${plain(exact.nitrogen)} lb N/ac`, ...from },
    ]);
  const above = rows.findIndex((r) => r.yield > goal);
  const [first, last] = [rows[0]!, rows.at(-1)!];
  if (above <= 0)
    return noAnswer(`${goalWords}, and ${pack} prints nitrogen for ${inAsked(first.yield)} to ${inAsked(last.yield)} ${asked.unit}`, [
      `a yield goal from ${inAsked(first.yield)} to ${inAsked(last.yield)} ${asked.unit}`,
    ]);
  const [less, more] = [rows[above - 1]!, rows[above]!];
  const words = (r: z.infer<typeof row>): string => `${inAsked(r.yield)} ${asked.unit} (${plain(r.nitrogen)} lb, less the soil's nitrate)`;
  return noAnswer(`${goalWords}, and ${pack} prints nitrogen for ${words(less)} and ${words(more)} and for no yield between them`, [
    `a yield goal of ${inAsked(less.yield)} or ${inAsked(more.yield)} ${asked.unit}`,
  ]);
};

/** A goal in bushels as the pounds that a table counts in: the printed row it comes to, where that is the nearest bushel. */
export const goalInPounds = (
  bushels: number,
  { value: weight, note, ...from }: z.infer<typeof sourcedNumber>,
  table: YieldTable | undefined,
): { goal: number; asked: AskedGoal; step: Step } => {
  const pounds = bushels * weight;
  const row = table?.rows.find((r) => Math.abs(r.yield - pounds) <= weight / 2);
  return {
    goal: row?.yield ?? pounds,
    asked: { goal: bushels, unit: "bu/ac", weight },
    step: {
      what: "Yield goal in pounds",
      expression: `${plain(bushels)} × ${plain(weight)} lb`,
      result: `${plain(pounds)} lb/ac`,
      ...from,
      note: row ? `to the nearest bushel the printed ${plain(row.yield)} lb/ac` : note,
    },
  };
};
