import { calciumSaturation } from "../../interpretation/cations.ts";
import type { Guideline } from "../../interpretation/guideline.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import type { Origin } from "../../interpretation/outcome.ts";
import type { ManureSpread } from "../../interpretation/rules/manureAvailability.ts";
import { isNitrogenTest } from "../../interpretation/nitrogen/nitrateNitrogen.ts";
import type { NitrateHistory } from "../../interpretation/rules/nitrateFacts.ts";
import type { Sample } from "../../interpretation/sample.ts";
import { pH } from "../../interpretation/show.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import type { AnalyteId, LimeIndexId } from "../../interpretation/vocabulary.ts";
import { inWater } from "../../interpretation/vocabulary.ts";
import { Folder, sameFolder } from "../folder.ts";
import type { Reference } from "../model.ts";
import { allowedWords } from "../nearMiss.ts";
import { fieldName } from "../place.ts";
import type { Problem } from "../problem.ts";
import { Problems } from "../problem.ts";
import type { Library } from "./readLibrary.ts";
import { readLibrary } from "./readLibrary.ts";
import { checkMeasuring, warnIfImplausible, warnOfBufferSlip } from "./readSampling.ts";
import { yieldUnitFault } from "./yieldUnit.ts";
import type { SampleRecord } from "../schemas/sample.ts";
import { sample as sampleSchema } from "../schemas/sample.ts";
import type { Parsed } from "../yaml/yamlFile.ts";
import { parseRecord } from "../yaml/yamlFile.ts";
import type { LimeMaterial } from "../../interpretation/lime/limePlace.ts";

export interface ReadSample {
  /** Absent when there is any error. */
  readonly sample: Sample | undefined;
  /** The units and the currency to print in, where the sample names them. */
  readonly written: { readonly units?: UnitChoice | undefined; readonly currency?: string | undefined };
  readonly references: ReadonlyMap<string, Reference>;
  readonly problems: readonly Problem[];
}

/**
 * Read one sample, by itself, and the guidelines that it names: the installation's, and those of a farm's folder where one is given.
 * Writes nothing and never throws for a mistake in the record.
 */
export const readSample = (folder: string, file: string, library: string, farm?: string): ReadSample => {
  const { shelf, problems: shelfProblems, own } = readShelf(library, farm);
  const problems = new Problems();
  const text = new Folder(folder, problems).read(file);
  const parsed = text === undefined ? undefined : parseRecord(text, file, sampleSchema, problems);
  const sample = parsed && toSample(parsed, shelf.guidelines, problems);
  // A farm's own shelf must be sound, as when its site is built; of the installed one only what the sample names.
  const namesBroken = parsed && [parsed.value.guideline].flat().some((id) => shelf.broken.has(id));
  problems.all.push(...(namesBroken ? shelfProblems.errors : own));
  return {
    sample: problems.errors.length > 0 ? undefined : sample,
    written: { units: parsed?.value.units, currency: parsed?.value.currency },
    references: shelf.references,
    problems: problems.all,
  };
};

const installed = "installed:";

/** Every guideline that may be named: the installation's, and those of a farm's folder where one is given. `own`: mistakes in the latter. */
export const readShelf = (library: string, farm?: string): { shelf: Library; problems: Problems; own: readonly Problem[] } => {
  const problems = new Problems();
  const folders = [new Folder(library, problems, installed)];
  if (farm !== undefined && !sameFolder(farm, library)) folders.push(new Folder(farm, problems));
  const shelf = readLibrary(folders, problems);
  return { shelf, problems, own: problems.errors.filter((p) => !p.file.startsWith(installed)) };
};

