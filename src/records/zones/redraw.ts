import { union } from "@turf/union";
import { join } from "node:path";
import type { Area } from "../../exchange/geometry.ts";
import { harvestedBy } from "../../interpretation/zoneLife.ts";
import type { Field, Zone } from "../model.ts";
import { fieldName } from "../place.ts";
import { Problems } from "../problem.ts";
import { field as fieldSchema } from "../schemas/field.ts";
import type { FieldRecord } from "../schemas/field.ts";
import { zoneIds, zoneLetter } from "./zoneNames.ts";
import { exactText } from "../wholeWrite.ts";
import type { Change } from "../writeChanges.ts";
import type { Parsed } from "../yaml/yamlFile.ts";
import { parseRecord } from "../yaml/yamlFile.ts";
import { redrawnText } from "./redrawText.ts";
import type { ZoneDrawn } from "./zonesFromBoundaries.ts";
import { asFeature } from "./zonesFile.ts";
import { withZones } from "./zonesFromBoundaries.ts";

/** What is asked: zones that end on a day, and the names of those that begin in their place. */
export interface RedrawAsked {
  readonly ended: readonly Zone[];
  readonly names: readonly string[];
  /** `YYYY-MM-DD`. */
  readonly since: string;
}

export interface ZoneBegun {
  readonly id: string;
  readonly letter: string;
  readonly name: string;
  /** The ground of the ended zones together; absent where several zones begin, or one of the ended ones has no polygon. */
  readonly area?: Area | undefined;
}

/** A fact of the soil that differs between the ended zones, and so is left out of the new ones. */
export interface SoilDiffering {
  /** Its key in field.yaml. */
  readonly fact: string;
  /** In the order of the ended zones. */
  readonly values: readonly (string | number | undefined)[];
  /** What field.yaml says of the whole field, which then holds. */
  readonly whole: string | number | undefined;
}

export interface Redrawn {
  readonly begun: readonly ZoneBegun[];
  readonly differing: readonly SoilDiffering[];
  readonly changes: readonly Change[];
}

/**
 * End zones and let others begin, in field.yaml and, where several become one, in zones.geojson. Nothing is written here. What
 * stands in the way is told by its place in the file; whether the records of later days name an ended zone shows when the farm is read again.
 */
export const redraw = (content: string, field: Field, asked: RedrawAsked): { redrawn: Redrawn | undefined; problems: Problems } => {
  const problems = new Problems();
  const { file } = field;
  const old = exactText(join(content, ...file.split("/")));
  const parsed = parseRecord(old, file, fieldSchema, problems);
  if (!parsed) return { redrawn: undefined, problems };
  const begun = zonesBegun(parsed, asked, problems);
  const plans = plansTouched(parsed, asked, problems);
  if (problems.errors.length > 0) return { redrawn: undefined, problems };
  const { soil, differing } = commonSoil(parsed.value, asked.ended);
  const ended = asked.ended.map((z) => z.id);
  const drawn = Object.fromEntries(
    begun.map(({ id, letter, name }) => [
      id,
      { letter, name, since: asked.since, formerly: ended, ...(Object.keys(soil).length > 0 && { soil }) },
    ]),
  );
  const text = redrawnText(old, { since: asked.since, ended, drawn, plans });
  if (text === undefined) {
    problems.error(
      file,
      parsed.at(["zones"]),
      "zones",
      "is written in a way that cannot be changed without changing more; write one zone a line or one key a line, and zones: of plan: as [a, b]",
    );
    return { redrawn: undefined, problems };
  }
  const changes = [{ file, old, text }, ...mapChange(content, field, begun)];
  return { redrawn: { begun, differing, changes }, problems };
};

const zonesBegun = ({ value, file, at }: Parsed<FieldRecord>, { ended, names }: RedrawAsked, problems: Problems): ZoneBegun[] => {
  const known = Object.keys(value.zones);
  const letters = freeLetters(
    known.map((id) => value.zones[id]!.letter),
    names.length,
  );
  const ids = zoneIds(names, known.length);
  ids.forEach((id, i) => {
    if (known.includes(id) || ids.indexOf(id) < i)
      problems.error(
        file,
        at(["zones", id]),
        fieldName(["zones", id]),
        `is there already; a zone named "${names[i]!}" would have the same id, so give the new one another name`,
      );
  });
  if (letters.length < names.length) problems.error(file, at(["zones"]), "zones", "has used up all letters from A to ZZ");
  const area = names.length === 1 ? joined(ended) : undefined;
  return names.map((name, i) => ({ id: ids[i]!, letter: letters[i]!, name, area }));
};

/** The first letters in order that no zone has or had. */
const freeLetters = (taken: readonly string[], wanted: number): string[] =>
  Array.from({ length: taken.length + wanted }, (_, place) => zoneLetter(place))
    .filter((letter) => /^[A-Z]{1,2}$/.test(letter) && !taken.includes(letter))
    .slice(0, wanted);

const joined = (zones: readonly Zone[]): Area | undefined => {
  const areas = zones.flatMap((z) => z.area ?? []);
  if (areas.length < zones.length) return undefined;
  if (areas.length === 1) return areas[0];
  return union({ type: "FeatureCollection", features: areas.map(asFeature) })?.geometry;
};

/** The entries of plan: for harvests after the day that name the ended zones. One for some of them alone cannot be carried over. */
const plansTouched = ({ value, file, at }: Parsed<FieldRecord>, { ended, since }: RedrawAsked, problems: Problems): number[] =>
  value.plan.flatMap(({ season, zones = [] }, i) => {
    const left = ended.filter((z) => !zones.includes(z.id));
    if (left.length === ended.length || `${season}-${harvestedBy}` < since) return [];
    if (left.length > 0)
      problems.error(
        file,
        at(["plan", i, "zones"]),
        fieldName(["plan", i, "zones"]),
        `is for zones that end on ${since}, and not for zone "${left[0]!.id}", which ends with them; plan one crop for all of them, or take this entry out`,
      );
    return [i];
  });

type SoilRecord = NonNullable<FieldRecord["soil"]>;

/** What is so of the soil of every one of these zones and not of the whole field, and what differs between them. */
const commonSoil = ({ soil: whole = {}, zones }: FieldRecord, ended: readonly Zone[]): { soil: SoilRecord; differing: SoilDiffering[] } => {
  const own = ended.map((z) => zones[z.id]!.soil ?? {});
  const facts = [...new Set(own.flatMap((soil) => Object.keys(soil)))] as (keyof SoilRecord)[];
  const stated = facts.map((fact) => ({ fact, values: own.map((soil) => soil[fact] ?? whole[fact]), whole: whole[fact] }));
  const isCommon = ({ values }: SoilDiffering): boolean => values.every((value) => value === values[0]);
  const common = stated.filter((each) => isCommon(each) && each.values[0] !== each.whole);
  return {
    soil: Object.fromEntries(common.map(({ fact, values }) => [fact, values[0]])),
    differing: stated.filter((each) => !isCommon(each)),
  };
};

/** The new polygon stands below the others; the ended zones keep theirs for the maps of their time. */
const mapChange = (content: string, field: Field, begun: readonly ZoneBegun[]): Change[] => {
  const drawn = begun.flatMap(({ area, ...zone }): ZoneDrawn[] => (area ? [{ zone, area, from: "kept" }] : []));
  if (drawn.length === 0) return [];
  const file = field.file.replace(/field\.yaml$/, "zones.geojson");
  const old = exactText(join(content, ...file.split("/")));
  return [{ file, old, text: withZones(old, drawn) }];
};
