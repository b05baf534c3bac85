import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { limeIndexIds, limeIndices } from "../vocabulary.ts";
import { graded, provenance } from "./sourced.ts";

/** US standard sieves, by mesh number: 8 is 2.36 mm, 60 is 0.25 mm (ASTM E11). */
const mesh = z.number().int().positive();

/**
 * Two conventions that must not be mixed. `cumulativePassing`: each weight multiplies the percent passing its own screen,
 * so the weights are increments. `sizeClasses`: each factor multiplies the share between two screens.
 */
const fineness = z.discriminatedUnion("convention", [
  z.strictObject({
    convention: z.literal("cumulativePassing"),
    screens: z.array(z.strictObject({ mesh, weight: z.number().min(0).max(1) })).min(1),
  }),
  z.strictObject({
    convention: z.literal("sizeClasses"),
    classes: z
      .array(z.strictObject({ passing: mesh, retainedOn: mesh.optional(), factor: z.number().min(0).max(1) }))
      .min(1)
      .describe("from coarse to fine; the finest class has no retainedOn"),
  }),
]);

/** What a liming material is worth, from its purity, fineness and moisture. */
export const limeQualityRule = z
  .strictObject({
    kind: z.literal("limeQuality"),
    id: z.string(),
    index: z.enum(limeIndexIds),
    fineness,
    countsMoisture: z.boolean().describe("whether the index is of the material as hauled, with its water"),
    ...provenance,
  })
  .check(graded);
export type LimeQualityRule = z.infer<typeof limeQualityRule>;

/** A laboratory's or supplier's analysis of a liming material. `passing` maps a mesh number to percent passing. */
export interface LimeAnalysis {
  readonly cce: number;
  readonly moisture: number;
  readonly passing: Readonly<Record<string, number>>;
}

/**
 * The index in percent (100 is pure, fully effective calcium carbonate): fineness x CCE, less moisture where the index
 * counts it. No answer when a screen the rule reads was not reported.
 */
export const limeQuality = (rule: LimeQualityRule, analysis: LimeAnalysis): Outcome<number> => {
  const needed =
    rule.fineness.convention === "cumulativePassing"
      ? rule.fineness.screens.map((s) => s.mesh)
      : rule.fineness.classes.flatMap((c) => (c.retainedOn === undefined ? [c.passing] : [c.passing, c.retainedOn]));
  const absent = [...new Set(needed)].filter((m) => analysis.passing[m] === undefined);
  if (absent.length > 0)
    return noAnswer(`the share passing ${absent.map((m) => `${m} mesh`).join(" and ")} is not known`, absent.map((m) => `passing ${m} mesh`));
  const coarseToFine = Object.entries(analysis.passing).sort(([a], [b]) => Number(a) - Number(b));
  const slip = coarseToFine.find(([, percent], i) => i > 0 && percent > coarseToFine[i - 1]![1]);
  if (slip) return noAnswer(`more is said to pass ${slip[0]} mesh than a coarser screen, which cannot be`, ["a sieve analysis that falls with finer screens"]);
  const share = (m: number): number => analysis.passing[m]!;
  const terms =
    rule.fineness.convention === "cumulativePassing"
      ? rule.fineness.screens.map((s) => ({ weight: s.weight, percent: share(s.mesh), text: `${plain(s.weight)} × ${plain(share(s.mesh))}` }))
      : rule.fineness.classes.map((c) => {
          const percent = share(c.passing) - (c.retainedOn === undefined ? 0 : share(c.retainedOn));
          const text = c.retainedOn === undefined ? plain(share(c.passing)) : `(${plain(share(c.passing))} − ${plain(share(c.retainedOn))})`;
          return { weight: c.factor, percent, text: `${plain(c.factor)} × ${text}` };
        });
  const effective = terms.reduce((sum, t) => sum + t.weight * t.percent, 0);
  const dry = rule.countsMoisture ? (100 - analysis.moisture) / 100 : 1;
  const value = (effective / 100) * (analysis.cce / 100) * dry * 100;
  const from = { source: rule.source, evidence: rule.evidence, ...(rule.note && { note: rule.note }) };
  const steps: Step[] = [
    { what: "Fineness", expression: terms.map((t) => t.text).join(" + "), result: `${plain(effective, 1)} %`, ...from },
    {
      what: `${limeIndices[rule.index].label} of the material`,
      expression: `${plain(effective, 1)} % × ${plain(analysis.cce, 1)} %${rule.countsMoisture ? ` × ${plain(100 - analysis.moisture, 1)} %` : ""}`,
      result: `${plain(value, 1)} %`,
      ...from,
    },
  ];
  return answer(value, steps);
};
