import type { BalancedId } from "../../interpretation/balance/balance.ts";
import type { CoefficientSet } from "../../interpretation/balance/harvestRemoval.ts";
import { coefficientFor } from "../../interpretation/balance/harvestRemoval.ts";
import { coefficientWords } from "../../interpretation/rules/removalCoefficient.ts";
import { plain } from "../../interpretation/show.ts";
import { cropIds, crops, nutrients } from "../../interpretation/vocabulary.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { EvidenceMark, Link } from "../steps.ts";
import { evidenceMark, sourceLink } from "../steps.ts";

export interface CoefficientRow {
  readonly crop: string;
  readonly nutrient: string;
  readonly value: string;
  readonly moisture: string;
  readonly source: Link | undefined;
  readonly evidence: EvidenceMark | undefined;
}

/** What a harvest takes away, for every crop that the field's records harvest: one row for each way its straw went. */
export const usedCoefficients = (
  farm: Farm,
  field: Field,
  sets: readonly CoefficientSet[],
  shown: readonly BalancedId[],
): CoefficientRow[] => {
  const harvests = field.seasons.flatMap((s) =>
    s.crops.filter((c) => c.yield && c.yield.value > 0).map(({ crop, straw }) => ({ crop, straw, season: s.season })),
  );
  const rows = cropIds.flatMap((crop) =>
    shown.flatMap((nutrient) =>
      harvests.flatMap((harvest): CoefficientRow[] => {
        const found = harvest.crop === crop ? coefficientFor(sets, harvest, nutrient) : undefined;
        if (found?.kind !== "answer") return [];
        const { value: c } = found;
        return [
          {
            crop: `${crops[crop].label}${c.withStraw ? " and its straw" : ""}`,
            nutrient: nutrients[nutrient].symbol,
            value: coefficientWords(c, crop),
            moisture: c.moisture ?? (c.moisturePercent === undefined ? "not stated" : `${plain(c.moisturePercent)}% of water`),
            source: sourceLink(c.source, farm.references),
            evidence: evidenceMark(c.evidence),
          },
        ];
      }),
    ),
  );
  return rows.filter((row, i) => rows.findIndex((other) => other.crop === row.crop && other.nutrient === row.nutrient) === i);
};
