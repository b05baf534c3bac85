import type { Farm } from "../../records/model.ts";
import { nextSamplings } from "./calendar.ts";
import { calendarWeights, mostOfPage } from "../pageWeight.ts";
import { leavesOut } from "../leftOut.ts";
import { parted } from "../parted.ts";
import { worthLeftOut } from "./worthView.ts";

/** How many pages the calendar takes: known from the records alone. */
export const calendarPageCount = (farm: Farm): number =>
  pagesOf(
    nextSamplings(farm).length,
    leavesOut(farm, "costs") ? 0 : farm.fields.length,
    worthLeftOut(farm) === undefined ? farm.fields.length : 0,
  );

/** Entries, then the lines of two tables. */
export const pagesOf = (entries: number, costs: number, worth: number): number => {
  const kinds = [...Array<"entry">(entries).fill("entry"), ...Array<"cost">(costs).fill("cost"), ...Array<"worth">(worth).fill("worth")];
  return Math.max(1, parted(kinds, (kind) => calendarWeights[kind], mostOfPage).length);
};
