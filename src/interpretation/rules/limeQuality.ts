import * as z from "zod";
import { list } from "../list.ts";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { limeIndexIds, limeIndices } from "../vocabulary.ts";
import { capital } from "./nitrateFacts.ts";
import { graded, provenance } from "./sourced.ts";

/** US standard sieves, by mesh number: 8 is 2.36 mm, 60 is 0.25 mm (ASTM E11). */
const mesh = z.number().int().positive();

const sizeClass = z
  .strictObject({ passing: mesh.optional(), retainedOn: mesh.optional(), factor: z.number().min(0).max(1) })
  .refine((c) => c.passing !== undefined || c.retainedOn !== undefined, "needs passing, retainedOn or both")
  .refine(
    (c) => c.passing === undefined || c.retainedOn === undefined || c.retainedOn > c.passing,
    "is kept on a screen that must be finer than the one it passes",
  );

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
      .array(sizeClass)
      .min(1)
      .describe("from coarse to fine; what stays on the coarsest screen has no passing, the finest class no retainedOn"),
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
    moreToHaul: z
      .strictObject(provenance)
      .check(graded)
      .optional()
      .describe("the index is of dry lime, and the publication says that water adds to the tons to haul"),
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
 * The index in its own unit, percent or lb/ton: fineness x CCE, less moisture where the index counts it, times what pure
 * and fully effective calcium carbonate has. No answer when a screen the rule reads was not reported.
 */
export const limeQuality = (rule: LimeQualityRule, analysis: LimeAnalysis): Outcome<number> => {
  const needed =
    rule.fineness.convention === "cumulativePassing"
      ? rule.fineness.screens.map((s) => s.mesh)
      : rule.fineness.classes.flatMap((c) => [c.passing, c.retainedOn].flatMap((m) => m ?? []));
  const absent = [...new Set(needed)].filter((m) => analysis.passing[m] === undefined);
  if (absent.length > 0)
    return noAnswer(
      `the share passing ${list(absent.map((m) => `${m} mesh`))} is not known`,
      absent.map((m) => `passing ${m} mesh`),
    );
  const coarseToFine = Object.entries(analysis.passing).sort(([a], [b]) => Number(a) - Number(b));
  const slip = coarseToFine.find(([, percent], i) => i > 0 && percent > coarseToFine[i - 1]![1]);
  if (slip)
    return noAnswer(`more is said to pass ${slip[0]} mesh than a coarser screen, which cannot be`, [
      "a sieve analysis that falls with finer screens",
    ]);
  const share = (m: number): number => analysis.passing[m]!;
  const terms =
    rule.fineness.convention === "cumulativePassing"
      ? rule.fineness.screens.map((s) => ({
          weight: s.weight,
          percent: share(s.mesh),
          text: `${plain(s.weight)} × ${plain(share(s.mesh))}`,
        }))
      : rule.fineness.classes.map((c) => {
          const over = c.passing === undefined ? 100 : share(c.passing);
          const percent = over - (c.retainedOn === undefined ? 0 : share(c.retainedOn));
          const text = c.retainedOn === undefined ? plain(over) : `(${plain(over)} − ${plain(share(c.retainedOn))})`;
          return { weight: c.factor, percent, text: `${plain(c.factor)} × ${text}` };
        });
  const effective = terms.reduce((sum, t) => sum + t.weight * t.percent, 0);
  const dry = rule.countsMoisture ? (100 - analysis.moisture) / 100 : 1;
  const { label, unit, pure } = limeIndices[rule.index];
  const value = (effective / 100) * (analysis.cce / 100) * dry * pure;
  const from = { source: rule.source, evidence: rule.evidence, note: rule.note };
  const steps: Step[] = [
    { what: "Fineness", expression: terms.map((t) => t.text).join(" + "), result: `${plain(effective, 1)} %`, ...from },
    {
      what: `${capital(label)} of the material`,
      expression: `${plain(effective, 1)} % × ${plain(analysis.cce, 1)} %${rule.countsMoisture ? ` × ${plain(100 - analysis.moisture, 1)} %` : ""}${unit === "%" && pure === 100 ? "" : ` × ${plain(pure)}`}`,
      result: `${plain(value, 1)} ${unit}`,
      ...from,
    },
  ];
  return answer(value, steps);
};
