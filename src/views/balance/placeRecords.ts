import type { PlaceRecords, Spread } from "../../interpretation/balance/balance.ts";
import type { CoefficientSet, Harvest } from "../../interpretation/balance/harvestRemoval.ts";
import { sectionsOf } from "../../interpretation/guideline.ts";
import { statesOfftake } from "../../interpretation/rules/indexRemoval.ts";
import type { Application, Field, Season, Zone } from "../../records/model.ts";
import { everyZone, inSeason } from "../zonesThen.ts";

const held = (a: Application): Spread["holds"] | undefined => {
  const { fertilizer, brings, manure } = a.product;
  const analysis = fertilizer?.analysis ?? brings;
  if (analysis) return { kind: "fertilizer", analysis };
  return manure && { kind: "manure", ...manure };
};

/** Seasons that are shown whole: of others it is not known what was brought. */
const wholeSeasons = (field: Field): readonly Season[] => field.seasons.filter((s) => !s.part);

/**
 * What a zone's seasons record of nutrients brought and crops taken. Lime brings none but what farm.yaml says of it. What was spread on a new zone after the old one's last
 * harvest, or on an old one for a harvest it did not see, counts in the nearest season that is the zone's own.
 */
export const placeRecords = (field: Field, zone: Zone): PlaceRecords => {
  const own = field.seasons.filter((s) => inSeason(zone, s));
  const [first, last] = [own[0]?.season, own.at(-1)?.season];
  const nearest = (season: number): number => Math.min(Math.max(season, first ?? season), last ?? season);
  return {
    seasons: own.filter((s) => !s.part).map((s) => s.season),
    partSeasons: own.filter((s) => s.part).map((s) => s.season),
    spreads: wholeSeasons(field).flatMap(({ season, applications }) =>
      applications.flatMap((a): Spread[] => {
        const holds = held(a);
        return holds && a.zones.includes(zone.id)
          ? [
              {
                season: nearest(season),
                date: a.date,
                name: a.product.product.name,
                rate: a.rate,
                volume: a.volume,
                holds,
                source: { record: a.origin },
              },
            ]
          : [];
      }),
    ),
    harvests: wholeSeasons(field).flatMap(({ season, crops }) =>
      crops
        .filter((c) => c.zones.includes(zone.id))
        .map((c): Harvest => ({
          season,
          crop: c.crop,
          date: c.harvested,
          yield: c.yield,
          yieldWithheld: c.yieldWithheld,
          moisture: c.moisture,
          straw: c.straw,
          source: { record: c.origin },
        })),
    ),
  };
};

/** Removal coefficients of the field's guidelines, and the offtakes that index rules rest on, in the order they are asked. */
export const coefficientSets = (field: Field): CoefficientSet[] =>
  field.guidelines.flatMap((pack) =>
    [...sectionsOf(pack, "removal"), ...sectionsOf(pack, "indexOfftake").filter(statesOfftake)].map((rule) => ({ pack: pack.short, rule })),
  );

/** Without a season there is nothing to sum, and no download. */
export const hasBalance = (field: Field): boolean => wholeSeasons(field).some((s) => everyZone(field).some((z) => inSeason(z, s)));
