import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { RateUnit } from "../units.ts";
import type { CropId } from "../vocabulary.ts";
import { cropIds, crops, nutrientIds, nutrients } from "../vocabulary.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";

/** What a nutrient in a band beside the row is worth, against the same spread over the whole field. */
export const starterShareRule = z
  .strictObject({
    kind: z.literal("starterShare"),
    id: z.string(),
    nutrient: z.enum(nutrientIds),
    crops: z.array(z.enum(cropIds)).min(1),
    countsAs: z.number().positive().describe("pounds broadcast that a pound in the band stands for"),
    mostSalt: sourcedNumber.optional().describe("lb/ac of N and K2O together that the band may hold"),
    ...provenance,
  })
  .check(graded);
export type StarterShareRule = z.infer<typeof starterShareRule>;

const outside = (rule: StarterShareRule, crop: CropId | undefined, pack: string) => {
  if (crop === undefined) return noAnswer("no crop is planned", ["crop"]);
  return rule.crops.includes(crop)
    ? undefined
    : noAnswer(`${pack} has no rule for a band beside ${crops[crop].label}`, [`a guideline for ${crops[crop].label}`]);
};

const ruleStep = (rule: StarterShareRule, what: string, expression: string, result: number, unit: RateUnit): Step => ({
  what,
  expression,
  result: `${plain(result, 1)} ${unit} of ${nutrients[rule.nutrient].symbol}`,
  source: rule.source,
  evidence: rule.evidence,
  note: rule.note,
});

/** The rate, lb/ac, that does the work of a broadcast rate when all of it is banded: broadcast / countsAs. */
export const bandedRate = (rule: StarterShareRule, broadcast: number, crop: CropId | undefined, pack: string): Outcome<number> => {
  const refused = outside(rule, crop, pack);
  if (refused) return refused;
  const value = broadcast / rule.countsAs;
  return answer(value, [
    ruleStep(rule, "All of it in the planter band", `${plain(broadcast, 1)} ÷ ${plain(rule.countsAs)}`, value, "lb/ac"),
  ]);
};

/** What is left to broadcast after a band: recommended - banded x countsAs, never below nothing. All in `unit`, since the rule is a ratio. */
export const broadcastLeft = (
  rule: StarterShareRule,
  recommended: number,
  banded: number,
  crop: CropId | undefined,
  pack: string,
  unit: RateUnit = "lb/ac",
): Outcome<number> => {
  const refused = outside(rule, crop, pack);
  if (refused) return refused;
  const worth = banded * rule.countsAs;
  const left = Math.max(0, recommended - worth);
  return answer(left, [
    ruleStep(rule, "What the band stands for, had it been broadcast", `${plain(banded, 1)} × ${plain(rule.countsAs)}`, worth, unit),
    {
      what: recommended < worth ? "Left to broadcast: none, the band brings all of it" : "Left to broadcast",
      ...(recommended >= worth && { expression: `${plain(recommended, 1)} − ${plain(worth, 1)}` }),
      result: `${plain(left, 1)} ${unit}`,
    },
  ]);
};
