import * as z from "zod";
import { list } from "../list.ts";
import type { NoAnswer, Step } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import type { Depth, Measurement } from "../measurement.ts";
import { depthIn, depthLabel, methodLabel } from "../measurement.ts";
import type { CropId } from "../vocabulary.ts";
import {
  analyteInSentence,
  cropIds,
  crops,
  finishes,
  finishIds,
  methodIds,
  methods,
  preparationIds,
  soilTestUnits,
} from "../vocabulary.ts";
import { graded, provenance, sourcedDepth } from "./sourced.ts";

/** What a rule was calibrated for. Outside it there is no answer. */
export const limits = z.strictObject({
  method: z.enum(methodIds),
  finish: z.enum(finishIds).optional().describe("absent: the publication does not say"),
  preparation: z.enum(preparationIds).optional(),
  unit: z.enum(soilTestUnits),
  otherUnit: z
    .strictObject({ unit: z.enum(soilTestUnits), ...provenance })
    .check(graded)
    .optional()
    .describe("another unit whose figures are read as they are, where a publication calls the two about the same"),
  depth: sourcedDepth.optional().describe("absent: the rule holds for any depth"),
  otherDepth: sourcedDepth.optional().describe("another depth that the publication samples some of this land to, such as young leys"),
  crops: z.array(z.enum(cropIds)).min(1).optional().describe("absent: every crop"),
  assumes: z
    .array(z.strictObject({ statement: z.string().min(1), ...provenance }).check(graded))
    .optional()
    .describe("what the rule also rests on that its values do not say, such as an extractant known only from memory"),
});
export type Limits = z.infer<typeof limits>;

/** A calibration holds for its own depth, give or take an inch (common practice). */
const depthTolerance = 1;

const methodNeeded = (l: Limits): string => [methods[l.method].label, l.finish && finishes[l.finish]].filter(Boolean).join(", ");

/** What the rule also rests on, as lines of the sum: an answer is known no better than its weakest part. */
export const assumptionSteps = (
  l: Pick<Limits, "assumes" | "depth" | "otherDepth" | "unit" | "otherUnit">,
  m: Pick<Measurement, "depth" | "unit">,
): Step[] => [
  ...(l.otherUnit && m.unit === l.otherUnit.unit ? [otherUnitStep(l.unit, l.otherUnit)] : []),
  ...(l.assumes ?? []).map(({ statement, ...from }) => ({ what: "Taken for granted", result: statement, ...from })),
  ...(l.depth && l.otherDepth && !reaches(m.depth, l.depth) ? [otherDepthStep(m.depth, l.otherDepth)] : []),
];

const otherUnitStep = (unit: Limits["unit"], { unit: other, source, evidence, note }: NonNullable<Limits["otherUnit"]>): Step => ({
  what: `Results in ${other} are taken for ${unit}`,
  result: `as ${unit}`,
  source,
  evidence,
  note,
});

const otherDepthStep = (taken: Depth, { source, evidence, note }: NonNullable<Limits["otherDepth"]>): Step => ({
  what: "Depth sampled",
  result: depthLabel(taken),
  source,
  evidence,
  note,
});

/** Was the sample taken as deep as that, within what a calibration allows? */
const reaches = (taken: Depth, depth: Depth): boolean => {
  const [is, wanted] = [depthIn(taken, "in"), depthIn(depth, "in")];
  return Math.abs(is.from - wanted.from) <= depthTolerance + 1e-3 && Math.abs(is.to - wanted.to) <= depthTolerance + 1e-3;
};

/** Was the measurement made the way the rule reads? Of several refusals the one of such a rule says most. */
export const readsMethod = (l: Pick<Limits, "method" | "finish" | "preparation">, m: Measurement): boolean =>
  m.method === l.method && (l.finish === undefined || m.finish === l.finish) && (m.preparation ?? "dried") === (l.preparation ?? "dried");

/**
 * A rule that does not hold for this crop. Publications print "wheat" or "winter wheat", each with its own yield unit here: of such a
 * near name among the crops that it holds for the refusal tells, since the record may have meant that.
 */
export const noRuleFor = (crop: CropId, held: readonly CropId[], pack: string): NoAnswer => {
  const { label } = crops[crop];
  const near = held.map((c) => crops[c].label).filter((other) => label.endsWith(` ${other}`) || other.endsWith(` ${label}`));
  return noAnswer(`${pack} has no rule for ${label}${near.length > 0 ? `, but one for ${list(near)}` : ""}`, [`a guideline for ${label}`]);
};

/**
 * Why this measurement and crop are outside a rule's calibration, or `undefined` when they are inside.
 * `pack` is the guideline's short name, used in the sentence. A crop the rule does not speak of is told first: no other sample
 * would settle that.
 */
export const outsideLimits = (l: Limits, m: Measurement, crop: CropId | undefined, pack: string): NoAnswer | undefined => {
  if (l.crops && crop !== undefined && !l.crops.includes(crop)) return noRuleFor(crop, l.crops, pack);
  if (m.method !== l.method || (l.finish && m.finish !== l.finish))
    return noAnswer(`${analyteInSentence(m.analyte)} was measured by ${methodLabel(m)} and ${pack} is calibrated for ${methodNeeded(l)}`, [
      `${m.analyte} by ${methodNeeded(l)}`,
    ]);
  if ((m.preparation ?? "dried") !== (l.preparation ?? "dried"))
    return noAnswer(
      `the laboratory extracted ${m.preparation ?? "dried"} soil and ${pack} is calibrated for ${l.preparation ?? "dried"} soil`,
      [`${m.analyte} on ${l.preparation ?? "dried"} soil`],
    );
  if (m.unit !== l.unit && m.unit !== l.otherUnit?.unit)
    return noAnswer(`the result is ${m.unit === "index" ? "an index" : `in ${m.unit}`} and ${pack} reads ${l.unit}`, [
      `${m.analyte} in ${l.unit}`,
    ]);
  const depths = [l.depth, l.otherDepth].filter((d) => d !== undefined);
  if (depths.length > 0 && !depths.some((d) => reaches(m.depth, d))) {
    const wanted = depths.map(depthLabel).join(" or ");
    return noAnswer(`the sample was taken ${depthLabel(m.depth)} deep and ${pack} is calibrated for ${wanted}`, [
      `a sample ${wanted} deep`,
    ]);
  }
  return l.crops && crop === undefined ? noAnswer("no crop is planned", ["crop"]) : undefined;
};
