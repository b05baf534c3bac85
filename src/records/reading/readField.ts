import type { Guideline } from "../../interpretation/guideline.ts";
import type { Origin } from "../../interpretation/outcome.ts";
import { harvestedBy } from "../../interpretation/zoneLife.ts";
import type { Area } from "../../exchange/geometry.ts";
import { boundsOf, middleOf, planeAround, squareMeters } from "../../exchange/geometry.ts";
import type { Folder } from "../folder.ts";
import type { Judge } from "../judges.ts";
import { exactly, fileNamed } from "../judges.ts";
import type { Field, PlannedCrop, Soil, Zone } from "../model.ts";
import { allowedWords } from "../nearMiss.ts";
import { fieldName, start } from "../place.ts";
import type { Problems } from "../problem.ts";
import { readRecommendation } from "./readRecommendation.ts";
import { readSampling, type FieldContext } from "./readSampling.ts";
import { readSeason, type SeasonContext } from "./readSeason.ts";
import { yieldUnitFault } from "./yieldUnit.ts";
import type { FieldRecord } from "../schemas/field.ts";
import { field } from "../schemas/field.ts";
import { date } from "../schemas/primitives.ts";
import { recordsPrint } from "../sealing/recordsPrint.ts";
import type { Parsed } from "../yaml/yamlFile.ts";
import { parseRecord } from "../yaml/yamlFile.ts";
import type { ZoneLives } from "../zones/zoneLives.ts";
import { zoneLives } from "../zones/zoneLives.ts";
import { readZones } from "../zones/zonesFile.ts";

export interface FarmContext extends Omit<FieldContext, "zones">, Omit<SeasonContext, "zones"> {
  readonly guidelines: readonly Guideline[];
  /** Every guideline at hand. */
  readonly shelf: ReadonlyMap<string, Guideline>;
  /** Turn ids into guidelines, reporting the unknown ones. */
  choose(ids: readonly string[], parsed: Parsed<unknown>, path: string): readonly Guideline[];
}

/** Read a field's folder: field.yaml, zones.geojson, samplings, seasons and advice as issued. All of it is read, whatever fails first. */
export const readField = (folder: Folder, id: string, context: FarmContext, problems: Problems): Field | undefined => {
  const base = `fields/${id}`;
  folder.list(base, exactly(["field.yaml", "zones.geojson"], ["samplings", "seasons", "recommendations"]));
  const path = `${base}/field.yaml`;
  if (!folder.has(path)) problems.error(folder.name(path), start, "", "is missing; every field's folder needs one");
  const text = folder.has(path) ? folder.read(path) : undefined;
  const parsed = text === undefined ? undefined : parseRecord(text, folder.name(path), field, problems);
  const lives = parsed && zoneLives(parsed.value.zones);
  const areas = readAreas(folder, `${base}/zones.geojson`, lives, problems);
  const samplings = readAll(folder, `${base}/samplings`, datedRecord, (content, file, name) =>
    readSampling(content, file, name, { ...context, zones: lives }, problems),
  );
  const seasons = readAll(folder, `${base}/seasons`, yearRecord, (content, file, name) =>
    readSeason(content, file, name, { ...context, zones: lives }, problems),
  );
  const recommendations = readAll(folder, `${base}/recommendations`, dayRecord, (content, file, name) =>
    readRecommendation(content, file, name, id, context.shelf, problems),
  );
  if (!parsed) return undefined;
  const all = fieldZones(parsed, areas, problems);
  const zones = all.filter((z) => z.until === undefined);
  const plan = plannedCrops(parsed, zoneLives(parsed.value.zones), context, problems);
  const { value, file, at } = parsed;
  const origin = (path: (string | number)[]): Origin => ({ file, ...at(path) });
  return {
    id,
    name: value.name,
    file,
    tenure: value.tenure,
    boundary: value.boundary,
    units: value.units,
    tillage: value.tillage,
    note: value.note,
    zones,
    formerZones: all.filter((z) => z.until !== undefined),
    laterZones: [],
    avoid: avoidedPlaces(parsed, all, problems),
    guidelines: value.guidelines ? context.choose(value.guidelines, parsed, "guidelines") : context.guidelines,
    targetPh: value.targetPh && { ...value.targetPh, origin: origin(["targetPh"]) },
    limeDepth: value.limeDepth && { ...value.limeDepth, origin: origin(["limeDepth"]) },
    rotation: value.rotation && { crops: value.rotation, origin: origin(["rotation"]) },
    plan,
    samplings,
    seasons,
    recommendations,
    fingerprint: recordsPrint(folder.hashesOf(base), [base]),
  };
};

