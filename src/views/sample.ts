import type { Advice } from "../interpretation/advise.ts";
import type { Sample } from "../interpretation/sample.ts";
import { advise } from "../interpretation/advise.ts";
import { seasonOf } from "../interpretation/comparable.ts";
import type { Measurement } from "../interpretation/measurement.ts";
import { meanOfBags } from "../interpretation/measurement.ts";
import type { Source } from "../interpretation/outcome.ts";
import type { Amount, YieldUnit } from "../interpretation/units.ts";
import type { AnalyteId, CropId } from "../interpretation/vocabulary.ts";
import { pH } from "../interpretation/show.ts";
import type { Farm, Field, Sampling, Zone } from "../records/model.ts";

/** The crop a sampling is read for: planned, or as really grown. */
export interface NextCrop {
  readonly season: number;
  readonly crop: CropId;
  readonly yieldGoal: Amount<YieldUnit> | undefined;
  readonly source: Source | undefined;
  readonly planned: boolean;
}

/**
 * The first crop after a day: from autumn it is next year's, from spring this year's. What was
 * really grown counts before what was planned; a yield really harvested stands for the goal that was set then.
 */
export const nextCrop = (field: Field, zone: string, date: string): NextCrop | undefined => {
  const first = Number(date.slice(0, 4)) + (seasonOf(date) === "autumn" ? 1 : 0);
  const grown = field.seasons
    .filter((s) => s.season >= first)
    .flatMap((s) => s.crops.filter((c) => c.zones.includes(zone)).map((c) => ({ season: s.season, crop: c })));
  const planned = field.plan.filter((p) => p.season >= first && p.zones.includes(zone)).sort((a, b) => a.season - b.season);
  const [was] = grown.sort((a, b) => a.season - b.season);
  const [will] = planned;
  if (will && (!was || will.season <= was.season))
    return { season: will.season, crop: will.crop, yieldGoal: will.yieldGoal, source: { record: will.origin }, planned: true };
  if (was) return { season: was.season, crop: was.crop.crop, yieldGoal: was.crop.yield, source: { record: was.crop.origin }, planned: false };
  return undefined;
};

/** One measurement an analyte: the mean where several bags were taken from the zone that day. */
export const zoneMeasurements = (sampling: Sampling, zone: string): Measurement[] => {
  const byTest = new Map<string, [Measurement, ...Measurement[]]>();
  for (const composite of sampling.composites.filter((c) => c.zone === zone))
    for (const m of composite.measurements) {
      const key = `${m.analyte} ${m.method} ${m.finish ?? ""}`;
      const bags = byTest.get(key);
      if (bags) bags.push(m);
      else byTest.set(key, [m]);
    }
  return [...byTest.values()].map(meanOfBags);
};

/** A fact the laboratory measured counts before one the field's record states. */
const measuredFact = (measurements: readonly Measurement[], analyte: AnalyteId): { value: number; source: Source } | undefined => {
  const m = measurements.find((each) => each.analyte === analyte && !each.qualifier);
  return m && { value: m.value, source: { record: m.origin } };
};

export interface ZoneSample {
  readonly zone: Zone;
  readonly sampling: Sampling;
  readonly crop: NextCrop | undefined;
  readonly sample: Sample;
}

/**
 * Everything a guideline may ask about one zone at one sampling, read for the first crop after the day `from`.
 * `undefined` when the zone was not sampled then.
 */
export const zoneSample = (farm: Farm, field: Field, zone: Zone, sampling: Sampling, from = sampling.date): ZoneSample | undefined => {
  const measurements = zoneMeasurements(sampling, zone.id);
  if (measurements.length === 0) return undefined;
  const crop = nextCrop(field, zone.id, from);
  const fact = (analyte: AnalyteId, key: "cec" | "organicMatter"): { value: number; source: Source } | undefined => {
    const stated = zone.soil[key];
    const origin = zone.soil.origins[key];
    return measuredFact(measurements, analyte) ?? (stated !== undefined && origin ? { value: stated, source: { record: origin } } : undefined);
  };
  const cec = fact("cec", "cec");
  const organicMatter = fact("organicMatter", "organicMatter");
  const { subsoilPh, texture, origins } = zone.soil;
  const { targetPh, limeDepth } = field;
  return {
    zone,
    sampling,
    crop,
    sample: {
      measurements,
      packs: field.guidelines,
      yieldGoal: crop?.yieldGoal,
      facts: {
        crop: crop?.crop,
        texture,
        cec: cec?.value,
        organicMatter: organicMatter?.value,
        subsoilPh,
        origins: {
          cec: cec?.source,
          organicMatter: organicMatter?.source,
          subsoilPh: origins.subsoilPh && { record: origins.subsoilPh },
          yieldGoal: crop?.source,
        },
      },
      own: targetPh && {
        value: targetPh.value,
        step: { what: `Lime up to, as set for this field: ${targetPh.reason}`, result: `pH ${pH(targetPh.value)}`, source: { record: targetPh.origin } },
      },
      depth: limeDepth && { value: limeDepth.value, unit: limeDepth.unit, source: { record: limeDepth.origin } },
      incorporated: field.tillage === "tilled",
      materials: [...farm.products.values()].flatMap((p) => p.lime ?? []),
    },
  };
};

export interface ZoneAdvice extends ZoneSample {
  readonly advice: Advice;
}

const advised = new WeakMap<Farm, Map<Zone, ZoneAdvice | undefined>>();

/**
 * The zone's newest routine sampling and what the guidelines say of it for the next crop from today.
 * Worked out once a zone: the home page and the field's page show the same answer.
 */
export const latestAdvice = (farm: Farm, field: Field, zone: Zone): ZoneAdvice | undefined => {
  let known = advised.get(farm);
  if (!known) advised.set(farm, (known = new Map<Zone, ZoneAdvice | undefined>()));
  if (!known.has(zone)) known.set(zone, workOut(farm, field, zone));
  return known.get(zone);
};

const workOut = (farm: Farm, field: Field, zone: Zone): ZoneAdvice | undefined => {
  const sampling = field.samplings.findLast((s) => s.purpose === "routine" && s.composites.some((c) => c.zone === zone.id));
  const found = sampling && zoneSample(farm, field, zone, sampling, farm.today > sampling.date ? farm.today : sampling.date);
  return found && { ...found, advice: advise(found.sample) };
};
