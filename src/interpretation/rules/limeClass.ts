import * as z from "zod";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { pH as showPh, plain, round } from "../show.ts";
import { limeIndexIds, methodIds, soilCategories, soilCategoryIds } from "../vocabulary.ts";
import type { LimeByPh } from "./limeFactor.ts";
import { leftOut, leftOutPlace } from "./leftOutPlace.ts";
import { mineralOnly, notMineral } from "./mineralOnly.ts";
import { categoryDoubt } from "./soilDoubts.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";
import type { Facts } from "./facts.ts";

const need = z.strictObject({
  name: z.string().min(1),
  upTo: z.number().nullable().describe("the highest pH of the class; null for the last, which is open"),
  dose: z.number().nonnegative().nullable().describe("t/ha; null where the table prints a dash"),
});

const category = z
  .strictObject({
    soil: z.enum(soilCategoryIds),
    needs: z
      .array(need)
      .min(2)
      .refine(
        (all) => all.every((n, i) => (n.upTo === null ? i === all.length - 1 : i === 0 || n.upTo > all[i - 1]!.upTo!)),
        "upTo must rise, and be null in the last class alone",
      ),
    mostAtOnce: sourcedNumber.describe("t/ha, in the first class"),
    ...provenance,
  })
  .check(graded);

/** Lime by class of need: soil category and pH give a class, the class a dose. */
export const limeClassRule = z.strictObject({
  kind: z.literal("limeClass"),
  id: z.string(),
  method: z.enum(methodIds).describe("the medium the pH is measured in"),
  methodFrom: z.strictObject(provenance).check(graded).describe("how well the medium is known"),
  unit: z.literal("t/ha"),
  material: z.strictObject({ index: z.enum(limeIndexIds), value: z.number().positive(), label: z.string(), ...provenance }).check(graded),
  roundTo: z.number().int().min(0).describe("decimals pH is rounded to first, for classes printed with gaps between"),
  mineralOnly: mineralOnly.optional().describe("an organic soil gets no answer"),
  leftOut: z.array(leftOutPlace).default([]).describe("places without an answer, and why"),
  categories: z.array(category).min(1),
  then: z.string().optional().describe("what the publication says to do with the rest of a dose that is split"),
});
export type LimeClassRule = z.infer<typeof limeClassRule>;

export interface LimeClass extends LimeByPh {
  readonly need: string;
}

/**
 * Lime dose, t/ha of the rule's material, by soil category and soil pH in the rule's medium.
 * A pH on a printed upper bound belongs to the class that ends there. Above the last class with a dose 0, which is an answer.
 * No answer without the soil category, for an organic soil where the rule is for mineral ones, for a place that is left out, or where
 * the table prints a dash.
 */
export const limeByClass = (rule: LimeClassRule, soilPh: number, facts: Facts, pack: string): Outcome<LimeClass> => {
  const doubt = categoryDoubt(facts);
  if (doubt !== undefined) return noAnswer(`${doubt}, and ${pack} sets the dose by the category`, ["soilCategory and texture that agree"]);
  if (facts.soilCategory === undefined)
    return noAnswer(`the soil's agronomic category is not known, and ${pack} sets the dose by it`, ["soilCategory"]);
  const refused =
    notMineral(rule.mineralOnly, facts, pack, "a lime dose for organic soil") ?? leftOut(rule.leftOut, facts, "a guideline for this place");
  if (refused) return refused;
  const row = rule.categories.find((c) => c.soil === facts.soilCategory);
  const soil = soilCategories[facts.soilCategory];
  if (!row) return noAnswer(`${pack} has no dose for ${soil} soil`, [`a guideline for ${soil} soil`]);
  const read = round(soilPh, rule.roundTo);
  const found = row.needs.find((n) => n.upTo === null || read <= n.upTo)!;
  const from = { source: row.source, evidence: row.evidence, note: row.note };
  if (found.dose === null)
    return noAnswer(`${pack} prints a dash for ${soil} soil at pH ${showPh(soilPh)}, where liming is ${found.name}`, [
      `a dose for ${soil} soil at pH ${showPh(soilPh)}`,
    ]);
  const first = found === row.needs[0];
  const steps: Step[] = [
    { what: "The pH is read in", result: "potassium chloride", ...rule.methodFrom },
    {
      what: `Need for lime on ${soil} soil`,
      expression: row.needs.map((n) => (n.upTo === null ? n.name : `${n.name} up to ${showPh(n.upTo)}`)).join(", "),
      result: `${found.name}, at pH ${showPh(soilPh)}`,
      ...from,
    },
    { what: "Dose", result: `${plain(found.dose)} t/ha of ${rule.material.label}`, ...from },
  ];
  if (first && found.dose > row.mostAtOnce.value)
    steps.push({
      what: "Most to spread at one time",
      result: `${plain(row.mostAtOnce.value)} t/ha of ${rule.material.label}`,
      source: row.mostAtOnce.source,
      evidence: row.mostAtOnce.evidence,
      ...(rule.then && { note: rule.then }),
    });
  return answer({ rate: found.dose, target: undefined, mostAtOnce: first ? row.mostAtOnce.value : undefined, need: found.name }, steps);
};