/** Read each record of a subfolder; `name` is the file's, without its ending. */
const readAll = <T>(folder: Folder, path: string, judge: Judge, read: (text: string, file: string, name: string) => T | undefined): T[] =>
  folder.list(path, judge).flatMap((entry) => {
    const text = folder.read(`${path}/${entry}`);
    const record = text === undefined ? undefined : read(text, folder.name(`${path}/${entry}`), entry.replace(/\.yaml$/, ""));
    return record === undefined ? [] : [record];
  });

const datedRecord = fileNamed(
  (name) => /^\d{4}-\d{2}-\d{2}(-[a-z0-9]+)*\.yaml$/.test(name) && date.safeParse(name.slice(0, 10)).success,
  "a file named by its day, such as 2025-10-18.yaml or 2025-06-10-nitrate.yaml",
);

const dayRecord = fileNamed(
  (name) => /^\d{4}-\d{2}-\d{2}\.yaml$/.test(name) && date.safeParse(name.slice(0, 10)).success,
  "a file named by its day of issue, such as 2025-11-02.yaml",
);

const yearRecord = fileNamed((name) => /^\d{4}\.yaml$/.test(name), "a file named by its year, such as 2025.yaml");

const readAreas = (
  folder: Folder,
  path: string,
  zones: ZoneLives | undefined,
  problems: Problems,
): ReadonlyMap<string, Area> | undefined => {
  const text = folder.has(path) ? folder.read(path) : undefined;
  return text === undefined ? undefined : readZones(text, folder.name(path), zones, problems);
};

/** The zones, former ones too, each with its soil (the field's, overridden fact by fact) and its polygon. */
const fieldZones = (parsed: Parsed<FieldRecord>, areas: ReadonlyMap<string, Area> | undefined, problems: Problems): Zone[] => {
  const { value, file, at } = parsed;
  const letters = new Map<string, string>();
  return Object.keys(value.zones).map((id): Zone => {
    const record = value.zones[id]!;
    const twin = letters.get(record.letter);
    if (twin !== undefined)
      problems.error(
        file,
        at(["zones", id, "letter"]),
        fieldName(["zones", id, "letter"]),
        `letter ${record.letter} is already zone "${twin}"'s`,
      );
    letters.set(record.letter, id);
    checkFormerly(parsed, id, problems);
    const area = areas?.get(id);
    if (areas && !area && record.until === undefined)
      problems.warn(
        file,
        at(["zones", id]),
        fieldName(["zones", id]),
        "has no polygon in zones.geojson, so it has no area and is not on the map",
      );
    return {
      id,
      letter: record.letter,
      name: record.name,
      since: record.since,
      formerly: record.formerly,
      until: record.until,
      soil: soilOf(parsed, id),
      area,
      squareMeters: area && squareMeters(area),
    };
  });
};

/** What a zone says it was formerly must be zones that had ended when it was drawn. */
const checkFormerly = ({ value, file, at }: Parsed<FieldRecord>, id: string, problems: Problems): void => {
  const { since = "", formerly = [] } = value.zones[id]!;
  formerly.forEach((other, i) => {
    const path = ["zones", id, "formerly", i];
    const former = Object.hasOwn(value.zones, other) ? value.zones[other] : undefined;
    const ended = Object.keys(value.zones).filter((z) => (value.zones[z]!.until ?? "9") <= since);
    const allowed = former || ended.length > 0 ? ended : Object.keys(value.zones).filter((z) => z !== id);
    const fault = !former
      ? "is not in zones"
      : former.until === undefined
        ? "is still a zone; give it until, the day it ended"
        : former.until > since
          ? `is a zone until ${former.until}, after ${since}`
          : undefined;
    if (fault !== undefined)
      problems.error(
        file,
        at(path),
        fieldName(path),
        `zone "${other}" ${fault}${allowed.length > 0 ? `; ${allowedWords(other, allowed)}` : ""}`,
      );
  });
};

