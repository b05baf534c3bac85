import { plain } from "../../interpretation/show.ts";
import { crops, textures } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { awaitedOf } from "../results/awaited.ts";
import { heldWords } from "../tenure.ts";
import { dueOf } from "../calendar/due.ts";
import type { Fact } from "../fact.ts";
import { inYearsShown, laterCropsLeftOut, leftOutForReader, neverWords } from "../leftOut.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { cropsBySeason } from "../advice/cropWords.ts";
import { nextCrop } from "../advice/nextCrop.ts";
import { area, areaUnit } from "../units.ts";
import { capital, count, list, longDate, stopped, zonesOrCount } from "../words.ts";
import { comingChangeWords, fieldAsOf, zoneChanges, zoneChangeWords, zoneOf } from "../zonesThen.ts";
import { samplingCounts } from "../samplingName.ts";

const noneNext = (farm: Farm): string => (laterCropsLeftOut(farm) ? leftOutForReader : "none planned");

/** A field at a glance: when it was sampled and is due, its next crop, land, soils, laboratories and guidelines. */
export const fieldFacts = (farm: Farm, field: Field, advised: ReadonlyMap<string, ZoneAdvice>): Fact[] => {
  const due = dueOf(farm, field);
  const squareMeters = field.zones.reduce((sum, z) => sum + (z.squareMeters ?? 0), 0);
  const soils = [...new Set(field.zones.flatMap((z) => (z.soil.texture ? textures[z.soil.texture] : (z.soil.name ?? []))))];
  const next = cropsBySeason(
    // A zone without results has no advice, and may have its crop planned all the same.
    field.zones.flatMap((z) => (advised.has(z.id) ? advised.get(z.id)!.crop : nextCrop(field, z.id, farm.today, true)) ?? []),
  ).map(({ season, words }) => `${words}, ${season}`);
  const labs = [...new Set(field.samplings.map((s) => s.lab.name))];
  const byPurpose = samplingCounts(field.samplings).map(({ n, name }) => `${n} ${name.short}`);
  const facts: (Fact | undefined)[] = [
    {
      term: "Last full sampling",
      value: due.last
        ? longDate(due.last)
        : due.redrawn
          ? "none since the zones were drawn anew"
          : due.never
            ? neverWords(farm)
            : `not every zone${inYearsShown(farm) || " yet"}`,
    },
    ...(awaitedOf(field).length > 0 ? [{ term: "Results awaited", value: awaitedOf(field).join(" ") }] : []),
    { term: "Next due", value: due.words },
    { term: "Next crop", value: next.length > 0 ? next.join("; ") : noneNext(farm) },
    { term: "Last limed", value: lastLimed(farm, field) },
    field.rotation && { term: "Rotation", value: list(field.rotation.crops.map((c) => crops[c].label)) },
    squareMeters > 0
      ? { term: "Area", value: `${area(squareMeters, farm.units)} ${areaUnit(farm.units)}, ${count(field.zones.length, "zone")}` }
      : undefined,
    soils.length > 0 ? { term: "Soils", value: list(soils) } : undefined,
    field.tenure ? { term: "Tenure", value: heldWords(field.tenure) } : undefined,
    zoneChanges(field).length > 0 ? { term: "Zones drawn anew", value: zoneChangeWords(field) } : undefined,
    field.laterZones.length > 0 ? { term: "Zones to be drawn anew", value: comingChangeWords(field) } : undefined,
    { term: "Samplings", value: byPurpose.length > 0 ? list(byPurpose) : "none" },
    labs.length > 0 ? { term: labs.length > 1 ? "Laboratories, in order" : "Laboratory", value: list(labs) } : undefined,
    { term: "Guidelines, in order asked", value: list(field.guidelines.map((g) => g.short)) },
  ];
  return facts.filter((f): f is Fact => f !== undefined);
};

/** "Boundaries walked 8 April 2014; areas are measured from them. The line follows the ditch."; empty where neither is on record. */
export const boundaryWords = ({ boundary, zones }: Field): string => {
  const walked = boundary?.walked;
  const redrawn = zones.some(({ since }) => walked !== undefined && since !== undefined && since > walked);
  const measured = redrawn
    ? ", zones drawn anew since; areas are measured from the boundaries of today."
    : "; areas are measured from them.";
  return [walked && `Boundaries walked ${longDate(walked)}${measured}`, boundary?.note && stopped(capital(boundary.note))]
    .filter(Boolean)
    .join(" ");
};

const lastLimed = (farm: Farm, field: Field): string => {
  const limed = field.seasons.flatMap((s) => s.applications.filter((a) => a.product.lime));
  const last = limed.sort((a, b) => (a.date < b.date ? -1 : 1)).at(-1);
  if (!last) return `not in these records${inYearsShown(farm)}`;
  const of = fieldAsOf(field, last.date).zones.length;
  const zones = last.zones.flatMap((id) => zoneOf(field, id) ?? []);
  const on = zones.length === of ? "" : ` on ${zonesOrCount(zones, of)}`;
  return `${longDate(last.date)}, ${plain(last.rate.value)} ${last.rate.unit}${on}`;
};
