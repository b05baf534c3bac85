import type { Source } from "../../interpretation/outcome.ts";
import { harvestYearAfter } from "../../interpretation/season.ts";
import type { Starter } from "../../interpretation/starter.ts";
import type { Amount, YieldUnit } from "../../interpretation/units.ts";
import type { CropId, StrawId } from "../../interpretation/vocabulary.ts";
import type { Field, GrownCrop } from "../../records/model.ts";
import { onGroundOf } from "../zonesThen.ts";

/** The crop a sampling is read for: planned, or as really grown. */
export interface NextCrop {
  readonly season: number;
  readonly crop: CropId;
  readonly yieldGoal: Amount<YieldUnit> | undefined;
  readonly yieldWithheld?: boolean | undefined;
  readonly source: Source | undefined;
  readonly straw?: StrawId | undefined;
  readonly starter?: Starter | undefined;
  readonly planned: boolean;
}

/** Off the field on the newest day of the records: a yield is on record, whether or not its day was written down. */
const isOff = (crop: GrownCrop, date: string): boolean =>
  crop.harvested === undefined ? crop.yield !== undefined || crop.yieldWithheld === true : crop.harvested <= date;

/** What a crop gave in one season: hay is cut more than once. Not known where a cut is not, or where they are in different units. */
const yieldOf = (cuts: readonly GrownCrop[]): Amount<YieldUnit> | undefined => {
  const [first, ...more] = cuts.map((cut) => cut.yield);
  if (!first || more.some((each) => each?.unit !== first.unit)) return undefined;
  // 1.9 + 1.3 without the computer's dust.
  return { value: Number(more.reduce((sum, each) => sum + each!.value, first.value).toPrecision(12)), unit: first.unit };
};

/**
 * The first crop after a day: from July it is next year's, before it this year's. The earlier season counts, and within one what was
 * planned, for its goal; where nothing was, a yield really harvested stands for the goal that was set then.
 * `now`: the day is the newest of the records, so that a crop whose harvest they hold comes next no more.
 */
export const nextCrop = (field: Field, zone: string, date: string, now = false): NextCrop | undefined => {
  const first = harvestYearAfter(date);
  const all = field.seasons
    .filter((s) => s.season >= first)
    .flatMap((s) => s.crops.filter((c) => onGroundOf(field, zone, c.zones)).map((c) => ({ season: s.season, crop: c })));
  const grown = now ? all.filter((g) => !isOff(g.crop, date)) : all;
  const past = new Set(all.filter((g) => !grown.includes(g)).map((g) => g.season));
  const planned = field.plan
    .filter((p) => p.season >= first && !past.has(p.season) && onGroundOf(field, zone, p.zones))
    .sort((a, b) => a.season - b.season);
  const [was] = grown.sort((a, b) => a.season - b.season);
  const [will] = planned;
  if (will && (!was || will.season <= was.season))
    return {
      season: will.season,
      crop: will.crop,
      yieldGoal: will.yieldGoal,
      yieldWithheld: will.yieldWithheld,
      source: { record: will.origin },
      straw: will.straw,
      starter: will.starter,
      planned: true,
    };
  const cuts = grown.filter((g) => g.season === was?.season && g.crop.crop === was.crop.crop).map((g) => g.crop);
  if (was)
    return {
      season: was.season,
      crop: was.crop.crop,
      yieldGoal: yieldOf(cuts),
      yieldWithheld: cuts.some((c) => c.yieldWithheld) || undefined,
      straw: was.crop.straw,
      source: { record: was.crop.origin },
      planned: false,
    };
  return undefined;
};
