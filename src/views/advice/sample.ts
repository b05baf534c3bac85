import type { Advice } from "../../interpretation/advise.ts";
import type { Sample } from "../../interpretation/sample.ts";
import { advise } from "../../interpretation/advise.ts";
import { calciumSaturation } from "../../interpretation/cations.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { isDeepTest, isNitrogenTest } from "../../interpretation/nitrogen/nitrateNitrogen.ts";
import type { Source } from "../../interpretation/outcome.ts";
import { noAnswer } from "../../interpretation/outcome.ts";
import type { AnalyteId, MethodId } from "../../interpretation/vocabulary.ts";
import { pH } from "../../interpretation/show.ts";
import type { Farm, Field, Sampling, Zone } from "../../records/model.ts";
import { laterCropsLeftOut, leavesOut } from "../leftOut.ts";
import { isAnswered, unadvisedBecause } from "../results/awaited.ts";
import { earlierLime } from "./earlierLime.ts";
import type { NextCrop } from "./nextCrop.ts";
import { nextCrop } from "./nextCrop.ts";
import { handledCautions, isPastNitrogen } from "./nitrogenHandled.ts";
import { manureFound, manureSince, manureSpread, nitrateHistory, nitrogenSince } from "./nitrateHistory.ts";
import { zoneMeasurements } from "../results/zoneMeasurements.ts";
import type { NitrogenQuestion } from "../../interpretation/nitrogen/nitrogenCredits.ts";

/** Media that a guideline means by "soil pH" without a word. */
const waterMethods: readonly MethodId[] = ["water1to1", "water1to2", "water1to2half"];

/** A fact the laboratory measured counts before one the field's record states. */
const measuredFact = (measurements: readonly Measurement[], analyte: AnalyteId): { value: number; source: Source } | undefined => {
  const m = measurements.find((each) => each.analyte === analyte && !each.qualifier);
  return m && { value: m.value, source: { record: m.origin } };
};

/** A nitrate test speaks for the crop that stood then: it is shown for a year, and then it is history. */
const nitrateLasts = (date: string, today: string): boolean => date <= today && `${Number(date.slice(0, 4)) + 1}${date.slice(4)}` >= today;

/** What a zone's nitrogen is worked out from: its newest nitrate test and the crop that stood then, else the next crop without one. */
export interface NitrogenBasis {
  readonly sampling: Pick<Sampling, "id" | "date"> | undefined;
  readonly crop: NextCrop | undefined;
  /** Fertilizer nitrogen spread for the crop since the test, lb/ac: a rate by the test holds it still. Absent: none. */
  readonly since?: number | undefined;
  /** Manure spread for the crop since the test, in words: no rate and no limit by the test takes its nitrogen off. Absent: no test. */
  readonly manureSince?: readonly string[] | undefined;
}

/** None is known to the reader, and one may be planned or grown after the years shown. */
const cropLeftOut = (farm: Farm, crop: NextCrop | undefined): true | undefined =>
  crop === undefined && laterCropsLeftOut(farm) ? true : undefined;

/** What a zone is asked of nitrogen on a day: by its newest nitrate test within a year, else for the next crop after `from`. */
export const nitrogenOf = (
  farm: Farm,
  field: Field,
  zone: Zone,
  from: string,
  today: string,
  organicMatter: { value: number; source: Source } | undefined,
  now = false,
): { basis: NitrogenBasis; question: NitrogenQuestion } => {
  const sampling = field.samplings.findLast((s) => s.purpose === "nitrate" && nitrateLasts(s.date, today) && isAnswered(s, zone.id));
  const crop = sampling ? nextCrop(field, zone.id, sampling.date) : nextCrop(field, zone.id, from, now);
  const season = crop?.season ?? Number(from.slice(0, 4));
  const until = sampling?.date ?? today;
  const manure = manureSpread(field, zone, season, until);
  return {
    basis: {
      sampling,
      crop,
      since: (sampling && nitrogenSince(field, zone, season, sampling.date, today)) || undefined,
      manureSince: sampling && manureSince(field, zone, season, sampling.date, today),
    },
    question: {
      measurements: sampling ? zoneMeasurements(sampling, zone.id).filter(isNitrogenTest) : [],
      facts: {
        crop: crop?.crop,
        texture: zone.soil.texture,
        soilCategory: zone.soil.category,
        organicMatter: organicMatter?.value,
        yieldWithheld: crop?.yieldWithheld,
        cropWithheld: cropLeftOut(farm, crop),
        origins: { yieldGoal: crop?.source },
      },
      history: nitrateHistory(field, zone, season, until, sampling, organicMatter),
      yieldGoal: crop?.yieldGoal,
      manure,
      manureBefore: manure ? undefined : manureSpread(field, zone, season, until, 1),
      manureFound: manure ? undefined : manureFound(field, zone, season, until),
    },
  };
};

