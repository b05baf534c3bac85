import type { Farm } from "../../records/model.ts";
import { duePlans } from "./duePlans.ts";
import { plannedFor, planTitle } from "./plan.ts";
import { count } from "../words.ts";
import { paths } from "../paths.ts";

export interface PlanLink {
  readonly text: string;
  readonly path: string;
}

/** More links than this are a list of their own, which the calendar is. */
const most = 6;

/** The plan pages of the whole farm, for a page that says what is due; of more than six, the rest is left to the calendar. */
export const planLinks = (farm: Farm): PlanLink[] => {
  const all = farm.fields.flatMap((field) =>
    duePlans(farm, field).map(({ purpose, request }): PlanLink => ({
      text: `${planTitle(field, purpose)}, ${plannedFor(request)}`,
      path: paths.plan(field.id, purpose),
    })),
  );
  return all.length <= most
    ? all
    : [...all.slice(0, most), { text: `The sampling calendar, with ${count(all.length - most, "more plan")}`, path: paths.calendar }];
};
