import { plain } from "../../interpretation/show.ts";
import type { Amount, YieldUnit } from "../../interpretation/units.ts";
import { convert } from "../../interpretation/units.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { Field } from "../model.ts";
import type { Problems } from "../problem.ts";

/** So many times the middle yield of its crop on the farm is likely a slip, such as 1790 for 179. */
const timesMiddle = 5;
/** Of fewer the middle says too little. */
const fewestYields = 4;

const otherSeeds = [
  ...["winterWheat", "winterWheatElite", "winterWheatFeed", "durumWheat", "winterRye", "winterTriticale", "springWheat", "winterBarley"],
  ...["springBarley", "oats", "winterOilseedRape", "springOilseedRape", "sunflower", "linseed", "fieldBeans", "dryBeans"],
] as const;

/**
 * More of a dry seed than was ever harvested, in the crop's own unit, and less than is worth a harvest: to tell a slip of the unit, such as
 * 68 dt/ha written as t/ha. From memory the records are about 624 bu/ac of corn and 18 t/ha of wheat. Of other crops no bound is told:
 * under glass they bear what no field does.
 */
const inBushels = { most: 400, least: 1 };
const inTonnes = { most: 22, least: 0.05 };
const bounds: Partial<Record<CropId, { readonly most: number; readonly least: number }>> = {
  ...Object.fromEntries(otherSeeds.map((crop) => [crop, inTonnes])),
  soybean: inBushels,
  wheat: inBushels,
  grainSorghum: inBushels,
  corn: { ...inBushels, most: 900 },
  grainMaize: { ...inTonnes, most: 50 },
};

/** Why one yield by itself looks like a slip. */
const outOfBounds = ({ crop, amount: { value: written, unit }, value }: Told): string | undefined => {
  const { most = Infinity, least = 0 } = bounds[crop] ?? {};
  if (value < least) return `${plain(written)} ${unit} is less than is worth a harvest; is it a slip, or another unit?`;
  if (value <= most) return undefined;
  const tenths = unit === "t/ha" ? ` ${plain(written)} dt/ha are ${plain(written / 10)} t/ha` : "";
  return `${plain(written)} ${unit} is more than ${crops[crop].label} yields anywhere; is it a slip, or another unit?${tenths}`;
};

interface Told {
  readonly crop: CropId;
  readonly amount: Amount<YieldUnit>;
  /** In the crop's own unit. */
  readonly value: number;
  readonly at: { readonly file: string; readonly line: number; readonly column: number };
  readonly path: string;
}

/** Warn of yields and yield goals that no land bears, or that stand far above the farm's others of the same crop: rates and balances rest on them. */
export const warnOfYieldSlips = (fields: readonly Field[], problems: Problems): void => {
  for (const [crop, told] of Map.groupBy(fields.flatMap(yieldsOf), ({ crop }) => crop)) {
    const values = told.map(({ value }) => value).sort((a, b) => a - b);
    const middle = values.length < fewestYields ? Infinity : values[Math.floor((values.length - 1) / 2)]!;
    for (const one of told) {
      const { value, amount, at, path } = one;
      const why =
        value > timesMiddle * middle
          ? `${plain(amount.value)} ${amount.unit} is more than ${timesMiddle} times what ${crops[crop].label} mostly yields in these records, ${plain(middle, 1)} ${crops[crop].yieldUnit}; is it a slip?`
          : outOfBounds(one);
      if (why !== undefined) problems.warn(at.file, at, path, why);
    }
  }
};

const yieldsOf = (field: Field): Told[] => [
  ...field.seasons.flatMap((season) => season.crops.flatMap((c, i) => told(c.crop, c.yield, c.origin, `crops[${i + 1}].yield`))),
  ...field.plan.flatMap((p, i) => told(p.crop, p.yieldGoal, p.origin, `plan[${i + 1}].yieldGoal`)),
];

const told = (crop: CropId, amount: Amount<YieldUnit> | undefined, at: Told["at"], path: string): Told[] =>
  amount && amount.value > 0 ? [{ crop, amount, value: convert(amount.value, amount.unit, crops[crop].yieldUnit), at, path }] : [];
