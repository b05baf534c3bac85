import type { Guideline, Section } from "../guideline.ts";
import { sectionsOf } from "../guideline.ts";
import type { LimePlace } from "./limePlace.ts";
import type { Measurement } from "../measurement.ts";
import { boundWords } from "../measurement.ts";
import type { NoAnswer, Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { limeByAcidity } from "../rules/acidityMultiple.ts";
import { limeByAcidityTable } from "../rules/acidityTable.ts";
import { resultStep } from "../rules/bands.ts";
import type { AcidityFound } from "../rules/bufferAcidity.ts";
import { limeByBufferAcidity } from "../rules/bufferAcidity.ts";
import { limeByBufferTable } from "../rules/bufferTable.ts";
import type { CropId } from "../vocabulary.ts";
import { analyteInSentence, methods } from "../vocabulary.ts";

/** The rule kinds that say how much lime takes a soil to a target pH. A new kind is added here and in `readings`. */
const requirementKinds = ["bufferTable", "bufferAcidity", "acidityMultiple", "acidityTable"] as const;
export type RequirementRule = Extract<Section, { kind: (typeof requirementKinds)[number] }>;

interface Candidate {
  readonly rule: RequirementRule;
  readonly pack: Guideline;
}

/** What a rule reads beside soil pH: the result, or why the sample has none that it can read. */
type Reading = { readonly m: Measurement } | { readonly lacks: NoAnswer };

export interface Requirement {
  /** In the rule's own unit, of its assumed material, for its own depth. */
  readonly value: number;
  readonly rule: RequirementRule;
  readonly pack: Guideline;
  /** What was measured, whose depth is the depth sampled. */
  readonly measured: Measurement;
}

/** In the order of the guidelines; sorted out once, since every sample of a field asks the same ones. */
export const requirementRulesOf = (packs: readonly Guideline[]): readonly Candidate[] => {
  let rules = sorted.get(packs);
  if (!rules)
    sorted.set(
      packs,
      (rules = packs.flatMap((pack) =>
        requirementKinds.flatMap((kind): Candidate[] => sectionsOf(pack, kind).map((rule) => ({ rule, pack }))),
      )),
    );
  return rules;
};

const sorted = new WeakMap<readonly Guideline[], readonly Candidate[]>();

/** A rule for some crops only, such as turf, is not asked for another. */
const holdsForCrop = ({ rule }: Candidate, crop: CropId | undefined): boolean =>
  !rule.crops || (crop !== undefined && rule.crops.includes(crop));

/**
 * How much lime takes the soil from its pH to the target, by the first chosen rule whose own test was made and that has
 * an answer. A result by one method is never read by a rule for another.
 */
export const limeRequirement = (place: LimePlace, pH: Measurement, target: number): Outcome<Requirement> => {
  const rules = requirementRulesOf(place.packs);
  const candidates = rules.filter((c) => holdsForCrop(c, place.facts.crop));
  if (candidates.length === 0) return noAnswer(`${noLimeTable(place.packs)}${rules.length > 0 ? " for this crop" : ""}`, ["a lime table"]);
  const read = candidates.map((c) => ({ ...c, reading: readingOf(c, place) }));
  const tries = read.flatMap(({ rule, pack, reading }) =>
    "lacks" in reading ? [] : [required({ rule, pack }, reading.m, place, pH, target)],
  );
  return (
    tries.find((t) => t.kind === "answer") ??
    tries[0] ??
    whyNoneReads(
      candidates,
      read.flatMap(({ reading }) => ("lacks" in reading ? [reading.lacks] : [])),
      place,
    )
  );
};

/** A guideline asked alone is named: others that are chosen may well hold one. */
const noLimeTable = (packs: readonly Guideline[]): string =>
  packs.length === 1 ? `${packs[0]!.short} holds no lime table` : "none of the chosen guidelines holds a lime table";

/** The words for a sample that no rule can read: about the buffers together where all rules read one, else the first rule's own. */
const whyNoneReads = (candidates: readonly Candidate[], lacks: readonly NoAnswer[], place: LimePlace): NoAnswer => {
  const wanted = candidates.flatMap(({ rule }) =>
    rule.kind === "bufferTable" || rule.kind === "bufferAcidity" ? [methods[rule.buffer].label] : [],
  );
  if (wanted.length < candidates.length || wanted.length === 0) return lacks[0]!;
  if (place.buffers.length === 0)
    return noAnswer("buffer pH was not measured; soil pH says whether to lime, buffer pH says how much", ["bufferPh"]);
  const words = [...new Set(wanted)].join(" or ");
  const [only, ...others] = new Set(candidates.map(({ pack }) => pack.short));
  const readers = others.length === 0 ? `${only} reads` : "the lime tables chosen read";
  return noAnswer(
    `the buffer used was the ${methods[place.buffers[0]!.method].label}, and ${readers} the ${words}; a buffer pH is never read in another buffer's table`,
    [`bufferPh by the ${words}`],
  );
};

const readingOf = ({ rule, pack }: Candidate, place: LimePlace): Reading => {
  switch (rule.kind) {
    case "bufferTable":
    case "bufferAcidity": {
      const acidity =
        rule.kind === "bufferAcidity" ? place.acidities?.find((a) => a.method === rule.buffer && a.unit === "meq/100 cm3") : undefined;
      const m = acidity ?? place.buffers.find((b) => b.method === rule.buffer);
      if (m) return { m };
      const [used] = place.buffers;
      if (!used)
        return { lacks: noAnswer("buffer pH was not measured; soil pH says whether to lime, buffer pH says how much", ["bufferPh"]) };
      return {
        lacks: noAnswer(
          `the buffer used was the ${methods[used.method].label}, and ${pack.short} reads the ${methods[rule.buffer].label}; a buffer pH is never read by another buffer's rule`,
          [`bufferPh by the ${methods[rule.buffer].label}`],
        ),
      };
    }
    case "acidityMultiple":
    case "acidityTable": {
      const m = place.acidities?.find((a) => a.method === rule.method && a.unit === "meq/100 g");
      if (m) return { m };
      const [found] = place.acidities ?? [];
      if (found) return { lacks: otherwiseMeasured(found, methods[rule.method].label, "meq/100 g", pack.short) };
      return {
        lacks: noAnswer(`exchangeable acidity was not tested, and ${pack.short} sets the lime rate by it`, ["exchangeableAcidity"]),
      };
    }
  }
};

/** A result by another method, or in another unit, than a rule reads. */
export const otherwiseMeasured = (found: Measurement, method: string, unit: string, pack: string): NoAnswer =>
  noAnswer(
    `${analyteInSentence(found.analyte)} was measured by ${methods[found.method].label} in ${found.unit}, and ${pack} reads it by ${method} in ${unit}`,
    [`${found.analyte} by ${method} in ${unit}`],
  );

const required = ({ rule, pack }: Candidate, m: Measurement, place: LimePlace, pH: Measurement, target: number): Outcome<Requirement> => {
  if (m.qualifier)
    return noAnswer(
      `${boundWords(m, `${analyteInSentence(m.analyte)} `)}, and the ${rule.kind.endsWith("Table") ? "table" : "rule"} needs a number`,
      [`${m.analyte} as a number`],
    );
  const amount = amountBy(rule, m, place, pH, target, pack.short);
  if (amount.kind === "noAnswer") return amount;
  const steps = [resultStep(m, m.analyte === "bufferPh" ? methods[m.method].label : "Exchangeable acidity"), ...amount.steps];
  return answer({ value: amount.value, rule, pack, measured: m }, steps, amount.cautions);
};

const amountBy = (
  rule: RequirementRule,
  m: Measurement,
  place: LimePlace,
  pH: Measurement,
  target: number,
  pack: string,
): Outcome<number> => {
  switch (rule.kind) {
    case "bufferTable":
      return limeByBufferTable(rule, m.value, target, pack);
    case "bufferAcidity": {
      const found: AcidityFound = m.analyte === "bufferPh" ? { bufferPh: m.value } : { acidity: m.value };
      return limeByBufferAcidity(rule, {
        found,
        soilPh: pH.value,
        target,
        soilClass: place.facts.soilClass,
        earlier: place.earlierLime,
        pack,
      });
    }
    case "acidityMultiple":
      return limeByAcidity(rule, m.value, pH.value, target, pack);
    case "acidityTable":
      return limeByAcidityTable(rule, m.value, pH.value, target, pack);
  }
};
