import type { BalancedId, SeasonBalance } from "../../interpretation/balance/balance.ts";
import { balanceBySeason, balancedIds } from "../../interpretation/balance/balance.ts";
import { coefficientFor } from "../../interpretation/balance/harvestRemoval.ts";
import type { RangeEnd } from "../../interpretation/rules/removalCoefficient.ts";
import type { Farm, Field, Zone } from "../../records/model.ts";
import { leavesOut } from "../leftOut.ts";
import { coefficientSets, placeRecords } from "./placeRecords.ts";
import { everyZone } from "../zonesThen.ts";

/** One zone's seasons for one nutrient. */
export interface ZoneBalance {
  readonly zone: Zone;
  readonly nutrient: BalancedId;
  readonly seasons: readonly SeasonBalance[];
  /** The same with the upper and the lower end of every printed range; absent where no range entered. */
  readonly ends: { readonly low: readonly SeasonBalance[]; readonly high: readonly SeasonBalance[] } | undefined;
}

/** The nutrients whose balance this reader may see. */
export const nutrientsShown = (farm: Farm): BalancedId[] => balancedIds.filter((id) => id !== "N" || !leavesOut(farm, "nitrogen"));

const worked = new WeakMap<Field, ZoneBalance[]>();

/** Every zone's balance of every nutrient the reader is shown; worked out once, for the page and the download. */
export const zoneBalances = (farm: Farm, field: Field): ZoneBalance[] => {
  let found = worked.get(field);
  if (!found) {
    const sets = coefficientSets(field);
    found = nutrientsShown(farm).flatMap((nutrient) =>
      everyZone(field).flatMap((zone): ZoneBalance | ZoneBalance[] => {
        const records = placeRecords(field, zone);
        if (records.seasons.length === 0) return [];
        const ranged = records.harvests.some((h) => {
          const by = coefficientFor(sets, h, nutrient);
          return by.kind === "answer" && by.value.to !== undefined;
        });
        const bySeason = (end: RangeEnd): SeasonBalance[] => balanceBySeason(records, nutrient, sets, end);
        return {
          zone,
          nutrient,
          seasons: bySeason("middle"),
          ends: ranged ? { low: bySeason("upper"), high: bySeason("lower") } : undefined,
        };
      }),
    );
    worked.set(field, found);
  }
  return found;
};

/** The nutrients that have a balance to show: those that came or went in some season. */
export const balancesShown = (farm: Farm, field: Field): ZoneBalance[][] =>
  nutrientsShown(farm)
    .map((nutrient) => zoneBalances(farm, field).filter((b) => b.nutrient === nutrient))
    .filter((zones) => zones.some((z) => z.seasons.some((s) => s.net.kind === "answer" && s.net.value !== 0)));
