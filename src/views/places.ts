import type { Field, Zone } from "../records/model.ts";
import { count, list, zonesOrCount } from "./words.ts";

/** A zone and the field it lies in. */
export interface Place {
  readonly field: Field;
  readonly zone: Zone;
}

const byField = (places: readonly Place[]): string[] =>
  [...new Set(places.map((p) => p.field))].map((field) => {
    const here = places.filter((p) => p.field === field);
    return here.length === field.zones.length
      ? field.name
      : `${field.name} (${zonesOrCount(
          here.map((p) => p.zone),
          field.zones.length,
        )})`;
  });

/** "Causeway (Knoll) and Netloft": zones of several fields, a field that is whole by its name alone. */
export const placesWords = (places: readonly Place[]): string => list(byField(places));

/** The same; of more places than a sentence can hold, how many zones they are. */
export const placesOrCount = (places: readonly Place[]): string => {
  const partly = places.filter(({ field }) => places.filter((p) => p.field === field).length < field.zones.length);
  const named = byField(places);
  return named.length + partly.length > 12 ? count(places.length, "zone") : list(named);
};
