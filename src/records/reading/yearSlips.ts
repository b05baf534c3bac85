import { noDay } from "../../interpretation/noDay.ts";
import type { Field } from "../model.ts";
import { start } from "../place.ts";
import type { Problems } from "../problem.ts";
import { newestDate } from "./newestDate.ts";

/** No rotation is planned so far ahead. */
const farYears = 15;

/** Few farms have records so far apart, though one old sheet may well have been kept: 2062 for 2026. */
const farApart = 25;

const yearOf = (day: string): number => Number(day.slice(0, 4));

/**
 * Warn of years far after all the others. A day in a file so dated becomes the day that every page speaks from, and a crop planned
 * for such a year is one that is not planned.
 */
export const warnOfYearSlips = (fields: readonly Field[], today: string, problems: Problems): void => {
  const files = fields.flatMap((field) => [
    ...field.samplings.map((s) => ({
      file: s.file,
      key: "date",
      newest: newestDate([{ ...field, seasons: [], recommendations: [], samplings: [s] }]),
    })),
    ...field.seasons.map((s) => ({
      file: s.file,
      key: "season",
      newest: newestDate([{ ...field, samplings: [], recommendations: [], seasons: [s] }]),
    })),
  ]);
  const [newest, before] = files.sort((a, b) => (a.newest > b.newest ? -1 : a.newest < b.newest ? 1 : 0));
  if (newest && before && before.newest > noDay && yearOf(newest.newest) - yearOf(before.newest) > farApart)
    problems.warn(
      newest.file,
      start,
      newest.key,
      `${newest.newest} is ${yearOf(newest.newest) - yearOf(before.newest)} years after every other record, and every page speaks from it; is the year a slip?`,
    );
  if (today === noDay) return;
  // Only where another day was set than the newest.
  if (newest && newest.newest > today)
    problems.warn(
      newest.file,
      start,
      newest.key,
      `is of ${newest.newest}, after ${today}, the day to speak from; what is due is reckoned from that day, and later records are shown and advised from all the same`,
    );
  const last = yearOf(today) + farYears;
  for (const field of fields) {
    field.plan.forEach((p, i) => {
      if (p.season > last)
        problems.warn(
          p.origin.file,
          p.origin,
          `plan[${i + 1}].season`,
          `${p.season} is ${p.season - yearOf(today)} years ahead; is it a slip?`,
        );
    });
    for (const s of field.seasons)
      if (s.season > last) problems.warn(s.file, start, "season", `${s.season} is ${s.season - yearOf(today)} years ahead; is it a slip?`);
  }
};
