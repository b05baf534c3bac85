import type { Farm } from "../../src/records/model.ts";

/** A farm with copies of its first field, each with an id and a name of its own: large, and read in no time. */
export const manyFields = (farm: Farm, howMany: number): Farm => {
  const first = farm.fields[0]!;
  return { ...farm, fields: Array.from({ length: howMany }, (_, i) => ({ ...first, id: `field-${String(i + 1).padStart(4, "0")}`, name: `Field ${i + 1}`, zones: first.zones.map((z) => ({ ...z })) })) };
};
