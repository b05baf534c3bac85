import type { Measurement } from "../../interpretation/measurement.ts";
import type { Origin } from "../../interpretation/outcome.ts";
import type { AnalyteId, SoilTestUnit } from "../../interpretation/vocabulary.ts";
import { analytes, methodMeasures, methods, unitsFor } from "../../interpretation/vocabulary.ts";
import type { Composite, Lab, Report, Sampling } from "../model.ts";
import { allowedWords } from "../nearMiss.ts";
import { fieldName } from "../place.ts";
import type { Problems } from "../problem.ts";
import type { Measuring, SamplingRecord } from "../schemas/sampling.ts";
import { sampling } from "../schemas/sampling.ts";
import type { Parsed } from "../yaml/yamlFile.ts";
import { parseRecord } from "../yaml/yamlFile.ts";
import type { ZoneLives } from "../zones/zoneLives.ts";

export interface FieldContext {
  /** The field's zones; `undefined` when field.yaml itself could not be read: no zone is then "unknown". */
  readonly zones: ZoneLives | undefined;
  /** Labs that were read; and the ids of all lab files, so that a broken one is not also called unknown. */
  readonly labs: ReadonlyMap<string, Lab>;
  readonly labIds: readonly string[];
  /** The reports that the farm keeps, by file name. */
  readonly reports: ReadonlyMap<string, Report>;
}

/** A method must be able to measure the analyte, and the unit must be one the analyte is reported in. */
export const checkMeasuring = (
  analyte: AnalyteId,
  measured: Measuring,
  path: readonly (string | number)[],
  parsed: Pick<Parsed<unknown>, "file" | "at">,
  problems: Problems,
): void => {
  if (!methodMeasures(measured.method, analyte)) {
    const able = Object.keys(methods).filter((id) => methodMeasures(id as keyof typeof methods, analyte));
    const where = [...path, "method"];
    problems.error(
      parsed.file,
      parsed.at(where),
      fieldName(where),
      `${methods[measured.method].label} does not measure ${analyte}; allowed: ${able.join(", ")}`,
    );
  }
  if (!unitsFor(analyte).includes(measured.unit)) {
    const where = [...path, "unit"];
    problems.error(
      parsed.file,
      parsed.at(where),
      fieldName(where),
      `${analyte} is not reported in ${measured.unit}; allowed: ${unitsFor(analyte).join(", ")}`,
    );
  }
};

/** A package may be called "constructor"; a plain look-up would find every object's own. */
const ownValue = <T>(record: Readonly<Record<string, T>>, key: string): T | undefined =>
  Object.hasOwn(record, key) ? record[key] : undefined;

const yearAfter = (day: string): string => `${Number(day.slice(0, 4)) + 1}${day.slice(4)}`;

