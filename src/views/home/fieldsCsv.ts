import { toCsv } from "../../exchange/csv.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import type { Farm } from "../../records/model.ts";
import { noCropWords } from "../leftOut.ts";
import { fieldList } from "./fieldList.ts";

const known = new WeakMap<Farm, string>();

/** The list of fields as CSV, areas in the farm's unit: made once, since the page tells its weight and the download holds it. */
export const fieldsCsv = (farm: Farm): string => {
  let text = known.get(farm);
  if (text === undefined) known.set(farm, (text = make(farm)));
  return text;
};

const make = (farm: Farm): string => {
  const { area } = unitChoices[farm.units];
  return toCsv(
    [
      "field",
      "name",
      `area_${area.replaceAll(" ", "_")}`,
      "tenure",
      "zones",
      "next_crop",
      "oldest_test",
      "sampling_due",
      "sampling_overdue",
      "needs",
    ],
    fieldList(farm).map((row) => [
      row.field.id,
      row.field.name,
      row.squareMeters === undefined ? undefined : Number(convert(row.squareMeters, "sq m", area).toFixed(2)),
      row.field.tenure?.kind,
      row.field.zones.length,
      row.crop === noCropWords(farm) ? undefined : row.cropWords,
      row.oldest,
      row.due,
      row.overdue ? "yes" : "no",
      row.needWords,
    ]),
  );
};