const toSample = (parsed: Parsed<SampleRecord>, guidelines: ReadonlyMap<string, Guideline>, problems: Problems): Sample => {
  const { value, file, at } = parsed;
  const origin = (...path: (string | number)[]): Origin => ({ file, ...at(path) });
  const error = (path: (string | number)[], message: string): void => problems.error(file, at(path), fieldName(path), message);
  const ids = [value.guideline].flat();
  const packs = ids.flatMap((id, i): Guideline[] => {
    const found = guidelines.get(id);
    if (!found)
      error(
        typeof value.guideline === "string" ? ["guideline"] : ["guideline", i],
        `guideline "${id}" is not known; ${allowedWords(id, [...guidelines.keys()])}`,
      );
    return found ? [found] : [];
  });
  const unitFault = value.crop && value.yieldGoal && yieldUnitFault(value.crop, value.yieldGoal.unit);
  if (unitFault) error(["yieldGoal", "unit"], unitFault);
  const measurements = Object.entries(value.results).map(([key, result]): Measurement => {
    const analyte = key as AnalyteId;
    checkMeasuring(analyte, result, ["results", analyte], parsed, problems);
    const m: Measurement = {
      analyte,
      ...result,
      depth: value.depth,
      date: value.date ?? "2000-01-01",
      purpose: "routine",
      lab: "the laboratory",
      origin: origin("results", analyte),
    };
    warnIfImplausible(m, ["results", analyte], problems);
    return m;
  });
  warnOfBufferSlip(measurements, ["results", "bufferPh"], problems);
  const measured = (
    analyte: AnalyteId,
    fits: (m: Measurement) => boolean = () => true,
  ): { value: number; source: { record: Origin } } | undefined => {
    const m = measurements.find((each) => each.analyte === analyte && !each.qualifier && fits(each));
    return m && { value: m.value, source: { record: m.origin } };
  };
  const stated = (fact: "cec" | "organicMatter" | "subsoilPh"): { value: number; source: { record: Origin } } | undefined => {
    const given = value.soil?.[fact];
    return given === undefined ? undefined : { value: given, source: { record: origin("soil", fact) } };
  };
  const facts = {
    cec: measured("cec") ?? stated("cec"),
    organicMatter: measured("organicMatter") ?? stated("organicMatter"),
    subsoilPh: stated("subsoilPh"),
    soilPh: measured("pH", (m) => inWater(m.method)),
    sodium: measured("Na", (m) => m.unit === "ppm"),
    sodiumByVolume: measured("Na", (m) => m.unit === "mg/l"),
  };
  const nitrate = measurements.filter(isNitrogenTest);
  const { manure, ...told } = value.history ?? {};
  const history: NitrateHistory = {
    ...(facts.organicMatter && { organicMatter: facts.organicMatter }),
    ...(value.soil?.texture && { texture: { value: value.soil.texture, source: { record: origin("soil", "texture") } } }),
    ...Object.fromEntries(
      Object.entries(told).map(([fact, known]) => [fact, { value: known, source: { record: origin("history", fact) } }]),
    ),
  };
  const nitrogen = {
    measurements: nitrate,
    facts: {
      crop: value.crop,
      texture: value.soil?.texture,
      soilCategory: value.soil?.category,
      organicMatter: facts.organicMatter?.value,
      origins: { yieldGoal: value.yieldGoal && { record: origin("yieldGoal") } },
    },
    history,
    yieldGoal: value.yieldGoal,
    manure: manure?.map((m, i): ManureSpread => ({
      organicNitrogen: undefined,
      species: undefined,
      dryMatter: undefined,
      ...m,
      source: { record: origin("history", "manure", i) },
    })),
  };
  return {
    packs,
    garden: value.units === "garden" || undefined,
    measurements,
    nitrogen,
    yieldGoal: value.yieldGoal,
    facts: {
      crop: value.crop,
      texture: value.soil?.texture,
      straw: value.straw,
      rotation: value.rotation,
      soilClass: value.soil?.soilClass,
      soilCategory: value.soil?.category,
      cec: facts.cec?.value,
      organicMatter: facts.organicMatter?.value,
      subsoilPh: facts.subsoilPh?.value,
      soilPh: facts.soilPh?.value,
      sodium: facts.sodium?.value,
      sodiumByVolume: facts.sodiumByVolume?.value,
      calciumSaturation: calciumSaturation(packs, measurements),
      origins: {
        cec: facts.cec?.source,
        organicMatter: facts.organicMatter?.source,
        subsoilPh: facts.subsoilPh?.source,
        soilPh: facts.soilPh?.source,
        sodium: facts.sodium?.source,
        sodiumByVolume: facts.sodiumByVolume?.source,
        straw: value.straw && { record: origin("straw") },
        rotation: value.rotation && { record: origin("rotation") },
        soilClass: value.soil?.soilClass && { record: origin("soil", "soilClass") },
        yieldGoal: value.yieldGoal && { record: origin("yieldGoal") },
      },
    },
    own:
      value.targetPh === undefined
        ? undefined
        : {
            value: value.targetPh,
            step: {
              what: "Lime up to, as set in the sample's record",
              result: `pH ${pH(value.targetPh)}`,
              source: { record: origin("targetPh") },
            },
          },
    depth: value.limeDepth && { ...value.limeDepth, source: { record: origin("limeDepth") } },
    incorporated: value.incorporated ?? value.crop !== "turf",
    materials: value.material ? [materialOf(value.material, origin)] : [],
  };
};

const materialOf = (material: NonNullable<SampleRecord["material"]>, origin: (...path: string[]) => Origin): LimeMaterial => ({
  id: "material",
  name: material.name,
  stated: Object.fromEntries(
    Object.entries(material.stated ?? {}).map(([index, percent]) => [
      index as LimeIndexId,
      { value: percent, source: { record: origin("material", "stated", index), by: "stated by the supplier" } },
    ]),
  ),
  analysis: material.analysis && { ...material.analysis, source: { record: origin("material", "analysis"), by: "stated by the supplier" } },
  pricePerTon: material.pricePerTon,
});