/** Read one sampling event; every problem is reported at its own place. */
export const readSampling = (text: string, file: string, name: string, context: FieldContext, problems: Problems): Sampling | undefined => {
  const parsed = parseRecord(text, file, sampling, problems);
  if (!parsed) return undefined;
  const { value, at, keyAt } = parsed;
  const error = (path: (string | number)[], message: string): void => problems.error(file, at(path), fieldName(path), message);

  if (!name.startsWith(value.date)) error(["date"], `must be the day in the file's name, ${name.slice(0, 10)}`);
  const lab = context.labs.get(value.lab);
  if (!lab && !context.labIds.includes(value.lab))
    error(
      ["lab"],
      `laboratory "${value.lab}" has no file in labs; ${allowedWords(value.lab, context.labIds, (id) => [context.labs.get(id)?.name ?? ""])}`,
    );
  const labPackage = lab && ownValue(lab.packages, value.package);
  if (lab && !labPackage)
    error(
      ["package"],
      `package "${value.package}" is not offered by ${lab.id}; ${allowedWords(value.package, Object.keys(lab.packages), (id) => [lab.packages[id]!.name])}`,
    );
  for (const [analyte, measured] of Object.entries(value.measured ?? {}))
    checkMeasuring(analyte as AnalyteId, measured, ["measured", analyte], parsed, problems);
  const { receivedOn, reportedOn } = value.handling ?? {};
  if (receivedOn && receivedOn < value.date) error(["handling", "receivedOn"], `is before the sampling, ${value.date}`);
  // A slip in the year would make every page speak from that day.
  for (const [key, day] of Object.entries({ receivedOn, reportedOn }))
    if (day !== undefined && day > yearAfter(value.date)) error(["handling", key], `is more than a year after the sampling, ${value.date}`);
  if (reportedOn && reportedOn < (receivedOn ?? value.date)) error(["handling", "reportedOn"], `is before ${receivedOn ?? value.date}`);

  const kept = value.report?.file;
  if (kept !== undefined && !context.reports.has(kept))
    error(
      ["report", "file"],
      `"${kept}" is no file in the farm's reports folder; ${context.reports.size === 0 ? "it holds none" : allowedWords(kept, [...context.reports.keys()])}`,
    );

  const corrections = readCorrections(parsed, problems);
  const labels = new Set<string>();
  const summed = new Set<string>();
  const composites = value.composites.map((composite, i): Composite => {
    const path = ["composites", i];
    if (labels.has(composite.label))
      error([...path, "label"], `label "${composite.label}" stands twice in this event; a label names one bag`);
    labels.add(composite.label);
    const fault = context.zones?.fault(composite.zone, value.date);
    if (fault !== undefined) error([...path, "zone"], fault);
    const measurements: Measurement[] = [];
    for (const [key, result] of Object.entries(composite.results)) {
      const analyte = key as AnalyteId;
      const where = [...path, "results", key];
      const measured = value.measured?.[analyte] ?? labPackage?.measures[analyte];
      if (!measured) {
        if (!labPackage) continue;
        const message = `${analyte} is not in package "${value.package}" of ${value.lab}; allowed: ${Object.keys(labPackage.measures).join(", ")}; or say how it was measured under measured:`;
        problems.error(file, keyAt(where), fieldName(where), message);
        continue;
      }
      const raw = typeof result === "number" ? { value: result, qualifier: undefined } : result;
      const origin: Origin = { file, ...keyAt(where) };
      const fix = corrections.get(`${composite.label}\n${analyte}`);
      const m: Measurement = {
        analyte,
        value: fix ? fix.now : raw.value,
        qualifier: fix ? undefined : raw.qualifier,
        unit: measured.unit,
        method: measured.method,
        finish: measured.finish,
        preparation: measured.preparation,
        depth: value.depth,
        date: value.date,
        purpose: value.purpose,
        lab: value.lab,
        origin,
        correction: fix && { was: fix.was, qualifier: raw.qualifier, reason: fix.reason, date: fix.date, origin: fix.origin },
      };
      // Of a corrected result it is the correction that may be the slip.
      const now = fix && ["corrections", fix.at, "now"];
      warnIfImplausible(now ? { ...m, origin: { file, ...at(now) } } : m, now ?? where, problems);
      // An amount in a depth sums over layers, and bags of one zone are averaged: three layers would come out as a third.
      if (analyte === "mineralN" && summed.size === summed.add(composite.zone).size)
        problems.warn(
          file,
          origin,
          fieldName(where),
          `zone ${composite.zone} has mineral nitrogen from more than one bag, which are averaged as duplicates; the layers of one sample are recorded as one bag with their sum`,
        );
      measurements.push(m);
    }
    warnOfBufferSlip(measurements, [...path, "results", "bufferPh"], problems);
    return {
      label: composite.label,
      zone: composite.zone,
      cores: composite.cores,
      note: composite.note,
      measurements,
      origin: { file, ...at(path) },
    };
  });
  if (!lab || !labPackage) return undefined;
  return {
    id: name,
    file,
    date: value.date,
    purpose: value.purpose,
    lab,
    packageId: value.package,
    measures: { ...labPackage.measures, ...value.measured },
    depth: value.depth,
    handling: value.handling ?? {},
    report: value.report,
    nitrate: value.nitrate && { ...value.nitrate, origin: { file, ...at(["nitrate"]) } },
    composites,
    note: value.note,
  };
};

type Fix = SamplingRecord["corrections"][number] & { readonly at: number; readonly origin: Origin };

