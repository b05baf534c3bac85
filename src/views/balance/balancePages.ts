import type { BalancedId } from "../../interpretation/balance/balance.ts";
import type { Farm, Field } from "../../records/model.ts";
import type { BalanceView } from "./balance.ts";
import { balanceView } from "./balance.ts";
import { leastChangeOf } from "./leastChange.ts";
import { balanceWeight, mostOfPage } from "../pageWeight.ts";
import { parted } from "../parted.ts";
import { hasBalance } from "./placeRecords.ts";
import { balancesShown } from "./zoneBalances.ts";

const known = new WeakMap<Field, BalanceView | undefined>();

/** A field's balance beside its soil tests. Worked out once: the field's page sums it up, and its own pages show all of it. */
export const fieldBalance = (farm: Farm, field: Field): BalanceView | undefined => {
  if (!known.has(field)) known.set(field, balanceView(farm, field, leastChangeOf(farm, field)));
  return known.get(field);
};

/** The nutrients that each page of a field's balance shows. A field with seasons has one page at least, which says why there is no balance. */
export const balanceParts = (farm: Farm, field: Field): BalancedId[][] => {
  if (!hasBalance(field)) return [];
  const parts = parted(balancesShown(farm, field), (zones) => balanceWeight(zones.length, field.seasons.length), mostOfPage);
  return parts.length === 0 ? [[]] : parts.map((part) => part.map(([zone]) => zone!.nutrient));
};
