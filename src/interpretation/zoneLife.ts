/** From when to when a zone is one; without a day it always was, or still is. */
export interface ZoneLife {
  readonly since?: string | undefined;
  readonly until?: string | undefined;
}

/** The day of its season on which a crop without a harvest's day is taken to have stood: zones are drawn anew before or after a summer. */
export const harvestedBy = "07-01";

/** Is it a zone on this day, `YYYY-MM-DD`? On the day it ends it is none any more, so that what follows it may begin on that day. */
export const livesOn = ({ since, until }: ZoneLife, day: string): boolean =>
  (since === undefined || day >= since) && (until === undefined || day < until);

/** Were two zones ever zones at the same time? */
export const liveTogether = (a: ZoneLife, b: ZoneLife): boolean =>
  (a.until === undefined || b.since === undefined || b.since < a.until) &&
  (b.until === undefined || a.since === undefined || a.since < b.until);

/** A field's zones as they stand on its day: those that are, those that had ended, and those yet to be drawn. */
export interface ZonesInTime<Z extends ZoneLife> {
  readonly zones: readonly Z[];
  readonly formerZones: readonly Z[];
  readonly laterZones: readonly Z[];
}

/**
 * The field as its zones stand on another day. Where that would leave no zone, or changes nothing, it is the field itself, so that what was
 * worked out of it holds.
 */
export const withZonesOf = <F extends ZonesInTime<ZoneLife>>(field: F, day: string): F => {
  const all = [...field.zones, ...field.formerZones, ...field.laterZones];
  const zones = all.filter((z) => livesOn(z, day));
  const formerZones = all.filter((z) => z.until !== undefined && z.until <= day);
  const isSame = zones.length === field.zones.length && formerZones.length === field.formerZones.length;
  if (zones.length === 0 || (isSame && zones.every((z) => field.zones.includes(z)))) return field;
  return { ...field, zones, formerZones, laterZones: all.filter((z) => z.since !== undefined && z.since > day) };
};
