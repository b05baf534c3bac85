import type { AnalyteId } from "../interpretation/vocabulary.ts";
import type { Field, Sampling } from "../records/model.ts";
import { isAnswered } from "./awaited.ts";
import { drawable } from "./map.ts";
import { mostOfPage, yearMapWeight } from "./pageWeight.ts";
import { parted } from "./parted.ts";

/** What a field's zones are drawn by, in this order. */
export const mapped: readonly AnalyteId[] = ["pH", "K", "P"];

/** The routine samplings whose results can be drawn, oldest first. */
const drawn = (field: Field): Sampling[] =>
  field.samplings.filter((s) => s.purpose === "routine" && field.zones.some((z) => isAnswered(s, z.id)) && s.composites.some((c) => c.measurements.some((m) => mapped.includes(m.analyte))));

/**
 * The routine samplings that each page of a field's maps draws: the newest on the first page, on every page oldest first. None
 * where no zone has a boundary, or where one sampling is all there is: the field's own page draws that.
 */
export const mapParts = (field: Field): Sampling[][] => {
  const samplings = drawn(field);
  if (samplings.length < 2 || drawable(field.zones).length === 0) return [];
  return parted(samplings.toReversed(), () => mapped.length * yearMapWeight(field.zones.length), mostOfPage).map((part) => part.toReversed());
};
