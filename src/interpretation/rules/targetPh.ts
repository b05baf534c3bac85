import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Band } from "./bands.ts";
import { pH } from "../show.ts";
import type { CropId } from "../vocabulary.ts";
import { crops, methodIds } from "../vocabulary.ts";
import { acidCropMost, growsOnAcidSoil, unnamedAcidCrop } from "./acidCrop.ts";
import { metLabel, conditionSteps, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { leftOut, leftOutPlace } from "./leftOutPlace.ts";
import { mineralOnly, mineralSteps, notMineral, silentOnOrganic } from "./mineralOnly.ts";
import { sourcedNumber } from "./sourced.ts";
import { noMatterStep, possibleRows } from "./unknownFact.ts";
import type { Facts } from "./facts.ts";

const row = z
  .strictObject({
    when: when.optional(),
    limeBelow: sourcedNumber.optional().describe("lime is called for below this soil pH"),
    target: sourcedNumber.optional().describe("the pH to lime to"),
  })
  .refine((r) => r.limeBelow !== undefined || r.target !== undefined, "needs limeBelow, target or both");

/** When to lime, and how far, by crop and soil. A publication may say only one of the two. */
export const targetPhRule = z.strictObject({
  kind: z.literal("targetPh"),
  id: z.string(),
  method: z.enum(methodIds).describe("the medium the publication's pH is measured in"),
  range: z.strictObject({ from: sourcedNumber, to: sourcedNumber }).optional().describe("the range to stay in, where one is printed"),
  mineralOnly: mineralOnly.optional().describe("the publication speaks of mineral soils alone: an organic soil gets no answer"),
  leftOut: z.array(leftOutPlace).default([]).describe("places without an answer, and why"),
  rows: z.array(row).min(1),
});
export type TargetPhRule = z.infer<typeof targetPhRule>;

export interface TargetPh {
  readonly limeBelow: number;
  /** Absent where the publication says when to lime and not how far, and the record sets no target. */
  readonly target: number | undefined;
  /** It is decided for the pH asked for alone: the trigger hangs on a fact that is not known, and this pH lies on one side of all it may be. */
  readonly forThisPh?: true;
}

/** A pH to lime to that the record itself sets, for a publication that says when to lime and not how far. */
export interface OwnTarget {
  readonly value: number;
  readonly step: Step;
}

/**
 * Decide below which soil pH to lime, and to which. pH in the rule's medium, in and out.
 * `own` (from the field's record) overrides the publication's target. Where the publication prints no trigger, lime is
 * called for below the target. `at` is the soil pH it is asked for: a fact that is not known is no hindrance where the same is
 * decided for that pH whatever the fact is. No answer where no row covers the place, nor for an organic soil where the rule is for mineral ones or its row names no soil.
 */
export const targetPhFor = (rule: TargetPhRule, facts: Facts, own: OwnTarget | undefined, pack: string, at?: number): Outcome<TargetPh> => {
  const refused = notMineral(rule.mineralOnly, facts, pack, "targetPh") ?? leftOut(rule.leftOut, facts, "targetPh");
  if (refused) return refused;
  const chosen = firstMatch(rule.rows, facts);
  const decided = chosen.found ?? (at === undefined ? undefined : decidedWhatever(possibleRows(rule.rows, facts), own, at));
  const unknown = chosen.found ? undefined : chosen.missing;
  if (!decided) {
    if (unknown) return noAnswer(`${missingFactLabel(unknown)} is not known, and ${pack} sets the target by it`, [unknown]);
    return noAnswer(`${pack} gives no target pH for ${facts.crop ? crops[facts.crop].label : "this place"}`, ["targetPh"]);
  }
  const silent = silentOnOrganic(decided.when, facts, pack) ?? (own ? undefined : unnamedAcidCrop(decided.when?.crops, facts, pack));
  if (silent) return silent;
  const { limeBelow, target } = decided;
  const condition = metLabel(decided.when, facts);
  const steps: Step[] = [...mineralSteps(rule.mineralOnly, facts), ...conditionSteps(decided.when, facts)];
  const bound = limeBelowOf(decided, own);
  if (unknown)
    steps.push(noMatterStep(unknown, `soil of pH ${pH(at!)} is ${at! < bound ? "below every" : "not below any"} pH at which to lime`));
  const push = (what: string, from: z.infer<typeof sourcedNumber>): void => {
    steps.push({
      what: condition ? `${what}, for ${condition}` : what,
      result: `pH ${pH(from.value)}`,
      source: from.source,
      evidence: from.evidence,
      note: from.note,
    });
  };
  if (limeBelow) push("Lime when the soil is below", limeBelow);
  if (own) steps.push(own.step);
  else if (target) push("Lime up to", target);
  return answer({ limeBelow: bound, target: goalOf(decided, own), ...(unknown && { forThisPh: true as const }) }, steps);
};

type Row = TargetPhRule["rows"][number];

const goalOf = ({ target }: Row, own: OwnTarget | undefined): number | undefined => own?.value ?? target?.value;

/** A target below the printed trigger would order lime for soil that already meets it. */
const limeBelowOf = (row: Row, own: OwnTarget | undefined): number =>
  Math.min(row.limeBelow?.value ?? Infinity, goalOf(row, own) ?? Infinity);

/** Of rows that may all hold, the one whose trigger is nearest to this pH, where they agree on whether to lime and how far. */
const decidedWhatever = (rows: readonly Row[], own: OwnTarget | undefined, at: number): Row | undefined => {
  const rising = rows.toSorted((a, b) => limeBelowOf(a, own) - limeBelowOf(b, own));
  const [lowest, highest] = [rising[0], rising.at(-1)];
  if (!lowest || !highest) return undefined;
  if (at >= limeBelowOf(highest, own)) return highest;
  return at < limeBelowOf(lowest, own) && rows.every((row) => goalOf(row, own) === goalOf(lowest, own)) ? lowest : undefined;
};

/**
 * Where no guideline says when to lime, none has a word for the crop on this soil, or no crop is named by which they say it, and the field sets
 * a target, that target also says when: a crop that these records have no name for, such as grass for seed, is named none. `refused`: what the rules
 * that read the sample's medium said.
 */
export const byOwnTargetAlone = (
  refused: readonly Outcome<TargetPh>[],
  { own, facts }: { readonly own?: OwnTarget | undefined; readonly facts: Facts },
): Outcome<TargetPh> | undefined => {
  const silent = (t: Outcome<TargetPh>): boolean => t.kind === "noAnswer" && t.missing.some((id) => id === "targetPh" || id === "crop");
  if (!own || !refused.every(silent)) return undefined;
  const why =
    refused.length === 0
      ? "no chosen guideline says when to lime"
      : facts.crop === undefined
        ? "no crop is named, and the guidelines say by crop when to lime"
        : "no chosen guideline has a word for this crop on this soil";
  const note = `${why}, so lime is called for below the target of the field itself`;
  return answer({ limeBelow: own.value, target: own.value }, [{ ...own.step, note }]);
};

/** The target as bands, for a map or the ground of a chart: lime due, in range and, where a range is printed or the crop is one of acid soil, above it. */
export const phBands = (range: TargetPhRule["range"], { limeBelow }: TargetPh, crop: CropId | undefined): Band[] => {
  const most = range?.to.value ?? (growsOnAcidSoil(crop) && limeBelow <= acidCropMost ? acidCropMost : undefined);
  return [
    { name: "lime due", position: "below" },
    { name: "in range", position: "within", from: limeBelow },
    ...(most === undefined ? [] : [{ name: "above range", position: "above" as const, above: most }]),
  ];
};
