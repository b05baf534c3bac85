import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { pH as showPh, plain } from "../show.ts";
import { methodIds } from "../vocabulary.ts";
import { printedTarget } from "./acidityMultiple.ts";
import { limeBasis, limeFigure, limeName } from "./limeBasis.ts";
import { graded, provenance } from "./sourced.ts";

/** A lime rate by exchangeable acidity and target, read from a published table. */
export const acidityTableRule = z
  .strictObject({
    kind: z.literal("acidityTable"),
    id: z.string(),
    method: z.enum(methodIds).describe("how the acidity is measured"),
    ...limeBasis,
    betweenRows: z.literal("linear").describe("an acidity between two printed rows is read along the line between them"),
    targets: z.array(z.number()).min(1),
    rows: z.array(z.array(z.number())).min(2).describe("acidity, then one rate per target; rising acidity"),
    ...provenance,
  })
  .check(graded)
  .check(({ value, issues }) => {
    value.rows.forEach((row, i) => {
      const refuse = (message: string): void => void issues.push({ code: "custom", input: row, path: ["rows", i], message });
      if (row.length !== value.targets.length + 1)
        refuse(`has ${row.length} numbers; must have the acidity and ${value.targets.length} rates`);
      else if (i > 0 && row[0]! <= value.rows[i - 1]![0]!) refuse("must have a higher acidity than the row before");
    });
    if (value.targets.some((t, i) => i > 0 && t <= value.targets[i - 1]!))
      issues.push({ code: "custom", input: value.targets, path: ["targets"], message: "must rise" });
  });
export type AcidityTableRule = z.infer<typeof acidityTableRule>;

/**
 * Lime requirement in the rule's unit from exchangeable acidity, meq/100 g, read from the table: between two rows along
 * the straight line, in the column of the lowest printed target at or above the one wanted.
 * No answer outside the printed acidities or targets. At and above the target 0, which is an answer.
 */
export const limeByAcidityTable = (
  rule: AcidityTableRule,
  acidity: number,
  soilPh: number,
  target: number,
  pack: string,
): Outcome<number> => {
  const columns = rule.targets.map((each, column) => ({ target: each, column: column + 1 }));
  const chosen = printedTarget(columns, target, pack);
  if (chosen.kind === "noAnswer") return chosen;
  const { target: printed, column } = chosen.value;
  const from = { source: rule.source, evidence: rule.evidence };
  const steps: Step[] = [];
  if (Math.abs(printed - target) > 1e-9)
    steps.push({
      what: "Column of the table: the lowest printed target at or above the one wanted",
      expression: `${showPh(target)}, printed: ${rule.targets.map(showPh).join(", ")}`,
      result: `pH ${showPh(printed)}`,
      ...from,
    });
  if (soilPh >= printed) {
    steps.push({
      what: "The soil is at the target or above it",
      expression: `${showPh(soilPh)} against ${showPh(printed)}`,
      result: "no lime",
      ...from,
    });
    return answer(0, steps);
  }
  const least = rule.rows[0]![0]!;
  const most = rule.rows.at(-1)![0]!;
  if (acidity < least || acidity > most)
    return noAnswer(
      `the exchangeable acidity ${plain(acidity)} is outside the table of ${pack}, which runs from ${plain(least)} to ${plain(most)} meq/100 g`,
      [`a table for an acidity of ${plain(acidity)} meq/100 g`],
    );
  const at = rule.rows.findIndex((r) => r[0]! >= acidity);
  const upper = rule.rows[at]!;
  const lower = upper[0] === acidity ? upper : rule.rows[at - 1]!;
  const share = upper === lower ? 0 : (acidity - lower[0]!) / (upper[0]! - lower[0]!);
  const value = lower[column]! + share * (upper[column]! - lower[column]!);
  steps.push({
    what:
      upper === lower
        ? `Acidity ${plain(acidity)}, target ${showPh(printed)}: read from the table`
        : `Acidity ${plain(acidity)}, target ${showPh(printed)}: on the line between two printed rows`,
    ...(upper !== lower && {
      expression: `${plain(lower[column]!)} + (${plain(acidity)} − ${plain(lower[0]!)}) ÷ ${plain(upper[0]! - lower[0]!)} × (${plain(upper[column]!)} − ${plain(lower[column]!)})`,
    }),
    result: `${limeFigure(value, rule.unit)} ${rule.unit} of ${limeName(rule)}`,
    ...from,
    note: rule.note,
  });
  return answer(value, steps);
};
