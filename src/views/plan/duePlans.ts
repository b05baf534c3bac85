import type { PurposeId } from "../../interpretation/vocabulary.ts";
import { purposeIds } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { nextSamplingsOf } from "../calendar/calendar.ts";
import { seasonYear } from "../../interpretation/season.ts";
import { withZonesOf } from "../../interpretation/zoneLife.ts";
import type { NextSampling } from "../calendar/nextSamplings.ts";
import { isDue } from "../calendar/nextSamplings.ts";
import type { PlanRequest } from "./planComposites.ts";
import type { Slot } from "../calendar/slots.ts";
import { compareSlots, endOf, slotLabel } from "../calendar/slots.ts";

/** A sampling that is overdue, or falls in the half year at hand or the next one: it has a plan page and files of its own. */
export interface DuePlan {
  /** With the zones of the day that is planned for. */
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

/** Where no sampling gives a day: nitrogen is tested early in June, or when growth begins in spring. */
const nitrogenDay = { June: "06-01", spring: "03-01" } as const;

/** The day that stands for a season in labels and comparisons: that of the last sampling, or a usual one, but never one that is over. */
const dayFor = (farm: Farm, next: Dated): string => {
  const day = next.overdue ? farm.today : (usualDay(next) ?? farm.today);
  return day < farm.today ? farm.today : day;
};

const usualDay = ({ field, purpose, slot }: Dated): string | undefined => {
  const lastOf = (of: PurposeId, before = "13") => field.samplings.findLast((s) => s.purpose === of && s.date.slice(5, 7) < before);
  if (purpose === "nitrate" && (slot.part === "June" || slot.part === "spring")) {
    const last = slot.part === "spring" ? lastOf("nitrate", "06") : undefined;
    return last ? inYear(slot.year, last.date) : `${slot.year}-${nitrogenDay[slot.part]}`;
  }
  const last = lastOf(purpose) ?? lastOf("routine");
  return last && inYear(slot.year + Number(last.date.slice(0, 4)) - seasonYear(last.date), last.date);
};

/** The plans that a field's pages show, one a purpose at most: work sheets of the owner, and of no other reader. */
export const duePlans = (farm: Farm, field: Field): DuePlan[] => {
  if (farm.withheld) return [];
  const due = nextSamplingsOf(farm, field).filter((next): next is Dated => isDue(next, farm.today));
  return purposeIds.flatMap((purpose): DuePlan[] => {
    const [first, ...others] = due.filter((next) => next.purpose === purpose).sort((a, b) => compareSlots(a.slot, b.slot));
    if (!first) return [];
    // Two crops of one June are two entries of the calendar and one walk.
    const same = [first, ...others.filter((next) => compareSlots(next.slot, first.slot) === 0)];
    const then = withZonesOf(field, endOf(first.slot));
    const sampled = then.zones.filter((z) => same.some((next) => next.zones.includes(z)));
    const date = [dayFor(farm, first), ...sampled.flatMap((z) => z.since ?? [])].sort().at(-1)!;
    const request: PlanRequest = {
      purpose,
      date,
      seed: 1,
      zones: sampled.map((z) => z.id),
      ...(date !== farm.today && { season: slotLabel(first.slot) }),
    };
    return [
      {
        field: then,
        purpose,
        request,
        get why() {
          return same.flatMap((next) => next.why);
        },
      },
    ];
  });
};
