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
