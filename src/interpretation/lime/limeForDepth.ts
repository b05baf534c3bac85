import type { Guideline } from "../guideline.ts";
import type { LimePlace } from "./limePlace.ts";
import type { Measurement } from "../measurement.ts";
import { depthIn } from "../measurement.ts";
import type { Evidence, Outcome, Step } from "../outcome.ts";
import { answer } from "../outcome.ts";
import type { LimeBasis, LimeUnit } from "../rules/limeBasis.ts";
import { limeFigure, limeName } from "../rules/limeBasis.ts";
import { plain } from "../show.ts";
import type { Amount } from "../units.ts";
import { convert } from "../units.ts";

export interface LimeRequirement {
  /** In the rule's own unit, of its assumed material, for the depth to be limed. */
  readonly requirement: Amount<LimeUnit>;
  /** The pH to lime to; absent where a publication gives a dose by need and names none. */
  readonly target: number | undefined;
  /** What the rate is of: unit, material, depth, caps. */
  readonly basis: LimeBasis;
  readonly pack: Guideline;
}

const tooLittle = "A rate this small is reported as none";

/** Lime is due by so little that its guideline has none spread: the pH is below its range all the same. */
export const isTooLittleLime = (needed: Outcome<LimeRequirement | "none">): boolean =>
  needed.kind === "answer" && needed.value === "none" && needed.steps.some((s) => s.what === tooLittle);

/** What is worked out from a value is never known better than `derived`. */
export const scaled = (evidence: Evidence | undefined): Evidence | undefined => (evidence === "read" ? "derived" : evidence);

/** The last steps of every way: no lime, the depth to be limed, and a rate too small to report. */
export const requiredForDepth = (
  printed: number,
  basis: LimeBasis,
  target: number | undefined,
  pack: Guideline,
  place: LimePlace,
  measured: Measurement | undefined,
  steps: Step[],
): Outcome<LimeRequirement | "none"> => {
  if (printed === 0) return answer<"none">("none", steps);
  const value = adjustForDepth(printed, basis, place, measured, steps);
  const { least } = basis;
  if (least && value < least.value - 1e-9) {
    steps.push({
      what: tooLittle,
      expression: `${plain(value)} against ${plain(least.value)} ${basis.unit}`,
      result: "no lime",
      source: least.source,
      evidence: least.evidence,
      note: least.note,
    });
    return answer<"none">("none", steps);
  }
  return answer({ requirement: { value, unit: basis.unit }, target, basis, pack }, steps);
};

/**
 * rate x depth to be limed / depth the rule is for. A shallow sample takes the publication's own share where it prints
 * one; a rate whose depth is not printed stands as it is. `measured` is undefined for a rule whose publication takes
 * its rate for a depth whatever depth is sampled: then only a depth that the record sets counts.
 */
const adjustForDepth = (rate: number, basis: LimeBasis, place: LimePlace, measured: Measurement | undefined, steps: Step[]): number => {
  const { depth, shallow } = basis;
  const sampled = measured && depthIn(measured.depth, "in").to;
  if (shallow && !place.depth && sampled !== undefined && sampled <= convert(shallow.to, shallow.unit, "in") + 1e-9) {
    const value = rate * shallow.share;
    steps.push({
      what: `A sample no deeper than ${plain(shallow.to)} ${shallow.unit} takes a share of the rate`,
      expression: `${limeFigure(rate, basis.unit)} × ${plain(shallow.share)}`,
      result: `${limeFigure(value, basis.unit)} ${basis.unit} of ${limeName(basis)}`,
      source: shallow.source,
      evidence: shallow.evidence,
      note: shallow.note,
    });
    return value;
  }
  if (!depth) {
    steps.push({
      what: "Depth of soil the rate is for",
      result: "not stated",
      note: "the publication does not say the depth its rates are for; the rate stands as printed",
    });
    return rate;
  }
  // The sum is worked in the unit the publication states its depth in.
  const assumed = depth.to;
  const wanted = place.depth
    ? convert(place.depth.value, place.depth.unit, depth.unit)
    : sampled === undefined
      ? undefined
      : convert(sampled, "in", depth.unit);
  const stated = { source: depth.source, note: depth.note };
  if (wanted === undefined) {
    steps.push({ what: "Depth of soil the rate is for", result: `${plain(depth.to)} ${depth.unit}`, ...stated, evidence: depth.evidence });
    return rate;
  }
  steps.push({
    what: "Depth of soil to be limed",
    result: `${plain(wanted)} ${depth.unit}`,
    ...(place.depth
      ? { source: place.depth.source }
      : { note: "the depth sampled; set limeDepth where lime is worked in to another depth" }),
  });
  const value = (rate * wanted) / assumed;
  steps.push({
    what: `The table is for ${plain(assumed)} ${depth.unit} of soil; more soil takes more lime`,
    expression: `${limeFigure(rate, basis.unit)} × ${plain(wanted)} ÷ ${plain(assumed)}`,
    result: `${limeFigure(value, basis.unit)} ${basis.unit} of ${limeName(basis)}`,
    ...stated,
    // The publication states its depth; scaling by it is our arithmetic.
    evidence: scaled(depth.evidence),
  });
  return value;
};
