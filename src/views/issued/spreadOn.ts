import type { Application, Field } from "../../records/model.ts";
import { onGroundOf, onSomeGroundOf } from "../zonesThen.ts";

export interface SpreadOn {
  /** On all the ground of a zone. */
  readonly whole: readonly Application[];
  /** On a part of it alone: a zone that was split since may be spread in its parts. */
  readonly apart: readonly Application[];
}

const zonesOf = (loads: readonly Application[]): string[] => loads.flatMap((a) => a.zones);

/** What was spread on a zone in a time. One rate of one product that is recorded of each part of its ground by itself, and of each once, is one load on all of it. */
export const spreadOn = (field: Field, zone: string, within: (date: string) => boolean): SpreadOn => {
  const all = field.seasons.flatMap((s) => s.applications).filter((a) => within(a.date) && onSomeGroundOf(field, zone, a.zones));
  const inParts = [
    ...Map.groupBy(
      all.filter((a) => !onGroundOf(field, zone, a.zones)),
      ({ product, rate }) => JSON.stringify([product.id, rate.value, rate.unit]),
    ).values(),
  ];
  const isOne = (loads: readonly Application[]): boolean =>
    new Set(zonesOf(loads)).size === zonesOf(loads).length && onGroundOf(field, zone, zonesOf(loads));
  const united = new Map(inParts.filter(isOne).map((loads) => [loads[0]!, { ...loads[0]!, zones: zonesOf(loads) }]));
  return {
    whole: all.flatMap((a) => (onGroundOf(field, zone, a.zones) ? a : (united.get(a) ?? []))),
    apart: inParts.filter((loads) => !isOne(loads)).flat(),
  };
};
