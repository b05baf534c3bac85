import type { Zone } from "../../records/model.ts";
import type { BalanceView } from "./balance.ts";

/** Zones with the same sums, which is all of a field whose seasons are recorded for the whole of it. */
export interface BalanceTold {
  readonly zones: readonly Zone[];
  /** One for each nutrient of the view. */
  readonly verdicts: readonly string[];
}

/** The rows of a field's short table of balances, zones of equal sums in one. */
export const balanceTold = ({ balances }: BalanceView): readonly BalanceTold[] => {
  const zones = (balances[0]?.panels ?? []).map(({ zone }, i) => ({ zone, verdicts: balances.map((b) => b.panels[i]!.verdict) }));
  return [...Map.groupBy(zones, ({ verdicts }) => verdicts.join("\n")).values()].map((same) => ({
    zones: same.map(({ zone }) => zone),
    verdicts: same[0]!.verdicts,
  }));
};
