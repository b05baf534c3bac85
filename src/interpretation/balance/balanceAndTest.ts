import type { PeriodBalance } from "./balance.ts";
import { whyNotComparable } from "../comparable.ts";
import type { Measurement } from "../measurement.ts";
import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";

/** The analyte that a nutrient's balance is set beside. Nitrogen has none: nitrate is no store that adds up over years. */
export const testOf = { P2O5: "P", K2O: "K" } as const;

/** Which way the balance went, which way the test went, and whether the two agree. */
export interface BalanceAndTest {
  readonly balance: "out" | "in";
  /** lb/ac, applied less removed. */
  readonly net: number;
  readonly test: "fell" | "rose";
  readonly agree: boolean;
}

/**
 * Set the direction of a balance beside the direction of the soil test between two comparable samplings. `least` is the
 * least significant change between the two, in the test's unit: a smaller change has no direction. Nothing is said of how
 * many ppm a balance should have made: three Ohio sites over nine years (Agronomy Journal 2018) speak against it.
 */
export const balanceAndTest = (
  first: Measurement,
  last: Measurement,
  least: number | undefined,
  period: Outcome<PeriodBalance>,
): Outcome<BalanceAndTest> => {
  const apart = whyNotComparable(first, last);
  if (apart !== undefined) return noAnswer(apart, ["two comparable samplings"]);
  if (first.qualifier || last.qualifier)
    return noAnswer("the laboratory gives only a bound for one of the two results", ["a result as a number"]);
  if (period.kind === "noAnswer") return period;
  if (least === undefined) return noAnswer("the noise between two samplings is not known here", ["a least significant change"]);
  const change = last.value - first.value;
  if (Math.abs(change) < least || change === 0) return noAnswer("the change of the test is within its noise", ["a later sampling"]);
  const { net } = period.value;
  if (net === 0) return noAnswer("as much went in as out", []);
  const [balance, test] = [net < 0 ? "out" : "in", change < 0 ? "fell" : "rose"] as const;
  return answer({ balance, net, test, agree: (balance === "out") === (test === "fell") }, period.steps, period.cautions);
};
