import type { Farm, Field } from "../records/model.ts";
import { compareNames } from "./nameOrder.ts";
import { mostOfPage, seasonZoneWeight } from "./pageWeight.ts";
import { parted } from "./parted.ts";
import { count } from "./words.ts";

/** Fields that share a page of the season and one of spreader sheets. */
export interface SeasonPart {
  /** From 1 on. */
  readonly part: number;
  /** "Causeway to Netloft", by name. */
  readonly title: string;
  /** "seven fields" */
  readonly holds: string;
  readonly fields: readonly Field[];
}

/** The season's pages by field, known from the records alone; none where one page holds the whole season. */
export const seasonParts = (farm: Farm): readonly SeasonPart[] => {
  const byName = [...farm.fields].sort((a, b) => compareNames(a.name, b.name));
  const parts = parted(byName, (field) => field.zones.length * seasonZoneWeight, mostOfPage);
  if (parts.length < 2) return [];
  return parts.map((fields, i) => ({
    part: i + 1,
    title: fields.length === 1 ? fields[0]!.name : `${fields[0]!.name} to ${fields.at(-1)!.name}`,
    holds: count(fields.length, "field"),
    fields,
  }));
};
