import { careWords, eventQuality } from "../../interpretation/sampling/eventQuality.ts";
import type { SamplingAdvice } from "../../interpretation/sampling/samplingAdvice.ts";
import { samplingAdvice } from "../../interpretation/sampling/samplingAdvice.ts";
import type { SamplingQuestion } from "../../interpretation/rules/samplingWhen.ts";
import { usualDepth } from "../../interpretation/sampling/usualDepth.ts";
import type { AnalyteId, PurposeId } from "../../interpretation/vocabulary.ts";
import type { Field, Sampling, Zone } from "../../records/model.ts";
import { bandedAmmonia } from "./bandedAmmonia.ts";
import { cropBefore } from "./cropBefore.ts";
import { nextCrop } from "./nextCrop.ts";
import { fieldAsOf } from "../zonesThen.ts";
import type { Finding, FindingId, SampledPlace, SamplingEvent } from "../../interpretation/sampling/event/finding.ts";

/**
 * What a field's guidelines ask of sampling one of its zones. What no guideline says of a pH check is taken from its full
 * sampling: the soil is the same.
 */
export const zoneSamplingAdvice = (
  field: Field,
  zone: Zone,
  purpose: PurposeId,
  date: string,
  facts: Pick<SamplingQuestion, "bandedAmmonia" | "month"> = {},
): SamplingAdvice => {
  const last = field.samplings.findLast((s) => s.purpose === purpose && s.date < date);
  const question: Omit<SamplingQuestion, "purpose"> = {
    tillage: field.tillage,
    crop: nextCrop(field, zone.id, date)?.crop,
    extent: field.zones.length > 1 ? "zone" : "field",
    soil: zone.soil.category,
    yearsSinceTest: last && yearsBetween(last.date, date),
    ...facts,
    ...(zone.squareMeters !== undefined && { area: { value: zone.squareMeters, unit: "sq m" as const } }),
  };
  const own = samplingAdvice(field.guidelines, { ...question, purpose });
  if (purpose !== "phCheck") return own;
  const full = samplingAdvice(field.guidelines, { ...question, purpose: "routine" });
  const part = <K extends keyof SamplingAdvice>(key: K): SamplingAdvice[K] => (own[key].outcome.kind === "answer" ? own[key] : full[key]);
  return {
    cores: part("cores"),
    depth: part("depth"),
    composites: part("composites"),
    interval: part("interval"),
    sameCrop: part("sameCrop"),
    handling: part("handling"),
  };
};

const yearsBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / (365.25 * 24 * 3600 * 1000);

const eventOf = (field: Field, { purpose, date, depth, lab, composites, handling, nitrate }: Sampling): SamplingEvent => ({
  purpose,
  date,
  depth,
  lab: { id: lab.id, name: lab.name },
  measurements: composites.flatMap((c) => c.measurements),
  bags: composites.map((c) => ({ zone: c.zone, cores: c.cores, after: cropBefore(field, c.zone, date) })),
  moisture: handling.moisture,
  pail: handling.pail,
  bag: handling.bag,
  keeping: handling.keeping,
  receivedOn: handling.receivedOn,
  hoursToLab: nitrate?.hoursToLab,
});

/** The newest earlier sampling for the same purpose that holds one of its zones. */
const eventBefore = (field: Field, sampling: Sampling): Sampling | undefined => {
  const zones = new Set(sampling.composites.map((c) => c.zone));
  return field.samplings.findLast(
    (s) => s.date < sampling.date && s.purpose === sampling.purpose && s.composites.some((c) => zones.has(c.zone)),
  );
};

const known = new WeakMap<Sampling, readonly Finding[]>();

/** How well a sampling event was taken; worked out once an event. */
export const samplingQuality = (field: Field, sampling: Sampling): readonly Finding[] => {
  let found = known.get(sampling);
  if (found) return found;
  const before = eventBefore(field, sampling);
  const then = fieldAsOf(field, sampling.date);
  const place: SampledPlace = {
    zones: then.zones.map((zone) => ({
      id: zone.id,
      name: zone.name,
      area: zone.squareMeters === undefined ? undefined : { value: zone.squareMeters, unit: "sq m" },
      advice: zoneSamplingAdvice(then, zone, sampling.purpose, sampling.date, {
        month: Number(sampling.date.slice(5, 7)),
        bandedAmmonia: bandedAmmonia(then, zone, sampling),
      }),
    })),
    usual: usualDepth(sampling.purpose, {
      packs: field.guidelines,
      crop: nextCrop(field, sampling.composites[0]!.zone, sampling.date)?.crop,
      sod: field.tillage === "sod",
    }),
    before: before && eventOf(field, before),
  };
  known.set(sampling, (found = eventQuality(eventOf(field, sampling), place)));
  return found;
};

/** What to say beside results of these tests that an event gave: "Taken from dry soil: read soil pH with care." */
export const careOf = (field: Field, sampling: Pick<Sampling, "id">, analytes: readonly AnalyteId[]): string | undefined => {
  const found = field.samplings.find((s) => s.id === sampling.id);
  return found && careWords(samplingQuality(field, found), analytes);
};

/** What makes two events hard to compare and leaves each as good as it is. */
const betweenTwo: readonly FindingId[] = ["laboratory", "methods", "cropBefore"];

/** The same for advice, which rests on the event alone: what differs from the laboratory, method or crop before takes nothing from it. */
export const careOfAdvice = (field: Field, sampling: Pick<Sampling, "id">, analytes: readonly AnalyteId[]): string | undefined => {
  const found = field.samplings.find((s) => s.id === sampling.id);
  return (
    found &&
    careWords(
      samplingQuality(field, found).filter((f) => !betweenTwo.includes(f.id)),
      analytes,
    )
  );
};
