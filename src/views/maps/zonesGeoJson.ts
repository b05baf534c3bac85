import { areasGeoJson } from "../../exchange/areasGeoJson.ts";
import type { Farm, Field } from "../../records/model.ts";
import { drawable } from "./map.ts";

/** Boundaries are for download only where the owner lets the site tell where the farm lies. */
export const hasZonesFile = (farm: Farm, field: Field): boolean => farm.publish.location && drawable(field.zones).length > 0;

/** The zones as the record draws them, each with its id, letter, name and its area in square meters. */
export const zonesGeoJson = (field: Field): string =>
  areasGeoJson(
    drawable(field.zones).map(({ id, letter, name, area, squareMeters }) => ({
      area,
      properties: { field: field.id, zone: id, letter, name, area_sq_m: squareMeters === undefined ? null : Math.round(squareMeters) },
    })),
  );
