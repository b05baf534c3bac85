import { harvestedBy, livesOn } from "../interpretation/zoneLife.ts";
import type { Field, Season, Zone } from "../records/model.ts";
import { list, longDate, monthYear } from "./words.ts";

const dated = new WeakMap<Zone, Zone>();

/** A former zone says in its name until when it was one. */
const withEnd = (zone: Zone): Zone => {
  const found = dated.get(zone) ?? { ...zone, name: `${zone.name} (until ${monthYear(zone.until!)})` };
  dated.set(zone, found);
  return found;
};

/** Today's zones and then the former ones: whoever tells of years past asks for all of them. */
export const everyZone = (field: Field): readonly Zone[] =>
  field.formerZones.length === 0 ? field.zones : [...field.zones, ...field.formerZones.map(withEnd)];

/** The zone of a record, whether it still is one or not. */
export const zoneOf = (field: Field, id: string): Zone | undefined =>
  field.zones.find((z) => z.id === id) ?? field.formerZones.find((z) => z.id === id);

/** Its name, or its id where the records no longer know it. */
export const zoneName = (field: Field, id: string): string => zoneOf(field, id)?.name ?? id;

/** The zones that took over the ground of one, or are to. */
const heirsOf = (field: Field, zone: string): readonly Zone[] =>
  [...field.zones, ...field.formerZones, ...field.laterZones].filter((z) => z.formerly?.includes(zone));

/** Is what a record says of these zones so of one zone, or of all that its ground became, or is to become? */
export const onGroundOf = (field: Field, zone: string, zones: readonly string[]): boolean => {
  if (zones.includes(zone)) return true;
  const heirs = heirsOf(field, zone);
  return heirs.length > 0 && heirs.every((z) => onGroundOf(field, z.id, zones));
};

const formerlyOf = (field: Field, zone: string): readonly string[] =>
  [...field.zones, ...field.formerZones, ...field.laterZones].find((z) => z.id === zone)?.formerly ?? [];

/** The same of the past: is it so of one zone, or of all that its ground was before? Part of the ground is not the zone. */
export const onGroundBefore = (field: Field, zone: string, zones: readonly string[]): boolean => {
  if (zones.includes(zone)) return true;
  const formerly = formerlyOf(field, zone);
  return formerly.length > 0 && formerly.every((id) => onGroundBefore(field, id, zones));
};

/** Is it so of any of the ground of one zone, as it was before? */
export const onSomeGroundBefore = (field: Field, zone: string, zones: readonly string[]): boolean =>
  zones.includes(zone) || formerlyOf(field, zone).some((id) => onSomeGroundBefore(field, id, zones));

/** Is it so of any of the ground of one zone, or of what it became? */
export const onSomeGroundOf = (field: Field, zone: string, zones: readonly string[]): boolean =>
  zones.includes(zone) || heirsOf(field, zone).some((z) => onSomeGroundOf(field, z.id, zones));

const known = new WeakMap<Field, Map<string, Field>>();

/**
 * The field with the zones that it had on a day, `YYYY-MM-DD`. The field itself where its zones are today's, so that what was worked out
 * of it holds for both.
 */
export const fieldAsOf = (field: Field, day: string): Field => {
  const zones = [...field.zones, ...field.formerZones].filter((z) => livesOn(z, day));
  if (zones.length === field.zones.length && zones.every((z) => field.zones.includes(z))) return field;
  const key = zones.map((z) => z.id).join(" ");
  const eras = known.get(field) ?? new Map<string, Field>();
  known.set(field, eras);
  // What followed them is yet to come: the crop after that day may be one of its ground.
  const era = eras.get(key) ?? { ...field, zones, laterZones: [...field.zones.filter((z) => !zones.includes(z)), ...field.laterZones] };
  eras.set(key, era);
  return era;
};

export const zoneNames = (field: Field, zones: readonly string[]): string => list(zones.map((id) => zoneName(field, id)));

/** " on Knoll and Outwash"; nothing where it is the whole field, as its zones were on that day. */
export const onZones = (field: Field, zones: readonly string[], day: string): string =>
  zones.length === fieldAsOf(field, day).zones.length ? "" : ` on ${zoneNames(field, zones)}`;

/** Is this a season of the zone's own: is a crop of it recorded, or was it a zone at the last harvest? */
export const inSeason = (zone: Zone, { season, crops }: Season): boolean =>
  crops.some((c) => c.zones.includes(zone.id)) ||
  livesOn(
    zone,
    crops
      .flatMap((c) => c.harvested ?? [])
      .sort()
      .at(-1) ?? `${season}-${harvestedBy}`,
  );

/** A day on which a zone began or ended, in words. */
export interface ZoneChange {
  readonly date: string;
  /** "West end and East end were merged into Long piece" */
  readonly text: string;
}

/** "Old top was split into Crest and Shoulder"; only where the ground of the old zones went to none but the new ones. */
const redrawn = (old: string, olds: number, drawn: string, many: number): string =>
  olds > 1
    ? `${old} were ${many > 1 ? "drawn anew as" : "merged into"} ${drawn}`
    : many > 1
      ? `${old} was split into ${drawn}`
      : `${drawn} took the place of ${old}`;

/** Every zone that was drawn anew, and those that ended without a successor, oldest first. */
export const zoneChanges = (field: Field): ZoneChange[] => {
  const all = [...field.zones, ...field.formerZones];
  const followed = new Set(all.flatMap((z) => z.formerly ?? []));
  const began = [
    ...Map.groupBy(
      all.filter((z) => z.since !== undefined),
      (z) => [z.since, ...[...(z.formerly ?? [z.id])].sort()].join(" "),
    ).values(),
  ].flatMap((drawn): ZoneChange[] => {
    const { since: date, formerly } = drawn[0]!;
    const alone = formerly !== undefined && all.every((z) => drawn.includes(z) || !z.formerly?.some((id) => formerly.includes(id)));
    return alone
      ? [{ date: date!, text: redrawn(zoneNames(field, formerly), formerly.length, list(drawn.map((z) => z.name)), drawn.length) }]
      : drawn.map((z) => ({ date: date!, text: `${z.name} became a zone${formerly ? `, formerly ${zoneNames(field, formerly)}` : ""}` }));
  });
  const ended = field.formerZones
    .filter((z) => !followed.has(z.id))
    .map((z): ZoneChange => ({ date: z.until!, text: `${z.name} was given up as a zone` }));
  return [...began, ...ended].sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
};

/** The same as sentences with their days. */
export const zoneChangeWords = (field: Field): string =>
  zoneChanges(field)
    .map(({ date, text }) => `${text}, on ${longDate(date)}.`)
    .join(" ");

/** What stands in the records of days still to come: "From 20 November 2025 on, Lea is to take the place of West lea and East lea." */
export const comingChangeWords = (field: Field): string =>
  [...Map.groupBy(field.laterZones, ({ since, formerly = [] }) => [since, ...[...formerly].sort()].join(" ")).values()]
    .map((drawn) => {
      const { since, formerly } = drawn[0]!;
      const names = list(drawn.map((z) => z.name));
      const becomes = formerly
        ? `${drawn.length > 1 ? "are" : "is"} to take the place of ${zoneNames(field, formerly)}`
        : drawn.length > 1
          ? "are to be zones"
          : "is to be a zone";
      return `From ${longDate(since!)} on, ${names} ${becomes}.`;
    })
    .join(" ");
