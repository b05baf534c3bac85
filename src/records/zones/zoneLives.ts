import { livesOn, liveTogether } from "../../interpretation/zoneLife.ts";
import { allowedList, allowedWords } from "../nearMiss.ts";
import type { FieldRecord } from "../schemas/field.ts";

/** The zones of a field.yaml, asked of by the records that name them. */
export interface ZoneLives {
  readonly ids: readonly string[];
  /** Those that are zones on a day. */
  on(day: string): readonly string[];
  /** Why a record of this day may not name the zone; `undefined` where it may. */
  fault(zone: string, day: string): string | undefined;
  together(a: string, b: string): boolean;
}

export const zoneLives = (zones: FieldRecord["zones"]): ZoneLives => {
  const ids = Object.keys(zones);
  const on = (day: string): readonly string[] => ids.filter((id) => livesOn(zones[id]!, day));
  const fault = (zone: string, day: string): string | undefined => {
    if (!Object.hasOwn(zones, zone))
      return `zone "${zone}" is not in field.yaml; ${allowedWords(zone, ids, (id) => [zones[id]!.letter, zones[id]!.name])}`;
    const { since, until } = zones[zone]!;
    if (livesOn(zones[zone]!, day)) return undefined;
    return `zone "${zone}" ${until !== undefined && day >= until ? `is no zone any more since ${until}` : `is a zone only since ${since}`}, and this is of ${day}; ${allowedList(on(day))}`;
  };
  return { ids, on, fault, together: (a, b) => liveTogether(zones[a] ?? {}, zones[b] ?? {}) };
};
