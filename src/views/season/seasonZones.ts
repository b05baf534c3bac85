import type { UnitChoice } from "../../interpretation/unitChoices.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import type { ZoneAdviceView } from "../advice/adviceView.ts";
import { zoneAdviceView } from "../advice/adviceView.ts";
import { dueOf } from "../calendar/due.ts";
import type { ZoneAdvice } from "../advice/sample.ts";
import { adviceNow } from "../advice/sample.ts";
import type { SpreadLine } from "./seasonLines.ts";
import { spreadLines } from "./seasonLines.ts";
import { inUnitsOf } from "../units.ts";
import type { ZonePurchase } from "../advice/zonePurchase.ts";
import { zonePurchase } from "../advice/zonePurchase.ts";

/** A zone, all that is advised for it, and what that comes to in products. */
export interface SeasonZone {
  readonly field: Field;
  readonly zone: Zone;
  readonly units: UnitChoice;
  /** The farm in the field's own units. */
  readonly farm: Farm;
  /** Absent where there is neither a routine sampling nor a nitrogen test. */
  readonly advised: { readonly advice: ZoneAdvice; readonly view: ZoneAdviceView; readonly purchase: ZonePurchase } | undefined;
  /** The next routine sampling is overdue. */
  readonly old: boolean;
  readonly lines: readonly SpreadLine[];
}

const known = new WeakMap<Farm, readonly SeasonZone[]>();

/** Every zone of the farm with its newest advice, in the order of fields and zones; worked out once a farm. */
export const seasonZones = (farm: Farm): readonly SeasonZone[] => {
  let zones = known.get(farm);
  if (!zones) known.set(farm, (zones = farm.fields.flatMap((field) => field.zones.map((zone) => seasonZone(farm, field, zone)))));
  return zones;
};

const seasonZone = (site: Farm, field: Field, zone: Zone): SeasonZone => {
  const farm = inUnitsOf(site, field);
  const advice = adviceNow(site, field, zone);
  const base = { field, zone, units: farm.units, farm, old: !advice?.nitrogenAlone && dueOf(site, field, zone).overdue };
  if (!advice) return { ...base, advised: undefined, lines: [] };
  const purchase = zonePurchase(farm, advice);
  return { ...base, advised: { advice, view: zoneAdviceView(farm, advice), purchase }, lines: spreadLines(field, advice, purchase) };
};

/** The same zones by field; a field without any has an empty list. */
export const seasonZonesByField = (farm: Farm): ReadonlyMap<Field, readonly SeasonZone[]> => {
  const byField = new Map<Field, SeasonZone[]>(farm.fields.map((field) => [field, []]));
  for (const zone of seasonZones(farm)) byField.get(zone.field)!.push(zone);
  return byField;
};

/** Those of some fields, in the farm's order. */
export const seasonZonesOf = (farm: Farm, fields: readonly Field[]): readonly SeasonZone[] => {
  const asked = new Set(fields);
  return seasonZones(farm).filter((z) => asked.has(z.field));
};

/** Zones by the units they are told in, the farm's own first: amounts in different units stand apart and are not added up. */
export const byUnits = (
  farm: Farm,
  fields: readonly Field[] = farm.fields,
): { readonly units: UnitChoice; readonly zones: readonly SeasonZone[] }[] => {
  const zones = seasonZonesOf(farm, fields);
  const choices = [...new Set([farm.units, ...zones.map((z) => z.units)])];
  return choices.flatMap((units) => {
    const here = zones.filter((z) => z.units === units);
    return here.length > 0 ? [{ units, zones: here }] : [];
  });
};
