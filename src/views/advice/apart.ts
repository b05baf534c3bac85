import { whyNotComparable } from "../../interpretation/comparable.ts";
import type { Depth, Measurement } from "../../interpretation/measurement.ts";
import { methodLabel } from "../../interpretation/measurement.ts";
import { seasonName } from "../../interpretation/season.ts";
import type { RatedCell } from "./zoneRows.ts";

/** The mark of a value that was taken otherwise than the others around it. */
export const apartMark = "†";

/** Measurements of different places, in groups within which every pair was taken in one way. */
const groupsOf = (all: readonly Measurement[]): Measurement[][] => {
  const groups: Measurement[][] = [];
  for (const m of all) {
    const home = groups.find((group) => group.every((each) => whyNotComparable(each, m) === undefined));
    if (home) home.push(m);
    else groups.push([m]);
  }
  return groups;
};

/** The way most were taken; of two ways as frequent, the one with the newest sampling. */
const usual = (groups: readonly Measurement[][]): Measurement[] => {
  const newest = (group: readonly Measurement[]): string => group.reduce((date, m) => (m.date > date ? m.date : date), "");
  return groups.reduce<Measurement[]>(
    (best, group) => (group.length > best.length || (group.length === best.length && newest(group) > newest(best)) ? group : best),
    [],
  );
};

/** "by Bray P1, 0 to 6 in deep, taken in spring": all in which one measurement was taken otherwise than another. */
const otherwise = (than: Measurement, m: Measurement, depth: (d: Depth) => string): string => {
  const parts = [
    methodLabel(than) !== methodLabel(m) && `by ${methodLabel(m)}`,
    than.unit !== m.unit && `in ${m.unit}`,
    whyNotComparable({ ...than, depth: m.depth }, than) !== undefined && `${depth(m.depth)} deep`,
    whyNotComparable({ ...than, date: m.date }, than) !== undefined && `taken in ${seasonName(m.date)}`,
  ];
  return parts.filter(Boolean).join(", ");
};

/** Cells that stand in one column or on one map: those not taken in the way of most of them say how they were taken. */
export const sayApart = (cells: readonly RatedCell[], depth: (d: Depth) => string): RatedCell[] => {
  const groups = groupsOf(cells.flatMap((c) => c.measurement ?? []));
  if (groups.length < 2) return [...cells];
  const main = usual(groups);
  return cells.map((cell) =>
    cell.measurement && !main.includes(cell.measurement) ? { ...cell, apart: otherwise(main[0]!, cell.measurement, depth) } : cell,
  );
};

/** One sentence for a map's note: "† Outwash: by Bray P1, not comparable with the others." Nothing where all compare. */
export const apartNote = (cells: readonly { readonly name: string; readonly cell: RatedCell }[]): string | undefined => {
  const notes = cells.flatMap(({ name, cell }) => (cell.apart === undefined ? [] : [`${name} ${cell.apart}`]));
  return notes.length === 0 ? undefined : `${apartMark} Not comparable with the others: ${notes.join("; ")}.`;
};
