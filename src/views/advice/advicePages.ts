import type { Field, Zone } from "../../records/model.ts";
import { mostOfFieldAdvice, mostOfPage, zoneAdviceWeight } from "../pageWeight.ts";
import { parted } from "../parted.ts";
import { paths } from "../paths.ts";

/** The zones whose advice is worked out on each page of its own: none where the field's page bears it all. */
export const adviceParts = (field: Field): Zone[][] =>
  field.zones.length * zoneAdviceWeight <= mostOfFieldAdvice ? [] : parted(field.zones, () => zoneAdviceWeight, mostOfPage);

/** The page that works a zone's advice out. */
export const advicePath = (field: Field, zone: Zone): string => {
  const part = adviceParts(field).findIndex((zones) => zones.includes(zone));
  return part < 0 ? paths.field(field.id) : paths.advice(field.id, part + 1);
};