/** More than this from every zone, a place is a slip, or its latitude stands first. */
const farMeters = 5000;

const avoidedPlaces = ({ value, file, at }: Parsed<FieldRecord>, zones: readonly Zone[], problems: Problems): Field["avoid"] => {
  const areas = zones.flatMap((z) => z.area ?? []);
  const bounds = areas.length > 0 ? boundsOf(areas) : undefined;
  value.avoid.forEach(({ where }, i) =>
    where.forEach((position, j) => {
      if (!bounds) return;
      const plane = planeAround(middleOf(bounds));
      const [here, corner] = [plane.toPlane(position), plane.toPlane([bounds.east, bounds.north])];
      const away = Math.hypot(Math.max(0, Math.abs(here.x) - corner.x), Math.max(0, Math.abs(here.y) - corner.y));
      const path = ["avoid", i, "where", j];
      if (away > farMeters)
        problems.error(
          file,
          at(path),
          fieldName(path),
          `lies ${Math.round(away / 1000)} km from the field's zones; longitude stands first, then latitude`,
        );
    }),
  );
  return value.avoid;
};

const soilOf = ({ value, file, at }: Parsed<FieldRecord>, zone: string): Soil => {
  const own = value.zones[zone]?.soil;
  const origins: { cec?: Origin; organicMatter?: Origin; subsoilPh?: Origin; soilClass?: Origin } = {};
  for (const fact of ["cec", "organicMatter", "subsoilPh", "soilClass"] as const) {
    if (own?.[fact] !== undefined) origins[fact] = { file, ...at(["zones", zone, "soil", fact]) };
    else if (value.soil?.[fact] !== undefined) origins[fact] = { file, ...at(["soil", fact]) };
  }
  return { ...value.soil, ...own, origins };
};

const plannedCrops = (
  { value, file, at }: Parsed<FieldRecord>,
  lives: ZoneLives,
  context: FarmContext,
  problems: Problems,
): PlannedCrop[] => {
  const taken = new Set<string>();
  return value.plan.map((planned, i) => {
    const day = `${planned.season}-${harvestedBy}`;
    const error = (path: (string | number)[], message: string): void => problems.error(file, at(path), fieldName(path), message);
    planned.zones?.forEach((zone, j) => {
      const fault = lives.fault(zone, day);
      if (fault !== undefined) error(["plan", i, "zones", j], fault);
    });
    const unitFault = planned.yieldGoal && yieldUnitFault(planned.crop, planned.yieldGoal.unit);
    if (unitFault) error(["plan", i, "yieldGoal", "unit"], unitFault);
    const zones = planned.zones ?? lives.on(day);
    for (const zone of zones) {
      const slot = `${planned.season} ${zone}`;
      if (taken.has(slot))
        error(
          ["plan", i],
          `zone "${zone}" already has a crop planned for ${planned.season}; of two crops in one year plan the first, and write the second into seasons/${planned.season}.yaml, where it comes next once the harvest of the first is recorded`,
        );
      taken.add(slot);
    }
    const fertilizer = planned.starter && context.products.get(planned.starter.product)?.fertilizer;
    if (planned.starter && !fertilizer && context.productsKnown) {
      const offered = [...context.products.values()].flatMap((p) => (p.fertilizer ? [p.id] : []));
      error(
        ["plan", i, "starter", "product"],
        `"${planned.starter.product}" is not a fertilizer of farm.yaml; ${allowedWords(planned.starter.product, offered, (id) => [context.products.get(id)!.product.name])}`,
      );
    }
    const source = { record: { file, ...at(["plan", i, "starter"]) } };
    const starter = planned.starter && fertilizer && { ...planned.starter, fertilizer, source };
    return {
      season: planned.season,
      crop: planned.crop,
      yieldGoal: planned.yieldGoal,
      straw: planned.straw,
      starter,
      zones,
      origin: { file, ...at(["plan", i]) },
    };
  });
};
