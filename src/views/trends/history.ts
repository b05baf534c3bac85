import { splitIntoSeries } from "../../interpretation/comparable.ts";
import { sectionsOf } from "../../interpretation/guideline.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { printedStep } from "../../interpretation/measurement.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import type { MarginRule } from "../../interpretation/rules/margin.ts";
import type { NoiseRule } from "../../interpretation/rules/noise.ts";
import type { Noise, NoiseQuestion } from "../../interpretation/statistics/noise.ts";
import { noiseOf } from "../../interpretation/statistics/noise.ts";
import type { Bags } from "../../interpretation/statistics/ownDuplicates.ts";
import type { TestSeries } from "../../interpretation/statistics/series.ts";
import { testSeries } from "../../interpretation/statistics/series.ts";
import type { Trend } from "../../interpretation/statistics/trend.ts";
import { trendOf } from "../../interpretation/statistics/trend.ts";
import type { AnalyteId, MethodId } from "../../interpretation/vocabulary.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { zoneMeasurements } from "../results/zoneMeasurements.ts";

/** The guideline that says how far results stray, where neither the field nor the farm has chosen one that does. */
const shippedVariability = "soil-variability";

/** The chosen guidelines' rules first, then the shipped ones: the first that speaks of an analyte is taken. */
const variabilityOf = (farm: Farm, field: Field) => {
  const shipped = farm.allGuidelines.get(shippedVariability);
  return shipped && !field.guidelines.includes(shipped) ? [...field.guidelines, shipped] : field.guidelines;
};

export const noiseRules = (farm: Farm, field: Field): NoiseRule[] =>
  variabilityOf(farm, field).flatMap((pack) => sectionsOf(pack, "noise"));
export const marginRules = (farm: Farm, field: Field): MarginRule[] =>
  variabilityOf(farm, field).flatMap((pack) => sectionsOf(pack, "margin"));

const known = new WeakMap<Farm, Map<string, Bags[]>>();

const duplicateKey = (analyte: AnalyteId, method: MethodId): string => `${analyte} ${method}`;

/** Every zone and day of the farm with two bags or more, by analyte and method: from these a farm learns its own noise. */
const duplicatesOf = (farm: Farm): Map<string, Bags[]> => {
  let found = known.get(farm);
  if (found) return found;
  known.set(farm, (found = new Map<string, Bags[]>()));
  for (const field of farm.fields)
    for (const sampling of field.samplings)
      for (const zone of new Set(sampling.composites.map((c) => c.zone)))
        for (const m of zoneMeasurements(sampling, zone)) {
          // Bags that are only bounded do not say how far they stray.
          if (!m.bags || m.qualifier) continue;
          const key = duplicateKey(m.analyte, m.method);
          const days = found.get(key);
          const bags = m.bags.map((b) => b.value);
          if (days) days.push(bags);
          else found.set(key, [bags]);
        }
  return found;
};

/** The noise of one composite of a field, by one method. */
export const fieldNoise = (farm: Farm, field: Field, question: Omit<NoiseQuestion, "duplicates">): Outcome<Noise> =>
  noiseOf({ ...question, duplicates: duplicatesOf(farm).get(duplicateKey(question.analyte, question.method)) }, noiseRules(farm, field));

/** The fewest cores of any bag among these results; unknown where one bag does not say. */
export const fewestCores = (field: Field, zones: readonly string[], measurements: readonly Measurement[]): number | undefined => {
  const files = new Set(measurements.map((m) => m.origin.file));
  const cores = field.samplings
    .filter((s) => files.has(s.file))
    .flatMap((s) => s.composites.filter((c) => zones.includes(c.zone)).map((c) => c.cores));
  return cores.some((c) => c === undefined) ? undefined : Math.min(...(cores as number[]));
};

/** Results of one zone that may be compared with one another, with the noise of one of them and where they are going. */
export interface ComparableHistory {
  readonly measurements: readonly Measurement[];
  readonly noise: Outcome<Noise>;
  /** The noise of two of them: what another laboratory adds is in it only where they come from two. */
  readonly between: (first: Measurement, last: Measurement) => Outcome<Noise>;
  readonly series: Outcome<TestSeries>;
  readonly trend: Outcome<Trend>;
}

/** A zone's results of one analyte, one a day and method, oldest first. */
const zoneResults = (field: Field, zone: string, analyte: AnalyteId): Measurement[] =>
  field.samplings.flatMap((s) => zoneMeasurements(s, zone).filter((m) => m.analyte === analyte));

const judged = new WeakMap<Field, Map<string, ComparableHistory[]>>();

/**
 * A zone's history of one analyte, parted wherever two results must not be compared. Oldest series first. Worked out once: the
 * trend, the balance beside it and the table of changes tell of the same series.
 */
export const zoneHistory = (farm: Farm, field: Field, zone: Zone, analyte: AnalyteId): ComparableHistory[] => {
  const key = `${zone.id} ${analyte}`;
  let histories = judged.get(field);
  if (!histories) judged.set(field, (histories = new Map<string, ComparableHistory[]>()));
  let found = histories.get(key);
  if (!found) histories.set(key, (found = workOut(farm, field, zone, analyte)));
  return found;
};

const workOut = (farm: Farm, field: Field, zone: Zone, analyte: AnalyteId): ComparableHistory[] =>
  splitIntoSeries(zoneResults(field, zone.id, analyte)).map(({ measurements }) => {
    const series = testSeries(measurements);
    const cores = fewestCores(field, [zone.id], measurements);
    const asked = { analyte, method: measurements[0]!.method, cores, step: printedStep(measurements) };
    const by = (labs: number): Outcome<Noise> => fieldNoise(farm, field, { ...asked, labs });
    const labs = series.kind === "answer" ? series.value.labs : 1;
    const noise = by(labs);
    const ofOne = labs === 1 ? noise : by(1);
    const between: ComparableHistory["between"] = (first, last) => (first.lab === last.lab ? ofOne : noise);
    const within = measurements[0]!.lab === measurements.at(-1)!.lab ? ofOne : undefined;
    return { measurements, noise, between, series, trend: series.kind === "answer" ? trendOf(series.value, noise, within) : series };
  });
