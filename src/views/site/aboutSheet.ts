import { noDay } from "../../interpretation/noDay.ts";
import type { Farm, Field } from "../../records/model.ts";
import { capital, longDate } from "../words.ts";

/** Where a sheet comes from: told at its foot, and in print on the edge of every sheet. */
export interface AboutSheet {
  /** The day the pages speak from, `YYYY-MM-DD`; absent where the records hold none yet. */
  readonly day: string | undefined;
  /** There are samplings after that day, because an earlier one than the newest was set. */
  readonly later: boolean;
  /** The newest sampling it could show, `YYYY-MM-DD`; absent where nothing was sampled yet. */
  readonly sampled: string | undefined;
  readonly cite: string;
  /** A style sheet of its own for print: which page this is, and how many sheets it has. */
  readonly printed: string;
}

/** A CSS string in double quotes; `<` is escaped because it stands within an HTML page. */
const cssString = (text: string): string => `"${text.replace(/["\\<\n]/g, (c) => `\\${c.codePointAt(0)!.toString(16)} `)}"`;

/** The day a farm speaks from; absent where its records hold none yet. */
export const dayOf = (farm: Farm): string | undefined => (farm.today === noDay ? undefined : farm.today);

type OfRecords = Pick<AboutSheet, "day" | "later"> & { readonly newest: string | undefined; readonly records: string };
const known = new WeakMap<Farm, OfRecords>();

/** What the foot of every page says alike, looked up among all fields once. */
const ofRecords = (farm: Farm): OfRecords => {
  const held = known.get(farm);
  if (held) return held;
  const day = dayOf(farm);
  const newest = farm.fields
    .flatMap((f) => f.samplings.at(-1)?.date ?? [])
    .sort()
    .at(-1);
  const later = day !== undefined && newest !== undefined && newest > day;
  const records = day === undefined ? "records without a day yet" : `records to ${longDate(later ? newest : day)}`;
  const found = { newest, day, later, records };
  known.set(farm, found);
  return found;
};

export const aboutSheet = (farm: Farm, path: string, title: string, field?: Field): AboutSheet => {
  const named = title === farm.name ? farm.name : `${farm.name}: ${title}`;
  const { day, later, newest, records } = ofRecords(farm);
  const line = `${named}. ${capital(records)}. ${path}`;
  return {
    day,
    later,
    sampled: field ? field.samplings.at(-1)?.date : newest,
    cite: `${named}. Field history, ${records}, ${path}.`,
    printed: `@page{@bottom-left{content:${cssString(line)};width:82%}@bottom-right{content:counter(page) " of " counter(pages)}}`,
  };
};
