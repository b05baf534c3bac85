import type { CropId } from "../../interpretation/vocabulary.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { Field } from "../../records/model.ts";
import { onGroundOf, onSomeGroundOf } from "../zonesThen.ts";

/** Straw and stover are harvests of their own and part of the crop whose grain was taken. */
const residues: ReadonlySet<CropId> = new Set<CropId>(["wheatStraw", "cornStover"]);

export interface HarvestsBetween {
  /** "alfalfa 2020": a crop of one season once, however often it was cut. */
  readonly taken: readonly string[];
  /** Crops that were harvested before, within or after the time, because their day is not recorded. */
  readonly undated: readonly string[];
}

/** What was harvested on a zone from one day to another, both counted; a yield of 0 is no harvest, and one that a reader is not shown may be 0. */
export const harvestsBetween = (field: Field, zone: string, from: string, to: string): HarvestsBetween => {
  const [first, last] = [from, to].map((day) => Number(day.slice(0, 4))) as [number, number];
  const all = field.seasons.flatMap(({ season, crops: grown }) =>
    grown
      .filter((c) => onSomeGroundOf(field, zone, c.zones) && !residues.has(c.crop) && c.yield?.value !== 0)
      .map(({ crop, harvested, yield: amount, zones }) => ({
        zones,
        season,
        harvested,
        known: amount !== undefined,
        name: `${crops[crop].label} ${season}`,
      })),
  );
  const inside = all.filter(({ season, harvested, known }) =>
    harvested === undefined ? known && season > first && season < last : harvested >= from && harvested <= to,
  );
  // A crop may be recorded of each part of the ground by itself, with its own day and yield.
  const onAll = (of: typeof all): string[] =>
    [...Map.groupBy(of, (c) => c.name)].flatMap(([name, entries]) =>
      onGroundOf(
        field,
        zone,
        entries.flatMap((c) => c.zones),
      )
        ? name
        : [],
    );
  const taken = onAll(inside);
  const onEdge = all.filter(({ season, harvested, known }) => harvested === undefined && known && (season === first || season === last));
  return { taken, undated: onAll(onEdge).filter((name) => !taken.includes(name)) };
};
