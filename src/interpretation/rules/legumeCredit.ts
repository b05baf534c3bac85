import * as z from "zod";
import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { CropId } from "../vocabulary.ts";
import { cropIds, crops } from "../vocabulary.ts";
import type { NitrateHistory } from "./nitrateFacts.ts";
import { chooseRow, historySteps, nitrateWhen, notChosen } from "./factTests.ts";
import { atLeastNothing, historyStep } from "./nitrateFacts.ts";
import { graded, provenance } from "./sourced.ts";

const row = z
  .strictObject({
    crops: z.array(z.enum(cropIds)).min(1),
    when: nitrateWhen.optional(),
    credit: z.number().nonnegative().optional().describe("lb N an acre"),
    perYield: z.number().positive().optional().describe("lb N an acre for each bushel harvested"),
    from: z.number().nonnegative().optional().describe("the lower end, where a range is printed"),
    to: z.number().positive().optional().describe("the upper end"),
    less: z
      .strictObject({ when: nitrateWhen, value: z.number().positive(), ...provenance })
      .check(graded)
      .optional()
      .describe("taken off the credit where this holds"),
    ...provenance,
  })
  .check(graded)
  .refine((r) => [r.credit, r.perYield, r.from].filter((v) => v !== undefined).length === 1, "needs credit, perYield, or from and to")
  .refine(
    (r) => (r.from === undefined) === (r.to === undefined) && (r.from ?? 0) <= (r.to ?? Infinity),
    "a range needs from and to, and must rise",
  );

/** Nitrogen that the crop before leaves to the next. */
export const legumeCreditRule = z.strictObject({
  kind: z.literal("legumeCredit"),
  id: z.string(),
  unit: z.literal("lb/ac"),
  before: z.array(z.enum(cropIds)).min(1).optional().describe("the crops that the credit is for; absent: every crop"),
  rows: z.array(row).min(1),
});
export type LegumeCreditRule = z.infer<typeof legumeCreditRule>;

export interface LegumeCredit {
  /** lb N an acre; the lower end where a range is printed. */
  readonly credit: number;
  /** The upper end of a printed range. */
  readonly upTo?: number | undefined;
}

export const isLegume = (rule: LegumeCreditRule, crop: CropId): boolean => rule.rows.some((r) => r.crops.includes(crop));

/**
 * Nitrogen credit, lb/ac, of the crop before. A printed range is answered with its lower end, and the step and the caution
 * name both: a larger credit than the stand has earned would starve the crop. No answer for a crop the table lacks, or
 * where the stand that decides is not recorded.
 */
export const creditOfLegume = (rule: LegumeCreditRule, history: NitrateHistory, pack: string): Outcome<LegumeCredit> => {
  const previous = history.previousCrop;
  if (!previous) return noAnswer("the crop before is not recorded", ["previousCrop"]);
  const crop = previous.value as CropId;
  const rows = rule.rows.filter((r) => r.crops.includes(crop));
  if (rows.length === 0) return noAnswer(`${pack} gives no credit after ${crops[crop].label}`, [`a credit after ${crops[crop].label}`]);
  const chosen = chooseRow(rows, history);
  if (!chosen.found) return notChosen(chosen.missing, pack);
  const { credit, perYield, from, to, less, source, evidence, note, when } = chosen.found;
  const grade = { source, evidence, note };
  const steps = [historyStep("previousCrop", history), ...historySteps(when ?? [], history)];
  const cautions: string[] = [];
  let value: number;
  if (perYield !== undefined) {
    const yielded = history.previousYield;
    if (!yielded) return notChosen("previousYield", pack);
    if (!steps.some((s) => s.what.startsWith("The yield"))) steps.push(historyStep("previousYield", history));
    value = perYield * yielded.value;
    steps.push({
      what: `Credit after ${crops[crop].label}`,
      expression: `${plain(perYield)} × ${plain(yielded.value)}`,
      result: `${plain(value, 1)} lb N/ac`,
      ...grade,
    });
  } else if (credit !== undefined) {
    value = credit;
    steps.push({ what: `Credit after ${crops[crop].label}`, result: `${plain(value)} lb N/ac`, ...grade });
  } else {
    value = from!;
    steps.push({
      what: `Credit after ${crops[crop].label}, printed as ${plain(from!)} to ${plain(to!)}: the lower end`,
      result: `${plain(value)} lb N/ac`,
      ...grade,
    });
    cautions.push(
      `The credit after ${crops[crop].label} is printed as ${plain(from!)} to ${plain(to!)} lb N an acre; the lower end is counted here.`,
    );
  }
  if (less) {
    const chosenLess = chooseRow([{ when: less.when }], history);
    if (!chosenLess.found && chosenLess.missing) return notChosen(chosenLess.missing, pack);
    if (chosenLess.found) {
      steps.push(...historySteps(less.when, history));
      const left = atLeastNothing(value - less.value);
      steps.push({
        what: "Less, for this stand",
        expression: `${plain(value)} − ${plain(less.value)}`,
        result: `${plain(left)} lb N/ac`,
        source: less.source,
        evidence: less.evidence,
        note: less.note,
      });
      value = left;
    }
  }
  return answer({ credit: value, ...(to !== undefined && { upTo: to }) }, steps, cautions);
};
