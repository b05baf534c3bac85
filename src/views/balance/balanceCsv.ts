import type { BalancedId, SeasonBalance } from "../../interpretation/balance/balance.ts";
import { coefficientFor } from "../../interpretation/balance/harvestRemoval.ts";
import type { Outcome } from "../../interpretation/outcome.ts";
import { evidenceGrades } from "../../interpretation/outcome.ts";
import { round } from "../../interpretation/show.ts";
import { unitChoices } from "../../interpretation/unitChoices.ts";
import { convert } from "../../interpretation/units.ts";
import type { Cell } from "../../exchange/csv.ts";
import { toCsv } from "../../exchange/csv.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { coefficientSets, placeRecords } from "./placeRecords.ts";
import { referenceLabel } from "../steps.ts";
import { inUnitsOf } from "../units.ts";
import { zoneBalances } from "./zoneBalances.ts";

/** A field's balance as CSV: one line a zone, nutrient and season. An empty number is one that is not known, and `not_known_because` says why. */
export const balanceCsv = (site: Farm, field: Field): string => {
  const farm = inUnitsOf(site, field);
  const unit = unitChoices[farm.units].rate;
  const tail = unit.replace(/[/ ]/g, "_");
  const value = (outcome: Outcome<number>): Cell =>
    outcome.kind === "answer" ? round(convert(outcome.value, "lb/ac", unit), 1) : undefined;
  return toCsv(
    [
      "field",
      "zone",
      "nutrient",
      "season",
      "crops",
      `applied_${tail}`,
      `removed_${tail}`,
      `removed_least_${tail}`,
      `removed_most_${tail}`,
      `net_${tail}`,
      `sum_${tail}`,
      "sum_since",
      "not_known_because",
      "coefficients",
      "evidence",
      "record",
    ],
    zoneBalances(farm, field).flatMap(({ zone, nutrient, seasons, ends }) =>
      seasons.map((s, i): Cell[] => [
        field.id,
        zone.id,
        nutrient,
        s.season,
        s.crops.join(" "),
        value(s.applied),
        value(s.removed),
        ends && value(ends.high[i]!.removed),
        ends && value(ends.low[i]!.removed),
        value(s.net),
        value(s.sum),
        seasons[0]!.season,
        s.sum.kind === "noAnswer" ? s.sum.because : s.net.kind === "noAnswer" ? s.net.because : undefined,
        ...basis(farm, field, s, zone, nutrient),
        field.seasons.find((each) => each.season === s.season)?.file,
      ]),
    ),
  );
};

/** The publications of a season's coefficients, and the weakest of their grades. */
const basis = (farm: Farm, field: Field, { season, removed }: SeasonBalance, zone: Zone, nutrient: BalancedId): [Cell, Cell] => {
  if (removed.kind === "noAnswer" || removed.value === 0) return [undefined, undefined];
  const rows = placeRecords(field, zone).harvests.flatMap((h) => {
    const by = h.season === season && h.yield?.value !== 0 ? coefficientFor(coefficientSets(field), h, nutrient) : undefined;
    return by?.kind === "answer" ? [by.value] : [];
  });
  const labels = rows.map(({ source }) => {
    if (source === "common-practice") return "common practice";
    const reference = farm.references.get(source.reference);
    return reference ? referenceLabel(reference) : source.reference;
  });
  const grades = rows.flatMap((r) => r.evidence ?? []);
  return [[...new Set(labels)].join("; "), evidenceGrades.findLast((g) => grades.includes(g))];
};
