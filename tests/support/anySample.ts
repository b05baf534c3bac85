import { calciumSaturation } from "../../src/interpretation/cations.ts";
import type { Guideline, Section } from "../../src/interpretation/guideline.ts";
import type { Measurement } from "../../src/interpretation/measurement.ts";
import type { Sample } from "../../src/interpretation/sample.ts";
import type { Limits } from "../../src/interpretation/rules/limits.ts";
import type { AnalyteId, CropId, LimeIndexId } from "../../src/interpretation/vocabulary.ts";
import { crops, cropIds, limeIndices, soilCategoryIds, soilClassIds, strawIds, textureIds } from "../../src/interpretation/vocabulary.ts";
import { farmFile, fieldFile, ownTarget } from "./limePlace.ts";
import { measuredFor } from "./measured.ts";
import type { Random } from "./random.ts";

/** Results as farmed soils show them, from below what any class begins at to above the last; pH where lime is likely to be due. */
const typical: Partial<Record<AnalyteId, readonly [low: number, high: number, decimals: number]>> = {
  pH: [4.4, 7.9, 1],
  bufferPh: [5.4, 7.3, 2],
  exchangeableAcidity: [0, 12, 2],
  P: [0, 90, 0],
  K: [5, 400, 0],
  Ca: [100, 5000, 0],
  Mg: [5, 500, 0],
  Al: [0, 250, 0],
  Zn: [0, 6, 1],
  B: [0, 2.5, 1],
  nitrateN: [0, 60, 1],
  mineralN: [0, 180, 0],
};

const to = (value: number, decimals: number): number => Number(value.toFixed(decimals));
const drawn = (R: Random, low: number, high: number, decimals: number): number => to(R.between(low, high), decimals);

/** What a section reads, and how it wants it measured. */
const readBy = (s: Section): readonly (readonly [AnalyteId, Limits])[] => {
  switch (s.kind) {
    case "bands":
    case "bandRates":
    case "buildMaintain":
    case "linearYield":
    case "quadraticIndex":
    case "indexOfftake":
      return [[s.analyte, s.limits]];
    case "nitrateLinear":
    case "nitrateTable":
    case "yieldLessNitrate":
      return [["nitrateN", s.limits]];
    case "profileNitrate":
      return [["nitrateN", { method: s.method, unit: "ppm", depth: { from: 0, to: s.depth.least, unit: "in", source: s.depth.source } }]];
    case "nitrogenNeed":
      return [["mineralN", { method: s.method, unit: "kg/ha", depth: s.depth }]];
    case "nitrogenSupply":
      return [["mineralN", { method: s.methods[0]!, unit: "kg/ha", depth: s.depth }]];
    case "targetPh":
    case "limeFactor":
    case "limeClass":
      return [["pH", { method: s.method, unit: "pH" }]];
    case "phAluminum":
      return [["pH", { method: s.method, unit: "pH" }], ["Al", { method: s.aluminum, unit: "ppm" }]];
    case "bufferTable":
    case "bufferAcidity":
      return [["bufferPh", { method: s.buffer, unit: "pH" }]];
    case "acidityMultiple":
    case "acidityTable":
      return [["exchangeableAcidity", { method: s.method, unit: "meq/100 g" }]];
    case "cationSum":
      return (["Ca", "Mg", "K"] as const).map((analyte) => [analyte, { method: "mehlich3", unit: "ppm" }] as const);
    default:
      return [];
  }
};

/** The crops that a guideline names anywhere. */
export const cropsOf = (pack: Guideline): CropId[] => cropIds.filter((crop) => JSON.stringify(pack.sections).includes(`"${crop}"`));

const statedAll = (R: Random) =>
  Object.fromEntries(Object.entries(limeIndices).map(([index, { pure }]) => [index as LimeIndexId, { value: to(pure * R.between(0.3, 1.05), 1), source: farmFile }]));

