import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { pH as showPh, plain, round } from "../show.ts";
import { methodIds } from "../vocabulary.ts";
import { limeBasis, limeName } from "./limeBasis.ts";
import { graded, provenance } from "./sourced.ts";

const cell = z.strictObject({
  upTo: z.number().nullable().describe("the highest aluminum of the class, ppm; null for the last, which is open"),
  rate: z.number().nonnegative(),
});

const row = z.strictObject({
  from: z.number().nullable().describe("the lowest soil pH of the row; null for the last, which is open below"),
  rates: z
    .array(cell)
    .min(1)
    .refine(
      (all) =>
        all.every((c, i) => (c.upTo === null ? i === all.length - 1 : i === 0 || c.upTo > all[i - 1]!.upTo!)) && all.at(-1)?.upTo === null,
      "upTo must rise, and be null in the last class alone",
    ),
});

/** A lime rate by soil pH and reactive aluminum, without a buffer. */
export const phAluminumRule = z
  .strictObject({
    kind: z.literal("phAluminum"),
    id: z.string(),
    method: z.enum(methodIds).describe("the medium the soil pH is measured in"),
    methodFrom: z.strictObject(provenance).check(graded).describe("how well the medium and the aluminum test are known"),
    aluminum: z.enum(methodIds).describe("how the aluminum is extracted; ppm"),
    ...limeBasis,
    target: z.number().describe("the one target pH the table is for"),
    roundPhTo: z.number().int().min(0).describe("decimals the pH is rounded to first, for rows printed with gaps between"),
    roundAluminumTo: z.number().int().min(0),
    rows: z
      .array(row)
      .min(2)
      .refine(
        (all) =>
          all.every((r, i) => (r.from === null ? i === all.length - 1 : i === 0 || r.from < all[i - 1]!.from!)) &&
          all.at(-1)?.from === null,
        "from must fall, and be null in the last row alone",
      ),
    ...provenance,
  })
  .check(graded);
export type PhAluminumRule = z.infer<typeof phAluminumRule>;

/**
 * Lime requirement in the rule's unit from soil pH and reactive aluminum (ppm). Both are rounded as the rows are printed
 * and then classed. No answer for a target other than the table's own; where a row has one rate for every aluminum, the
 * aluminum is not asked for, and `undefined` will do.
 */
export const limeByPhAluminum = (
  rule: PhAluminumRule,
  soilPh: number,
  aluminum: number | undefined,
  target: number,
  pack: string,
): Outcome<number> => {
  if (Math.abs(target - rule.target) > 1e-9)
    return noAnswer(`the table of ${pack} is for target pH ${showPh(rule.target)} alone, and the target is ${showPh(target)}`, [
      "targetPh",
    ]);
  const read = round(soilPh, rule.roundPhTo);
  const chosen = rule.rows.find((r) => r.from === null || read >= r.from)!;
  if (chosen.rates.length > 1 && aluminum === undefined)
    return noAnswer(`aluminum was not tested, and ${pack} sets the lime rate by it`, ["Al"]);
  const found =
    aluminum === undefined
      ? chosen.rates[0]!
      : chosen.rates.find((c) => c.upTo === null || round(aluminum, rule.roundAluminumTo) <= c.upTo)!;
  const before = chosen.rates[chosen.rates.indexOf(found) - 1]?.upTo;
  const classed =
    chosen.rates.length === 1
      ? "any aluminum"
      : found.upTo === null
        ? `aluminum above ${plain(before!)} ppm`
        : `aluminum up to ${plain(found.upTo)} ppm`;
  const steps: Step[] = [
    { what: "The table reads soil pH and aluminum by", result: "its own medium and extract", ...rule.methodFrom },
    {
      what: "Read from the table",
      expression: [`soil pH ${showPh(soilPh)}`, aluminum !== undefined && `aluminum ${plain(aluminum)} ppm`].filter(Boolean).join(", "),
      result: `${found.rate === 0 ? "no lime" : `${plain(found.rate, 2)} ${rule.unit} of ${limeName(rule)}`}, in the row ${chosen.from === null ? "of the lowest pH" : `from pH ${showPh(chosen.from)}`}, ${classed}`,
      source: rule.source,
      evidence: rule.evidence,
      note: rule.note,
    },
  ];
  if (found.rate > 0 && soilPh >= rule.target)
    steps.push({
      what: "The soil is at the target or above it, and the table still prints a rate",
      expression: `${showPh(soilPh)} against ${showPh(rule.target)}`,
      result: "kept as printed",
    });
  return answer(found.rate, steps);
};
