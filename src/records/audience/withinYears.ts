import type { Measurement } from "../../interpretation/measurement.ts";
import type { Farm, Field, Withheld, Zone } from "../model.ts";
import { everyField } from "./everyField.ts";

type Years = NonNullable<Withheld["years"]>;

/**
 * Nothing dated before the first year or after the last: samplings, seasons, plans, advice as issued, and every day within what stays. A
 * result that was corrected later keeps its right value, without a word on the correction.
 */
export const withinYears = (farm: Farm, { from = -Infinity, to = Infinity }: Years): Farm => {
  const within = (date: string | undefined): boolean =>
    date !== undefined && Number(date.slice(0, 4)) >= from && Number(date.slice(0, 4)) <= to;
  const day = (date: string | undefined): string | undefined => (within(date) ? date : undefined);
  const season = (year: number): boolean => year >= from && year <= to;
  const withoutLater = (m: Measurement): Measurement => ({
    ...m,
    correction: m.correction && within(m.correction.date) ? m.correction : undefined,
  });
  /** A zone drawn before the years shown was always one, and of one that ends after them no end is known yet. */
  const zone = (z: Zone): Zone => ({ ...z, ...(!within(z.since) && { since: undefined, formerly: undefined }), until: day(z.until) });
  /** Those of the years shown, which name no others as theirs before; where all of them are of other years, today's, without their days. Which of them had ended is told once the day is known. */
  const zones = (f: Field): Zone[] => {
    const shown = [...f.zones, ...f.formerZones].filter(
      (z) => Number(z.since?.slice(0, 4) ?? -Infinity) <= to && Number(z.until?.slice(0, 4) ?? Infinity) >= from,
    );
    const left = shown.length > 0 ? shown : f.zones;
    const named = (ids: Zone["formerly"] = []): string[] => ids.filter((id) => left.some((other) => other.id === id));
    return left.map(zone).map((z) => ({ ...z, formerly: named(z.formerly).length > 0 ? named(z.formerly) : undefined }));
  };
  return everyField(
    { ...farm, pricesOn: day(farm.pricesOn) },
    {
      field: (f) => ({
        ...f,
        zones: zones(f),
        formerZones: [],
        tenure: f.tenure && { ...f.tenure, since: day(f.tenure.since) },
        boundary: f.boundary && { ...f.boundary, walked: day(f.boundary.walked) },
        seasons: f.seasons.filter((s) => season(s.season)).map((s) => (s.season === from ? { ...s, part: true } : s)),
        recommendations: f.recommendations.filter(({ record }) => within(record.issued) && within(record.sampling.date)),
      }),
      planned: (p) => (season(p.season) ? p : undefined),
      sampling: (s) =>
        within(s.date)
          ? { ...s, handling: { ...s.handling, receivedOn: day(s.handling.receivedOn), reportedOn: day(s.handling.reportedOn) } }
          : undefined,
      composite: (c) => ({ ...c, measurements: c.measurements.map(withoutLater) }),
      crop: (c) => ({ ...c, planted: day(c.planted), harvested: day(c.harvested) }),
      application: (a) => (within(a.date) ? a : undefined),
    },
  );
};
