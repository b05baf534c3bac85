import type { PurposeId } from "../../interpretation/vocabulary.ts";
import { purposeIds } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { nextSamplingsOf } from "../calendar/calendar.ts";
import type { NextSampling } from "../calendar/nextSamplings.ts";
import { isDue } from "../calendar/nextSamplings.ts";
import type { PlanRequest } from "./planComposites.ts";
import type { Slot } from "../calendar/slots.ts";
import { slotLabel } from "../calendar/slots.ts";

/** A sampling that is overdue, or falls in the half year at hand or the next one: it has a plan page and files of its own. */
export interface DuePlan {
  readonly field: Field;
  readonly purpose: PurposeId;
  /** What the page plans. `npm run plan` plans the same unless told otherwise, so that both print the same labels. */
  readonly request: PlanRequest;
  /** Why it is due, a sentence each. */
  readonly why: readonly string[];
}

type Dated = NextSampling & { readonly slot: Slot };

/** The month and day of a day in another year; 29 February becomes the 28th. */
const inYear = (year: number, date: string): string => `${year}${date.slice(4).replace("-02-29", "-02-28")}`;

/**
 * The day that stands for a season in labels and comparisons: that of the last sampling, or the first of June, but never one that
 * is over.
 */
const dayFor = (farm: Farm, { field, purpose, slot, overdue }: Dated): string => {
  const last = field.samplings.findLast((s) => s.purpose === purpose) ?? field.samplings.findLast((s) => s.purpose === "routine");
  const day =
    overdue || (slot.part !== "June" && !last) ? farm.today : slot.part === "June" ? `${slot.year}-06-01` : inYear(slot.year, last!.date);
  return day < farm.today ? farm.today : day;
};

/** The plans that a field's pages show, one a purpose at most: work sheets of the owner, and of no other reader. */
export const duePlans = (farm: Farm, field: Field): DuePlan[] => {
  if (farm.withheld) return [];
  const due = nextSamplingsOf(farm, field).filter((next): next is Dated => isDue(next, farm.today));
  return purposeIds.flatMap((purpose): DuePlan[] => {
    // Two crops of one June are two entries of the calendar and one walk.
    const same = due.filter((next) => next.purpose === purpose);
    const [first] = same;
    if (!first) return [];
    const date = dayFor(farm, first);
    const zones = field.zones.filter((z) => same.some((next) => next.zones.includes(z))).map((z) => z.id);
    const request: PlanRequest = { purpose, date, seed: 1, zones, ...(date !== farm.today && { season: slotLabel(first.slot) }) };
    return [
      {
        field,
        purpose,
        request,
        get why() {
          return same.flatMap((next) => next.why);
        },
      },
    ];
  });
};
