import type { Farm } from "../records/model.ts";

type Part = NonNullable<Farm["withheld"]>["parts"] extends ReadonlySet<infer P> ? P : never;

/** Whether this part of the farm was taken out for the reader. False for the owner's own site. */
export const leavesOut = (farm: Farm, part: Part): boolean => farm.withheld?.parts.has(part) ?? false;

/** What stands in place of a value or a section that was taken out. */
export const leftOutForReader = "left out for this reader";