/** Corrections by bag and analyte. One that no longer fits the file, or names nothing in it, fails: it would hide what it was for. */
const readCorrections = ({ value, file, at }: Parsed<SamplingRecord>, problems: Problems): Map<string, Fix> => {
  const fixes = new Map<string, Fix>();
  value.corrections.forEach((fix, i) => {
    const path = ["corrections", i];
    const error = (key: string, message: string): void => problems.error(file, at([...path, key]), fieldName([...path, key]), message);
    const composite = value.composites.find((c) => c.label === fix.composite);
    if (!composite)
      return error(
        "composite",
        `no bag is labeled "${fix.composite}"; ${allowedWords(
          fix.composite,
          value.composites.map((c) => c.label),
        )}`,
      );
    const result = composite.results[fix.analyte];
    if (result === undefined)
      return error("analyte", `bag "${fix.composite}" has no result for ${fix.analyte}; a correction needs one to correct`);
    const raw = typeof result === "number" ? result : result.value;
    if (raw !== fix.was) return error("was", `the file says ${raw}, not ${fix.was}: this correction no longer fits its result`);
    // A bound that turns out to be the number itself is a change.
    if (fix.now === fix.was && typeof result === "number") return error("now", "is the same as was; a correction changes something");
    if (fix.date < value.date) return error("date", `is before the sampling, ${value.date}`);
    const key = `${fix.composite}\n${fix.analyte}`;
    if (fixes.has(key))
      return error("composite", `${fix.analyte} of bag "${fix.composite}" is corrected twice; keep the last, with the first result as was`);
    return void fixes.set(key, { ...fix, at: i, origin: { file, ...at(path) } });
  });
  return fixes;
};

/** How many of a unit one ppm is, about: an acre of plow layer weighs two million pounds (common practice), a liter of tilled soil a kilogram. */
const perPpm: Partial<Record<SoilTestUnit, number>> = { ppm: 1, "mg/l": 1, "lb/ac": 2 };

/** By volume only a figure too many is suspected, and no other unit: ground that was fed for long shows more than a hint of lb/ac allows. */
const fed = 1.5;

/** Warn of a value that no soil shows, or that looks like another unit. */
export const warnIfImplausible = (
  m: Pick<Measurement, "analyte" | "value" | "unit" | "origin">,
  path: (string | number)[],
  problems: Problems,
): void => {
  const entry = analytes[m.analyte];
  const size = m.unit === entry.unit ? 1 : entry.unit === "ppm" ? perPpm[m.unit] : undefined;
  if (size === undefined) return;
  const [least, most] = entry.plausible.map((bound) => bound * size) as [number, number];
  const unit = m.unit === "pH" ? "" : ` ${m.unit}`;
  const warn = (message: string): void => problems.warn(m.origin.file, m.origin, fieldName(path), message);
  if (m.value < least || m.value > most) warn(`${m.value}${unit} is outside what soil shows (${least} to ${most}); check the sheet`);
  else if (entry.suspiciousAbove !== undefined && size === 1 && m.value > entry.suspiciousAbove * (m.unit === "mg/l" ? fed : 1))
    warn(`${m.value}${unit} is unusually high; ${m.unit === "ppm" ? "is it lb/ac, which is about twice the ppm?" : "check the sheet"}`);
};

/** A buffer's own pH is 6.6 or more (from memory): of soil more acid than that, it is read above the soil pH, as closely as both are read. */
const acid = 6.5;
const readingsStray = 0.3;

/** Warn of a buffer pH that lies below the pH of acid soil, as where two columns were exchanged: lime by the ton rests on it. */
export const warnOfBufferSlip = (measurements: readonly Measurement[], path: (string | number)[], problems: Problems): void => {
  const [soil, buffer] = (["pH", "bufferPh"] as const).map((analyte) => measurements.find((m) => m.analyte === analyte && !m.qualifier));
  if (!soil || !buffer || soil.value >= acid || Number((soil.value - buffer.value).toFixed(2)) <= readingsStray) return;
  problems.warn(
    buffer.origin.file,
    buffer.origin,
    fieldName(path),
    `${buffer.value} is below the soil pH, ${soil.value}, and a buffer raises that of acid soil; are the two exchanged, or is one a slip?`,
  );
};
