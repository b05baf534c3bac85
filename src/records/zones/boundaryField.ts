import type { Area } from "../../exchange/geometry.ts";
import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import { choice } from "../choice.ts";
import { Folder, isFolder } from "../folder.ts";
import { idFolder } from "../judges.ts";
import { allowedWords } from "../nearMiss.ts";
import { start } from "../place.ts";
import { Problems } from "../problem.ts";
import { farm as farmSchema } from "../schemas/farm.ts";
import { field as fieldSchema } from "../schemas/field.ts";
import { parseRecord } from "../yaml/yamlFile.ts";
import type { ZoneLives } from "./zoneLives.ts";
import { zoneLives } from "./zoneLives.ts";
import { readZones } from "./zonesFile.ts";

/** What boundaries are brought in for: a field's zones, and the polygons they have so far. */
export interface BoundaryField {
  readonly id: string;
  readonly name: string;
  readonly units: UnitChoice;
  readonly zones: readonly { readonly id: string; readonly letter: string; readonly name: string }[];
  /** Zones that are none any more: no boundary is brought in for them, and those they have are kept. */
  readonly former: readonly { readonly id: string; readonly letter: string; readonly name: string; readonly until: string }[];
  readonly lives: ZoneLives;
  /** By zone; empty where there is no zones.geojson, or none that can be used: then it is to be replaced. */
  readonly areas: ReadonlyMap<string, Area>;
}

/**
 * Read farm.yaml and one field.yaml, and nothing else: boundaries may be brought in while other records are still being put
 * right. `field` is absent when there is a problem.
 */
export const readBoundaryField = (content: string, wanted: string): { field: BoundaryField | undefined; problems: Problems } => {
  const problems = new Problems();
  if (!isFolder(content)) {
    problems.error(content, start, "", "is not a folder; give the folder that holds farm.yaml with --content");
    return { field: undefined, problems };
  }
  const folder = new Folder(content, problems);
  // Read for a near miss; what is wrong with other folders is not asked here.
  const fields = new Folder(content, new Problems()).list("fields", idFolder);
  const id = choice(wanted, fields) ?? wanted;
  const file = `fields/${id}/field.yaml`;
  if (!fields.includes(id)) problems.error("fields", start, "", `there is no field "${id}"; ${allowedWords(id, fields)}`);
  else if (!folder.has("farm.yaml")) problems.error("farm.yaml", start, "", "is missing; every farm needs one");
  else if (!folder.has(file)) problems.error(file, start, "", "is missing; every field's folder needs one");
  if (problems.errors.length > 0) return { field: undefined, problems };

  const farmText = folder.read("farm.yaml");
  const farm = farmText === undefined ? undefined : parseRecord(farmText, "farm.yaml", farmSchema, problems);
  const fieldText = folder.read(file);
  const parsed = fieldText === undefined ? undefined : parseRecord(fieldText, file, fieldSchema, problems);
  if (!farm || !parsed) return { field: undefined, problems };
  const all = Object.entries(parsed.value.zones).map(([zone, { letter, name, until }]) => ({ id: zone, letter, name, until }));
  const zones = all.flatMap(({ until, ...zone }) => (until === undefined ? [zone] : []));
  const former = all.flatMap((zone) => (zone.until === undefined ? [] : [{ ...zone, until: zone.until }]));
  const lives = zoneLives(parsed.value.zones);
  const drawn = `fields/${id}/zones.geojson`;
  // One with mistakes is replaced; one that is no text at all may be something else that was put in its place.
  const old = folder.has(drawn) ? folder.read(drawn) : undefined;
  if (problems.errors.length > 0) return { field: undefined, problems };
  const areas = old === undefined ? undefined : readZones(old, drawn, lives, new Problems());
  return {
    field: {
      id,
      name: parsed.value.name,
      units: parsed.value.units ?? farm.value.units,
      zones,
      former,
      lives,
      areas: areas ?? new Map<string, Area>(),
    },
    problems,
  };
};
