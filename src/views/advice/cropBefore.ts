import { harvestYearAfter } from "../../interpretation/season.ts";
import type { CropId } from "../../interpretation/vocabulary.ts";
import type { Field } from "../../records/model.ts";
import { onGroundBefore } from "../zonesThen.ts";

/**
 * The crop a zone last bore on a day: from July this year's, before it last year's, as `nextCrop` parts the year. Of two in one
 * season the last that was not harvested after the day. `undefined` where that season does not say; an older one is not asked.
 */
export const cropBefore = (field: Field, zone: string, date: string): CropId | undefined => {
  const year = harvestYearAfter(date) - 1;
  const grown = field.seasons.filter((s) => s.season === year).flatMap((s) => s.crops.filter((c) => onGroundBefore(field, zone, c.zones)));
  return (grown.findLast((c) => c.harvested === undefined || c.harvested <= date) ?? grown[0])?.crop;
};
