import type { Advice } from "../../interpretation/advise.ts";
import { advise } from "../../interpretation/advise.ts";
import type { Guideline } from "../../interpretation/guideline.ts";
import { sectionsOf } from "../../interpretation/guideline.ts";
import { planSources } from "../../interpretation/sampling/planHandling.ts";
import { convertedResult } from "../../interpretation/rules/conversion.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { Sample } from "../../interpretation/sample.ts";
import type { MethodId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { duePlans } from "../plan/duePlans.ts";
import { withBases } from "./inheritedView.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { latestAdvice } from "../advice/sample.ts";

/** What one guideline, asked alone, says of a sample. */
export interface Asked {
  readonly pack: Guideline;
  readonly advice: Advice;
  /** It gives a class of phosphorus or potassium, a rate, nitrogen's too, or a lime requirement. */
  readonly answers: boolean;
  /** The soil's nitrogen was tested, so that a guideline without a rate has a reason of its own. */
  readonly nitrogenTested: boolean;
}

/** A result as another test might read it, by a relation that a guideline prints: beside the laboratory's own, and read by no rule. */
export interface OtherTest {
  readonly pack: Guideline;
  readonly measurement: Measurement;
  /** Where the relation was found: "soils of Ohio and Indiana". */
  readonly soils: string;
  readonly outcome: Outcome<{ value: number; method: MethodId }>;
}

export interface FieldComparison {
  readonly field: Field;
  readonly zone: ZoneAdvice;
  /** The farm's own choice first, then by id. */
  readonly asked: readonly Asked[];
  readonly otherTests: readonly OtherTest[];
}

/** A page is for reading: of more fields than these, the first are compared. */
export const mostFields = 12;

const compared = new WeakMap<Farm, readonly FieldComparison[]>();

/** Every guideline the installation holds, put to one sample of each field; worked out once a farm. */
export const comparisons = (farm: Farm): readonly FieldComparison[] => {
  let known = compared.get(farm);
  if (!known) compared.set(farm, (known = farm.fields.slice(0, mostFields).flatMap((field) => compareField(farm, field) ?? [])));
  return known;
};

/** The guidelines that have a page: those the farm has chosen, those that answer in a comparison, those every history rests on, those a sampling plan borrows from, and those they extend. */
export const shownGuidelines = (farm: Farm): ReadonlyMap<string, Guideline> => {
  const shown = new Map(farm.usedGuidelines);
  for (const { asked, otherTests } of comparisons(farm)) {
    for (const { pack, answers } of asked) if (answers) shown.set(pack.id, pack);
    for (const { pack } of otherTests) shown.set(pack.id, pack);
  }
  for (const pack of farm.allGuidelines.values())
    if (sectionsOf(pack, "noise").length > 0 || sectionsOf(pack, "margin").length > 0) shown.set(pack.id, pack);
  for (const field of farm.fields) {
    const avoided = field.avoid.flatMap(({ kind, distance }) => (kind && !distance ? [kind] : []));
    for (const { purpose } of duePlans(farm, field))
      for (const pack of planSources(field.guidelines, [...farm.allGuidelines.values()], purpose, avoided)) shown.set(pack.id, pack);
  }
  for (const pack of [...shown.values()]) for (const each of withBases(farm, pack)) shown.set(each.id, each);
  return shown;
};

/** The first zone with the most results in its newest routine sampling. */
const fullest = (farm: Farm, field: Field): ZoneAdvice | undefined => {
  let best: ZoneAdvice | undefined;
  for (const zone of field.zones) {
    const found = latestAdvice(farm, field, zone);
    if (found && found.sample.measurements.length > (best?.sample.measurements.length ?? 0)) best = found;
  }
  return best;
};

const compareField = (farm: Farm, field: Field): FieldComparison | undefined => {
  const zone = fullest(farm, field);
  if (!zone) return undefined;
  const chosen = new Set(field.guidelines);
  const rest = [...farm.allGuidelines.values()].filter((g) => !chosen.has(g)).sort((a, b) => (a.id < b.id ? -1 : 1));
  const asked = [...field.guidelines, ...rest].map((pack): Asked => {
    const advice = advise({ ...alone(zone.sample, pack), nitrogen: zone.nitrogenQuestion });
    return { pack, advice, answers: givesAnAnswer(advice), nitrogenTested: (zone.nitrogenQuestion?.measurements.length ?? 0) > 0 };
  });
  return {
    field,
    zone,
    asked,
    otherTests: otherTests(
      zone.sample,
      asked.map((a) => a.pack),
    ),
  };
};

const otherTests = ({ measurements, facts }: Sample, packs: readonly Guideline[]): OtherTest[] =>
  packs.flatMap((pack) =>
    sectionsOf(pack, "conversion").flatMap((rule) =>
      measurements.flatMap((measurement): OtherTest[] => {
        const outcome = convertedResult(rule, measurement, facts, pack.short);
        return outcome ? [{ pack, measurement, soils: rule.soils, outcome }] : [];
      }),
    ),
  );

/**
 * The sample as one guideline sees it. A lime table without a word on when to lime is read with the target of the
 * field's own guidelines: a table alone answers nothing.
 */
const alone = (sample: Sample, pack: Guideline): Sample => {
  if (sectionsOf(pack, "targetPh").length > 0) return { ...sample, packs: [pack] };
  const targets = sample.packs.map((each) => ({
    ...each,
    sections: each.sections.filter((s) => s.kind === "targetPh" || s.kind === "limeQuality"),
  }));
  return { ...sample, packs: [pack, ...targets] };
};

const givesAnAnswer = ({ ratings, rates, lime, nitrogen }: Advice): boolean =>
  nitrogen?.kind === "answer" ||
  rates.some((r) => r.outcome.kind === "answer") ||
  ratings.some((r) => (r.measurement.analyte === "P" || r.measurement.analyte === "K") && r.outcome.kind === "answer") ||
  (lime.needed.kind === "answer" && lime.needed.value !== "none");