/** A sample that somebody might send in, measured as the guidelines read it, with all they ask of the place. The same for the same seed. */
export const anySample = (packs: readonly Guideline[], crop: CropId | undefined, R: Random): Sample => {
  const depth = R.pick([{ from: 0, to: 15, unit: "cm" }, { from: 0, to: 6, unit: "in" }, { from: 0, to: 10, unit: "cm" }] as const);
  const results = new Map<AnalyteId, Measurement>();
  for (const [analyte, limits] of packs.flatMap((pack) => pack.sections.flatMap(readBy))) {
    const [low, high, decimals] = typical[analyte] ?? [0, 60, 1];
    if (!results.has(analyte)) results.set(analyte, measuredFor(limits, analyte, drawn(R, low, high, decimals), limits.depth ? {} : { depth }));
  }
  const measurements = [...results.values()];
  const soilPh = measurements.find((m) => m.analyte === "pH" && m.method.startsWith("water"))?.value ?? drawn(R, 5, 8, 1);
  const texture = R.pick(textureIds.filter((t) => t !== "muck"));
  const organicMatter = drawn(R, 0.5, 8, 1);
  const { yieldUnit } = crops[crop ?? "corn"];
  const yieldGoal = { value: R.chance(0.05) ? 0 : drawn(R, 2, yieldUnit === "bu/ac" ? 240 : 12, yieldUnit === "bu/ac" ? 0 : 1), unit: yieldUnit };
  const fact = <T>(value: T) => ({ value, source: fieldFile });
  return {
    packs,
    measurements,
    yieldGoal,
    facts: {
      crop, texture, organicMatter, soilPh,
      cec: drawn(R, 2, 35, 1),
      subsoilPh: drawn(R, 5, 7.5, 1),
      sodium: drawn(R, 1, 200, 0),
      sodiumByVolume: drawn(R, 1, 200, 0),
      calciumSaturation: calciumSaturation(packs, measurements) ?? drawn(R, 20, 90, 1),
      soilCategory: R.pick(soilCategoryIds),
      soilClass: R.pick(soilClassIds),
      straw: R.pick(strawIds),
      rotation: R.chance(0.5) ? [R.pick(cropIds), R.pick(cropIds)] : undefined,
      origins: { cec: fieldFile, organicMatter: fieldFile, subsoilPh: fieldFile, soilPh: fieldFile, sodium: fieldFile, sodiumByVolume: fieldFile, calciumSaturation: fieldFile, straw: fieldFile, rotation: fieldFile, soilClass: fieldFile, yieldGoal: fieldFile },
    },
    own: R.chance(0.3) ? ownTarget(R.pick([6, 6.5, 6.8])) : undefined,
    incorporated: R.chance(0.7),
    materials: [{ id: "lime", name: "quarry lime", stated: statedAll(R), pricePerTon: 24 }],
    earlierLime: R.chance(0.5) ? [{ rate: drawn(R, 0.3, 3, 2), months: drawn(R, 0, 14, 1), source: fieldFile }] : [],
    nitrogen: {
      measurements: measurements.filter((m) => m.analyte === "nitrateN" || m.analyte === "mineralN"),
      facts: { crop, texture, organicMatter, soilCategory: R.pick(soilCategoryIds), origins: { yieldGoal: fieldFile } },
      history: {
        ...Object.fromEntries(Object.entries({ cores: 20, cropHeight: 9, hoursToLab: 20, daysSinceRain: 5, rainOfNormal: 90, earlyNitrogen: 10, manureYears: 2, sinceSod: 3, plannedNitrogen: 150, cropNitrogen: 20, standPercent: 50, standDensity: 4, regrowth: 9, previousYield: 45 }).map(([id, value]) => [id, fact(value)])),
        ...Object.fromEntries(Object.entries({ keeping: "air-dried", manuredSinceHarvest: "no", manuredBefore: "no", previousCrop: R.pick(["soybean", "corn", "alfalfa"]), texture }).map(([id, value]) => [id, fact(value)])),
        organicMatter: fact(organicMatter),
      },
      yieldGoal,
      manure: R.chance(0.5) ? [] : [{ name: "barn manure", yearsAgo: R.below(3), tonsPerAcre: drawn(R, 0, 30, 1), nitrogen: drawn(R, 0, 20, 1), organicNitrogen: drawn(R, 0, 20, 1), species: "cattle", dryMatter: 20, source: fieldFile }],
    },
  };
};
