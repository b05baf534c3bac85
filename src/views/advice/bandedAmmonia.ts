import { daysBetween } from "../../interpretation/days.ts";
import type { Fertilizer } from "../../interpretation/products.ts";
import { shareOf } from "../../interpretation/products.ts";
import type { SamplingQuestion } from "../../interpretation/rules/samplingWhen.ts";
import { bandedAbove } from "../../interpretation/rules/samplingWhen.ts";
import type { Field, Sampling, Zone } from "../../records/model.ts";
import { fertilizerPounds } from "./appliedRate.ts";
import { onSomeGroundBefore } from "../zonesThen.ts";

/** Percent of nitrogen that no fertilizer but anhydrous ammonia holds, which is always banded: 82-0-0. */
const ammoniaFrom = 80;

export const isAmmonia = ({ analysis }: Fertilizer): boolean => shareOf(analysis, "N") >= ammoniaFrom;

/** Was anhydrous ammonia banded in the year before a nitrate test, on any of the zone's ground? Not known where the season has no record. */
export const bandedAmmonia = (
  field: Field,
  zone: Zone,
  { purpose, date }: Pick<Sampling, "purpose" | "date">,
): SamplingQuestion["bandedAmmonia"] => {
  if (purpose !== "nitrate" || !field.seasons.some((s) => s.season === Number(date.slice(0, 4)))) return undefined;
  const pounds = field.seasons
    .flatMap((s) => s.applications)
    .filter((a) => onSomeGroundBefore(field, zone.id, a.zones) && a.date <= date && daysBetween(a.date, date) < 365)
    .filter(({ product: { fertilizer } }) => fertilizer && isAmmonia(fertilizer))
    .reduce((sum, a) => sum + fertilizerPounds(a, "N"), 0);
  return pounds > bandedAbove ? "yes" : "no";
};
