import * as z from "zod";
import type { Outcome, Source, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { belowZero, pH as showPh, plain } from "../show.ts";
import type { SoilClassId } from "../vocabulary.ts";
import { methodIds, methods, soilClasses, soilClassIds } from "../vocabulary.ts";
import { limeBasis, limeName } from "./limeBasis.ts";
import { graded, provenance } from "./sourced.ts";

const acidityTerm = z
  .strictObject({
    slope: z.number().positive().describe("meq/100 cm3 for each unit of buffer pH"),
    from: z.number().describe("the buffer pH without soil; at and above it acidity is zero"),
    ...provenance,
  })
  .check(graded);

const fading = z
  .strictObject({
    soils: z.array(z.enum(soilClassIds)).min(1),
    perMonth: z.number().positive().max(1).describe("share of the lime that loses its credit each month"),
    ...provenance,
  })
  .check(graded);

/** A lime rate by the acidity that a buffer finds, the soil pH and the target, less a credit for earlier lime. */
export const bufferAcidityRule = z
  .strictObject({
    kind: z.literal("bufferAcidity"),
    id: z.string(),
    buffer: z.enum(methodIds),
    ...limeBasis,
    acidity: acidityTerm,
    neutral: z.number().describe("the soil pH at which the formula ends"),
    credit: z.array(fading).describe("how the credit for earlier lime fades, by soil class"),
    ...provenance,
  })
  .check(graded);
export type BufferAcidityRule = z.infer<typeof bufferAcidityRule>;

/** Lime that was spread before the sample was taken. */
export interface EarlierLime {
  /** ton/ac as spread. */
  readonly rate: number;
  /** Months from the day it was spread to the day of the sample. */
  readonly months: number;
  readonly source: Source;
}

/** What the formula reads: the buffer pH, or the acidity where the laboratory prints that (meq/100 cm3). */
export type AcidityFound = { readonly bufferPh: number } | { readonly acidity: number };

export interface BufferAcidityPlace {
  readonly found: AcidityFound;
  readonly soilPh: number;
  readonly target: number;
  readonly soilClass: SoilClassId | undefined;
  /** `undefined` where no record of earlier applications is kept; empty where it is kept and names none. */
  readonly earlier: readonly EarlierLime[] | undefined;
  readonly pack: string;
}

/**
 * Lime requirement in the rule's unit: acidity x (target - pH) / (neutral - pH), less the credit for earlier lime, each
 * part of which fades by the rule's share a month; never below zero. Acidity (meq/100 cm3) = slope x (from - buffer pH).
 * At and above the neutral pH, and for a target above it, the formula has no meaning and there is no answer; nor where
 * earlier lime still counts and the soil class is not known. At and above the target 0, which is an answer.
 */
export const limeByBufferAcidity = (rule: BufferAcidityRule, place: BufferAcidityPlace): Outcome<number> => {
  const { found, soilPh, target, pack } = place;
  if (soilPh >= rule.neutral)
    return noAnswer(`soil pH ${showPh(soilPh)} is not below ${showPh(rule.neutral)}, where the formula of ${pack} ends`, [
      `a lime formula for soil pH ${showPh(soilPh)}`,
    ]);
  if (target > rule.neutral)
    return noAnswer(`the target pH ${showPh(target)} is above ${showPh(rule.neutral)}, where the formula of ${pack} ends`, ["targetPh"]);
  const steps: Step[] = [];
  const from = { source: rule.source, evidence: rule.evidence, note: rule.note };
  const acidity = acidityOf(rule, found, steps);
  const share = soilPh >= target ? 0 : (target - soilPh) / (rule.neutral - soilPh);
  const gross = acidity * share;
  steps.push({
    what: "Lime for the acidity, up to the target",
    expression:
      share === 0
        ? `soil pH ${showPh(soilPh)} against ${showPh(target)}`
        : `${plain(acidity)} × (${showPh(target)} − ${showPh(soilPh)}) ÷ (${showPh(rule.neutral)} − ${showPh(soilPh)})`,
    result: share === 0 ? "no lime" : `${plain(gross)} ${rule.unit} of ${limeName(rule)}`,
    ...from,
  });
  if (gross === 0) return answer(0, steps);
  const credit = creditOf(rule, place, steps);
  if (credit.kind === "noAnswer") return credit;
  if (credit.value === 0) return answer(gross, steps);
  const net = Math.max(0, gross - credit.value);
  steps.push({
    what: "Less the credit for earlier lime",
    expression: `${plain(gross)} − ${plain(credit.value)}`,
    result: net === 0 ? `${belowZero(gross - credit.value)}no lime` : `${plain(net)} ${rule.unit} of ${limeName(rule)}`,
    ...from,
  });
  return answer(net, steps);
};

/** Acidity in meq/100 cm3, as printed or from the buffer pH; a buffer pH above the buffer's own means none. */
const acidityOf = (rule: BufferAcidityRule, found: AcidityFound, steps: Step[]): number => {
  if ("acidity" in found) return found.acidity;
  const { slope, from, ...provided } = rule.acidity;
  // 6.6 - 6.2 is 0.39999... in the computer; on paper it is 0.4.
  const sum = Number((slope * (from - found.bufferPh)).toPrecision(12));
  const acidity = Math.max(0, sum);
  steps.push({
    what: `Acidity by the ${methods[rule.buffer].label}`,
    expression: `${plain(slope)} × (${showPh(from)} − ${showPh(found.bufferPh)})`,
    result: `${belowZero(sum)}${plain(acidity)} meq/100 cm3`,
    ...provided,
    ...(found.bufferPh > from && { note: "a buffer pH above the buffer's own means no acidity" }),
  });
  return acidity;
};

/** What earlier lime still stands for, ton/ac. */
const creditOf = (rule: BufferAcidityRule, { earlier, soilClass, pack }: BufferAcidityPlace, steps: Step[]): Outcome<number> => {
  if (!earlier || earlier.length === 0) {
    steps.push({
      what: "Credit for earlier lime",
      result: "none",
      note: earlier
        ? "the records name no lime before the sample"
        : "no record of earlier lime is at hand; lime of the last months would lower the rate",
    });
    return answer(0, steps);
  }
  const slowest = Math.min(...rule.credit.map((c) => c.perMonth));
  const counting = earlier.filter((e) => e.months * slowest < 1);
  if (counting.length === 0) {
    const { source, evidence } = rule.credit[0]!;
    steps.push({ what: "Credit for earlier lime", result: "none", source, evidence, note: "the lime in the records is too old to count" });
    return answer(0, steps);
  }
  if (soilClass === undefined)
    return noAnswer(`the soil class is not known, and ${pack} lets the credit for earlier lime fade by it`, ["soilClass"]);
  const fade = rule.credit.find((c) => c.soils.includes(soilClass));
  if (!fade) return noAnswer(`${pack} has no credit for earlier lime on ${soilClasses[soilClass]} soil`, ["soilClass"]);
  let credit = 0;
  for (const { rate, months, source } of counting) {
    const faded = rate - rate * months * fade.perMonth;
    const left = Math.max(0, faded);
    credit += left;
    steps.push({ what: `Lime spread ${plain(months, 1)} months before the sample`, result: `${plain(rate, 2)} ton/ac`, source });
    steps.push({
      what: `What is left of its credit, on ${soilClasses[soilClass]} soil`,
      expression: `${plain(rate, 2)} − ${plain(rate, 2)} × ${plain(months, 1)} × ${plain(fade.perMonth)}`,
      result: `${belowZero(faded)}${plain(left)} ton/ac`,
      source: fade.source,
      evidence: fade.evidence,
      note: fade.note,
    });
  }
  return answer(credit, steps);
};
