import { plain } from "../../interpretation/show.ts";
import type { Amount, YieldUnit } from "../../interpretation/units.ts";
import { convert } from "../../interpretation/units.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import { crops } from "../../interpretation/vocabulary.ts";
import type { Field } from "../model.ts";
import type { Problems } from "../problem.ts";

/** So many times the middle yield of its crop on the farm is likely a slip, such as 1790 for 179. What land can bear is nobody's table. */
const timesMiddle = 5;
/** Of fewer the middle says too little. */
const fewestYields = 4;

interface Told {
  readonly crop: CropId;
  readonly amount: Amount<YieldUnit>;
  /** In the crop's own unit. */
  readonly value: number;
  readonly at: { readonly file: string; readonly line: number; readonly column: number };
  readonly path: string;
}

/** Warn of yields and yield goals that stand far above the farm's others of the same crop: rates and balances rest on them. */
export const warnOfYieldSlips = (fields: readonly Field[], problems: Problems): void => {
  const byCrop = Map.groupBy(fields.flatMap(yieldsOf), ({ crop }) => crop);
  for (const [crop, told] of byCrop) {
    if (told.length < fewestYields) continue;
    const values = told.map(({ value }) => value).sort((a, b) => a - b);
    const middle = values[Math.floor((values.length - 1) / 2)]!;
    for (const { value, amount, at, path } of told)
      if (value > timesMiddle * middle)
        problems.warn(
          at.file,
          at,
          path,
          `${plain(amount.value)} ${amount.unit} is more than ${timesMiddle} times what ${crops[crop].label} mostly yields in these records, ${plain(middle, 1)} ${crops[crop].yieldUnit}; is it a slip?`,
        );
  }
};

const yieldsOf = (field: Field): Told[] => [
  ...field.seasons.flatMap((season) => season.crops.flatMap((c, i) => told(c.crop, c.yield, c.origin, `crops[${i + 1}].yield`))),
  ...field.plan.flatMap((p, i) => told(p.crop, p.yieldGoal, p.origin, `plan[${i + 1}].yieldGoal`)),
];

const told = (crop: CropId, amount: Amount<YieldUnit> | undefined, at: Told["at"], path: string): Told[] =>
  amount && amount.value > 0 ? [{ crop, amount, value: convert(amount.value, amount.unit, crops[crop].yieldUnit), at, path }] : [];
