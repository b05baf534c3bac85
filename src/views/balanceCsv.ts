import type { BalancedId, SeasonBalance } from "../interpretation/balance.ts";
import { coefficientFor } from "../interpretation/harvestRemoval.ts";
import type { Outcome } from "../interpretation/outcome.ts";
import { evidenceGrades } from "../interpretation/outcome.ts";
import { round } from "../interpretation/show.ts";
import { unitChoices } from "../interpretation/unitChoices.ts";
import { convert } from "../interpretation/units.ts";
import type { Cell } from "../exchange/csv.ts";
import { toCsv } from "../exchange/csv.ts";
import type { Farm, Field } from "../records/model.ts";
import { zoneBalances } from "./balance.ts";
import { coefficientSets } from "./placeRecords.ts";
import { referenceLabel } from "./steps.ts";
import { inUnitsOf } from "./units.ts";

/** A field's balance as CSV: one line a zone, nutrient and season. An empty number is one that is not known, and `not_known_because` says why. */
export const balanceCsv = (site: Farm, field: Field): string => {
  const farm = inUnitsOf(site, field);
  const unit = unitChoices[farm.units].rate;
  const tail = unit.replace(/[/ ]/g, "_");
  const value = (outcome: Outcome<number>): Cell => (outcome.kind === "answer" ? round(convert(outcome.value, "lb/ac", unit), 1) : undefined);
  const since = Math.min(...field.seasons.map((s) => s.season));
  return toCsv(
    ["field", "zone", "nutrient", "season", "crops", `applied_${tail}`, `removed_${tail}`, `net_${tail}`, `sum_${tail}`, "sum_since", "not_known_because", "coefficients", "evidence", "record"],
    zoneBalances(field).flatMap(({ zone, nutrient, seasons }) =>
      seasons.map((s): Cell[] => [
        field.id,
        zone.id,
        nutrient,
        s.season,
        s.crops.join(" "),
        value(s.applied),
        value(s.removed),
        value(s.net),
        value(s.sum),
        since,
        s.sum.kind === "noAnswer" ? s.sum.because : undefined,
        ...basis(farm, field, s, nutrient),
        field.seasons.find((each) => each.season === s.season)?.file,
      ]),
    ),
  );
};

/** The publications of a season's coefficients, and the weakest of their grades. */
const basis = (farm: Farm, field: Field, { crops, removed }: SeasonBalance, nutrient: BalancedId): [Cell, Cell] => {
  if (removed.kind === "noAnswer" || removed.value === 0) return [undefined, undefined];
  const rows = crops.flatMap((crop) => coefficientFor(coefficientSets(field), crop, nutrient)?.row ?? []);
  const labels = rows.map(({ source }) => {
    if (source === "common-practice") return "common practice";
    const reference = farm.references.get(source.reference);
    return reference ? referenceLabel(reference) : source.reference;
  });
  const grades = rows.flatMap((r) => r.evidence ?? []);
  return [[...new Set(labels)].join("; "), evidenceGrades.findLast((g) => grades.includes(g))];
};
