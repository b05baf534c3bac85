import { measurementLabel } from "../../interpretation/measurement.ts";
import { analytes } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import { inYearsShown } from "../leftOut.ts";
import { fieldRows } from "../results/rows.ts";
import { capital, count, longDate } from "../words.ts";
import { samplingCounts } from "../samplingName.ts";

export interface CorrectionRow {
  readonly field: Field;
  readonly sampling: string;
  readonly date: string;
  readonly bag: string;
  readonly analyte: string;
  readonly was: string;
  readonly now: string;
  readonly reason: string;
  readonly corrected: string;
}

export interface MethodsView {
  readonly scope: string;
  readonly labs: readonly { readonly name: string; readonly period: string; readonly samplings: number }[];
  readonly corrections: readonly CorrectionRow[];
  readonly correctionsNone: string;
}

/** What the page "how these numbers were made" says of this farm's own records. */
export const methodsView = (farm: Farm): MethodsView => {
  const samplings = farm.fields.flatMap((f) => f.samplings);
  const byPurpose = samplingCounts(samplings).map(({ n, name }) => `${n} ${name.short}`);
  const labs = [...farm.labs.values()].flatMap((lab) => {
    const dates = samplings
      .filter((s) => s.lab.id === lab.id)
      .map((s) => s.date)
      .sort();
    return dates.length === 0
      ? []
      : [
          {
            name: lab.name,
            period: dates[0] === dates.at(-1) ? longDate(dates[0]!) : `${longDate(dates[0]!)} to ${longDate(dates.at(-1)!)}`,
            samplings: dates.length,
          },
        ];
  });
  return {
    scope: `${capital(count(farm.fields.length, "field"))}, ${count(samplings.length, "sampling")} (${byPurpose.join(", ")})${farm.withheld ? "" : `, ${farm.files} files read`}.`,
    labs,
    correctionsNone: `No result has been corrected${inYearsShown(farm)}.`,
    corrections: farm.fields.flatMap((field) =>
      fieldRows(field).flatMap(({ sampling, composite, measurement: m }): CorrectionRow[] =>
        m.correction
          ? [
              {
                field,
                sampling: sampling.id,
                date: sampling.date,
                bag: composite.label,
                analyte: analytes[m.analyte].label,
                was: measurementLabel({ ...m, value: m.correction.was }),
                now: measurementLabel(m),
                reason: m.correction.reason,
                corrected: m.correction.date,
              },
            ]
          : [],
      ),
    ),
  };
};