/** What stands for chloride and sulfur in the zone's newest sampling for nitrate within a year: its results are of no routine sampling, and were made all the same. */
const deepMeasurements = (field: Field, zone: Zone, day: string): readonly Measurement[] => {
  const sampling = field.samplings.findLast((s) => s.purpose === "nitrate" && nitrateLasts(s.date, day) && isAnswered(s, zone.id));
  return sampling ? zoneMeasurements(sampling, zone.id).filter((m) => isDeepTest(m.analyte)) : [];
};

/** Lime spread before a day. Where the first years are left out, none in those shown is no word that there was none. */
const limeBefore = (farm: Farm, field: Field, zone: Zone, date: string): Sample["earlierLime"] => {
  const known = earlierLime(field, zone.id, date);
  return known?.length === 0 && farm.withheld?.years?.from !== undefined ? undefined : known;
};

export interface ZoneSample {
  readonly zone: Zone;
  readonly sampling: Pick<Sampling, "id" | "date">;
  readonly crop: NextCrop | undefined;
  readonly sample: Sample;
}

/**
 * Everything a guideline may ask about one zone at one sampling, read for the first crop after the day `from`.
 * `undefined` when the zone was not sampled then.
 */
export const zoneSample = (
  farm: Farm,
  field: Field,
  zone: Zone,
  sampling: Sampling,
  from = sampling.date,
  now = false,
): ZoneSample | undefined => {
  const own = zoneMeasurements(sampling, zone.id);
  if (own.length === 0) return undefined;
  const measurements = sampling.purpose === "routine" ? [...own, ...deepMeasurements(field, zone, from)] : own;
  const crop = nextCrop(field, zone.id, from, now);
  const fact = (analyte: AnalyteId, key: "cec" | "organicMatter"): { value: number; source: Source } | undefined => {
    const stated = zone.soil[key];
    const origin = zone.soil.origins[key];
    return (
      measuredFact(measurements, analyte) ?? (stated !== undefined && origin ? { value: stated, source: { record: origin } } : undefined)
    );
  };
  const inWater = measurements.find((m) => m.analyte === "pH" && waterMethods.includes(m.method) && !m.qualifier);
  const sodiumIn = (unit: Measurement["unit"]): Measurement | undefined =>
    measurements.find((m) => m.analyte === "Na" && m.unit === unit && !m.qualifier);
  const [sodium, sodiumByVolume] = [sodiumIn("ppm"), sodiumIn("mg/l")];
  const cec = fact("cec", "cec");
  const organicMatter = fact("organicMatter", "organicMatter");
  const { subsoilPh, soilClass, texture, origins } = zone.soil;
  const { targetPh, limeDepth } = field;
  return {
    zone,
    sampling,
    crop,
    sample: {
      measurements,
      packs: field.guidelines,
      garden: (field.units ?? farm.units) === "garden" || undefined,
      yieldGoal: crop?.yieldGoal,
      facts: {
        crop: crop?.crop,
        rotation: field.rotation?.crops,
        texture,
        cec: cec?.value,
        organicMatter: organicMatter?.value,
        subsoilPh,
        soilPh: inWater?.value,
        sodium: sodium?.value,
        sodiumByVolume: sodiumByVolume?.value,
        soilCategory: zone.soil.category,
        calciumSaturation: calciumSaturation(field.guidelines, measurements),
        straw: crop?.straw,
        soilClass,
        yieldWithheld: crop?.yieldWithheld,
        cropWithheld: cropLeftOut(farm, crop),
        nitrateTestsWithheld: leavesOut(farm, "nitrogen") || undefined,
        origins: {
          soilPh: inWater && { record: inWater.origin },
          sodium: sodium && { record: sodium.origin },
          sodiumByVolume: sodiumByVolume && { record: sodiumByVolume.origin },
          straw: crop?.source,
          rotation: field.rotation && { record: field.rotation.origin },
          cec: cec?.source,
          organicMatter: organicMatter?.source,
          subsoilPh: origins.subsoilPh && { record: origins.subsoilPh },
          soilClass: origins.soilClass && { record: origins.soilClass },
          yieldGoal: crop?.source,
        },
      },
      own: targetPh && {
        value: targetPh.value,
        step: {
          what: `Lime up to, as set for this field: ${targetPh.reason}`,
          result: `pH ${pH(targetPh.value)}`,
          source: { record: targetPh.origin },
        },
      },
      depth: limeDepth && { value: limeDepth.value, unit: limeDepth.unit, source: { record: limeDepth.origin } },
      earlierLime: limeBefore(farm, field, zone, sampling.date),
      incorporated: field.tillage === "tilled",
      materials: [...farm.products.values()].flatMap((p) => p.lime ?? []),
    },
  };
};

