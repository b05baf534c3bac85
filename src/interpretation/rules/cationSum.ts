import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import { boundWords } from "../measurement.ts";
import { list } from "../list.ts";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { resultStep } from "./bands.ts";
import { freeLimeAbove } from "./soilDoubts.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";
import { belowZero, plain } from "../show.ts";
import type { AnalyteId } from "../vocabulary.ts";
import { analyteInSentence, analytes, inWater, methodIds, methods } from "../vocabulary.ts";

/** How cations are summed: the weight of an equivalent of each, and each buffer's own acidity term. */
export const cationSumRule = z.strictObject({
  kind: z.literal("cationSum"),
  id: z.string(),
  equivalents: z
    .strictObject({ Ca: z.number(), Mg: z.number(), K: z.number(), Na: z.number(), ...provenance })
    .check(graded)
    .describe("ppm in 1 meq/100 g"),
  acidity: z.array(
    z.strictObject({
      buffer: z.enum(methodIds),
      slope: sourcedNumber.describe("meq/100 g for each unit of buffer pH"),
      from: z.number().describe("the buffer pH without soil; at and above it acidity is zero"),
    }),
  ),
});
export type CationSumRule = z.infer<typeof cationSumRule>;

const bases = ["Ca", "Mg", "K", "Na"] as const;
/** Sodium is small on most farmed soils and many laboratories leave it out; the others are needed. */
const required = ["Ca", "Mg", "K"] as const;

export interface Cations {
  /** meq/100 g */
  readonly cec: number;
  readonly acidity: number;
  /** Percent of the sum, acidity included. */
  readonly saturation: Partial<Record<(typeof bases)[number], number>>;
  readonly baseSaturation: number;
}

/**
 * Cation exchange capacity by summation (meq/100 g) and the share of each cation: information, never a rate.
 * Needs Ca, Mg and K in ppm by one extractant, and a buffer pH whose own acidity term is known.
 */
export const sumCations = (rule: CationSumRule, measurements: readonly Measurement[]): Outcome<Cations> => {
  const find = (analyte: AnalyteId): Measurement | undefined => measurements.find((m) => m.analyte === analyte && m.unit === "ppm");
  const absent = required.filter((a) => !find(a));
  const elsewhere = measurements.find((m) => absent.some((a) => a === m.analyte));
  if (elsewhere)
    return noAnswer(`${analyteInSentence(elsewhere.analyte)} is in ${elsewhere.unit} and the sum reads ppm`, [
      `${elsewhere.analyte} in ppm`,
    ]);
  if (absent.length > 0)
    return noAnswer(`${list(absent.map(analyteInSentence))} ${absent.length === 1 ? "was" : "were"} not tested`, absent);
  const found = bases.flatMap((b) => find(b) ?? []);
  const limited = found.find((m) => m.qualifier);
  if (limited) return noAnswer(`${boundWords(limited)}, and a sum needs numbers`, [`${limited.analyte} as a number`]);
  if (new Set(found.map((m) => m.method)).size > 1)
    return noAnswer("the cations were measured by different methods", ["Ca, Mg and K by one method"]);
  const buffers = measurements.filter((m) => m.analyte === "bufferPh");
  if (buffers.length === 0) return noAnswer("buffer pH was not measured, so the acidity is not known", ["bufferPh"]);
  const match = buffers.flatMap((b) => rule.acidity.filter((t) => t.buffer === b.method).map((term) => ({ term, buffer: b }))).at(0);
  if (!match)
    return noAnswer(`no acidity term is known for the ${methods[buffers[0]!.method].label}, and each term belongs to its own buffer`, [
      "an acidity term for this buffer",
    ]);

  const steps: Step[] = [];
  const parts = found.map((m) => {
    const base = m.analyte as (typeof bases)[number];
    const meq = m.value / rule.equivalents[base];
    steps.push({
      ...resultStep(m, analytes[base].label),
      expression: `${plain(m.value)} ppm ÷ ${plain(rule.equivalents[base])}`,
      result: `${plain(meq, 2)} meq/100 g`,
    });
    return { base, meq };
  });
  const { term, buffer } = match;
  const titrated = term.slope.value * (term.from - buffer.value);
  const acidity = Math.max(0, titrated);
  steps.push({
    what: `Acidity, by the term of the ${methods[buffer.method].label}`,
    expression: `${plain(term.slope.value)} × (${plain(term.from)} − ${plain(buffer.value)})`,
    result: `${belowZero(titrated, 2)}${plain(acidity, 2)} meq/100 g`,
    source: term.slope.source,
    evidence: term.slope.evidence,
    note: term.slope.note,
  });
  const limy = measurements.some((m) => m.analyte === "pH" && inWater(m.method) && m.value > freeLimeAbove);
  const sum = parts.reduce((total, p) => total + p.meq, 0);
  const cec = sum + acidity;
  if (cec <= 0) return noAnswer("no cations were found", ["Ca, Mg and K above zero"]);
  steps.push({
    what: "Sum of cations",
    expression: [...parts.map((p) => plain(p.meq, 2)), plain(acidity, 2)].join(" + "),
    result: `${plain(cec, 1)} meq/100 g`,
    source: rule.equivalents.source,
    evidence: rule.equivalents.evidence,
    ...(limy && {
      note: "at this pH the soil may hold free lime, which the extract dissolves: the sum and the share of calcium are then too high",
    }),
  });
  return answer(
    {
      cec,
      acidity,
      saturation: Object.fromEntries(parts.map((p) => [p.base, (100 * p.meq) / cec])),
      baseSaturation: (100 * sum) / cec,
    },
    steps,
  );
};
