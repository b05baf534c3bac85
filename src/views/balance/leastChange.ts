import { changeBetween } from "../../interpretation/statistics/change.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { LeastChange } from "./balanceSentence.ts";
import { zoneHistory } from "../trends/history.ts";

/**
 * The least significant change between two results of a zone's series, by the noise that its trend is judged with. 0 between the ends
 * of a series that is called rising or falling: one page must not call noise what another calls a trend.
 */
export const leastChangeOf =
  (farm: Farm, field: Field): LeastChange =>
  (zone, first, last) => {
    // A mean of bags is worked out anew each time it is asked for, so the two are found by where and when they stand.
    const home = zoneHistory(farm, field, zone, first.analyte).find(({ measurements }) =>
      measurements.some((m) => m.date === last.date && m.origin.file === last.origin.file),
    );
    if (!home) return undefined;
    const shows =
      home.trend.kind === "answer" && (home.trend.value.finding === "rising" || home.trend.value.finding === "falling")
        ? home.trend.value
        : undefined;
    if (
      shows &&
      home.measurements[0]!.date === first.date &&
      home.measurements.at(-1)!.date === last.date &&
      last.value > first.value === (shows.finding === "rising")
    )
      return 0;
    const change = changeBetween(first, last, home.between(first, last));
    return change.kind === "answer" ? change.value.least : undefined;
  };
