import type { Farm, Field } from "../../records/model.ts";
import { awaitedOf } from "../results/awaited.ts";
import { dueOf } from "../calendar/due.ts";
import { soilWords } from "./fertilityNow.ts";
import { tenureWords } from "./fieldSummary.ts";
import { leftOutForReader, neverWords } from "../leftOut.ts";
import type { OwedField } from "./owedLine.ts";
import { owedLine } from "./owedLine.ts";
import { shareWords, testedShare } from "./recordsKept.ts";
import { latestAdvice } from "../advice/sample.ts";
import { area, areaUnit } from "../units.ts";
import { list, longDate } from "../words.ts";

/** A field's line: the land, and how it was tested. */
export interface SummaryField {
  readonly field: Field;
  readonly area: string;
  readonly tenure: string;
  readonly soils: string;
  /** The oldest of its zones' newest full samplings. */
  readonly sampled: string;
  readonly inTime: string;
}

export interface SummaryLines {
  readonly fields: readonly SummaryField[];
  readonly owed: readonly OwedField[];
}

const fieldLine = (farm: Farm, field: Field): SummaryField => {
  const squareMeters = field.zones.reduce((sum, z) => sum + (z.squareMeters ?? 0), 0);
  const dates = field.zones.map((zone) => latestAdvice(farm, field, zone)?.sampling.date);
  const known = dates.filter((d) => d !== undefined).sort();
  const waiting = field.zones.filter((_, i) => dates[i] === undefined);
  const awaited = waiting.length > 0 && waiting.every((zone) => awaitedOf(field, zone).length > 0);
  const share = testedShare(farm, [field]);
  return {
    field,
    area: squareMeters > 0 ? `${area(squareMeters, farm.units)} ${areaUnit(farm.units)}` : "not known",
    tenure: tenureWords(field),
    soils: list([...new Set(field.zones.map(soilWords))].slice(0, 3)) + (new Set(field.zones.map(soilWords)).size > 3 ? " and others" : ""),
    sampled:
      known.length === 0
        ? awaited
          ? "results awaited"
          : neverWords(farm)
        : `${longDate(known[0]!)}${waiting.length === 0 ? "" : awaited ? ", results of some zones awaited" : ", some zones never"}`,
    inTime:
      share.zones === 0
        ? share.untold > 0
          ? leftOutForReader
          : "no interval is set"
        : share.zonesInTime === share.zones
          ? "all"
          : share.zonesInTime === 0
            ? dueOf(farm, field).overdue
              ? known.length === 0
                ? "none yet, and due"
                : "none, due again"
              : "results awaited"
            : shareWords(share, farm.units),
  };
};

/** What the farm's summary tells of each of these fields. */
export const summaryLines = (farm: Farm, fields: readonly Field[]): SummaryLines => ({
  fields: fields.map((field) => fieldLine(farm, field)),
  owed: fields.map((field) => owedLine(farm, [field], field.name)),
});