export interface ZoneAdvice extends ZoneSample {
  /** What its nitrogen advice was worked out from. */
  readonly nitrogen?: NitrogenBasis | undefined;
  /** The question itself. */
  readonly nitrogenQuestion?: NitrogenQuestion | undefined;
  readonly advice: Advice;
  /** There is no routine sampling: only its nitrogen test speaks, and of nitrogen alone. */
  readonly nitrogenAlone?: true | undefined;
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
  const sampling = field.samplings.findLast((s) => s.purpose === "routine" && isAnswered(s, zone.id));
  return sampling && adviceOn(farm, field, zone, sampling, farm.today, true);
};

/** The same; where the zone has no routine sampling, what its nitrogen test says by itself. */
export const adviceNow = (farm: Farm, field: Field, zone: Zone): ZoneAdvice | undefined =>
  latestAdvice(farm, field, zone) ?? nitrogenAlone(farm, field, zone);

const nitrogenAlone = (farm: Farm, field: Field, zone: Zone): ZoneAdvice | undefined => {
  const sampling = field.samplings.findLast((s) => s.purpose === "nitrate" && isAnswered(s, zone.id));
  const found = sampling && adviceOn(farm, field, zone, sampling, farm.today, true);
  if (!found?.nitrogen?.sampling || !found.advice.nitrogen) return undefined;
  const needed = noAnswer(unadvisedBecause(field, zone), ["a routine sampling"]);
  return { ...found, nitrogenAlone: true, advice: { ...found.advice, ratings: [], rates: [], lime: { needed, rates: [] } } };
};

/** Nitrogen is not asked: an answer without its test would be another than the farm's. */
const withoutNitrogen = (found: ZoneSample): ZoneAdvice => {
  const advice = advise(found.sample);
  return { ...found, advice: { ...advice, rates: advice.rates.filter((r) => r.nutrient !== "N") } };
};

/**
 * What the guidelines say of a zone on a day, `YYYY-MM-DD`, from one sampling: for the crop that follows the day, or the sampling
 * where that is later. `undefined` when the zone was not sampled then.
 */
export const adviceOn = (farm: Farm, field: Field, zone: Zone, sampling: Sampling, day: string, now = false): ZoneAdvice | undefined => {
  const from = day > sampling.date ? day : sampling.date;
  const found = zoneSample(farm, field, zone, sampling, from, now);
  if (!found) return undefined;
  if (leavesOut(farm, "nitrogen")) return withoutNitrogen(found);
  const { organicMatter, origins } = found.sample.facts;
  const { basis, question } = nitrogenOf(
    farm,
    field,
    zone,
    from,
    day,
    organicMatter === undefined || !origins?.organicMatter ? undefined : { value: organicMatter, source: origins.organicMatter },
    now,
  );
  const advice = advise({ ...found.sample, nitrogen: question });
  const cautions = handledCautions(farm, advice.cautions, isPastNitrogen(basis, found.crop, day));
  return { ...found, nitrogen: basis, nitrogenQuestion: question, advice: { ...advice, cautions } };
};
