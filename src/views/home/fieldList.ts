import { crops } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { dueOf } from "../calendar/due.ts";
import type { Need } from "../season/fieldNeeds.ts";
import { farmNeeds, needKinds } from "../season/fieldNeeds.ts";
import { compareNames } from "../nameOrder.ts";
import { nextCrop } from "../advice/nextCrop.ts";
import { area, areaUnit } from "../units.ts";
import { noCropWords } from "../leftOut.ts";
import { list, monthYear } from "../words.ts";

/** A field as a line of a list: the same line in every list, on the home page and in the download. */
export interface FieldRow {
  readonly field: Field;
  /** In the field's own units, which are named where they are not the farm's. */
  readonly area: string;
  readonly squareMeters: number | undefined;
  readonly tenure: string;
  /** "soybean", "corn and soybean": the next crop of each zone. */
  readonly crop: string;
  /** "soybean 2026" */
  readonly cropWords: string;
  /** The oldest of its zones' newest full samplings, `YYYY-MM-DD`; `undefined` where a zone has none. */
  readonly oldest: string | undefined;
  readonly oldestWords: string;
  /** None of its zones was ever sampled. */
  readonly never: boolean;
  /** And yet it was: its zones were drawn anew since. */
  readonly redrawn: boolean;
  /** When it is next due, as a day and in words. */
  readonly due: string | undefined;
  readonly overdue: boolean;
  readonly next: string;
  readonly needs: readonly Need[];
  readonly needWords: string;
  /** A number for each column of the list, by which a script may sort. */
  readonly keys: readonly number[];
}

type Draft = Omit<FieldRow, "keys">;

const draft = (farm: Farm, field: Field, fieldNeeds: readonly Need[]): Draft => {
  const units = field.units ?? farm.units;
  const mapped = field.zones.flatMap((z) => z.squareMeters ?? []);
  const squareMeters = mapped.length === 0 ? undefined : mapped.reduce((a, b) => a + b, 0);
  const next = field.zones.flatMap((z) => nextCrop(field, z.id, farm.today, true) ?? []);
  const { last, next: due, overdue, never, redrawn, words } = dueOf(farm, field);
  return {
    field,
    squareMeters,
    area: squareMeters === undefined ? "not mapped" : `${area(squareMeters, units)}${units === farm.units ? "" : ` ${areaUnit(units)}`}`,
    tenure: field.tenure?.kind ?? "not recorded",
    crop: next.length === 0 ? noCropWords(farm) : list([...new Set(next.map((c) => crops[c.crop].label))]),
    cropWords: next.length === 0 ? noCropWords(farm) : list([...new Set(next.map((c) => `${crops[c.crop].label} ${c.season}`))]),
    oldest: last,
    oldestWords: redrawn
      ? "not since the zones were drawn anew"
      : never
        ? "never sampled"
        : last === undefined
          ? "not all sampled"
          : monthYear(last),
    never,
    redrawn,
    due,
    overdue,
    next: words,
    needs: fieldNeeds,
    needWords: fieldNeeds.map((n) => n.words).join("; "),
  };
};

/** The place of each text in the order of names. */
const ranks = (texts: readonly string[]): Map<string, number> =>
  new Map([...new Set(texts)].sort(compareNames).map((text, i) => [text, i]));

/** `2025-10-18` as a number. A day that is not known comes last where it lies ahead, and first where it never was. */
const dayKey = (date: string | undefined, unknown: number): number => (date === undefined ? unknown : Number(date.replaceAll("-", "")));

const known = new WeakMap<Farm, readonly FieldRow[]>();

/** Every field of the farm by name; worked out once. */
export const fieldList = (farm: Farm): readonly FieldRow[] => {
  let rows = known.get(farm);
  if (!rows) {
    const needsOf = farmNeeds(farm);
    const drafts = farm.fields
      .map((field) => draft(farm, field, needsOf.get(field)!))
      .sort((a, b) => compareNames(a.field.name, b.field.name));
    const [tenures, cropNames] = [ranks(drafts.map((d) => d.tenure)), ranks(drafts.map((d) => d.cropWords))];
    rows = drafts.map((d, i) => ({
      ...d,
      keys: [
        i,
        Math.round(d.squareMeters ?? -1),
        tenures.get(d.tenure)!,
        cropNames.get(d.cropWords)!,
        dayKey(d.oldest, 0),
        dayKey(d.due, d.overdue ? 0 : 99_999_999),
        needKinds.indexOf(d.needs[0]!.kind),
      ],
    }));
    known.set(farm, rows);
  }
  return rows;
};

/** Most urgent first; of one urgency the longest untested, then by name. */
export const byNeed = (rows: readonly FieldRow[]): FieldRow[] =>
  [...rows].sort((a, b) => a.keys[6]! - b.keys[6]! || a.keys[4]! - b.keys[4]! || a.keys[0]! - b.keys[0]!);
