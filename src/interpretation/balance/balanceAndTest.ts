import type { Measurement } from "../measurement.ts";
import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";

/** The analyte that a nutrient's balance is set beside. Nitrogen has none: nitrate is no store that adds up over years. */
export const testOf = { P2O5: "P", K2O: "K" } as const;

/** Which way the test went, and whether the balance went the same way. */
export interface BalanceAndTest {
  readonly test: "fell" | "rose";
  readonly agree: boolean;
}

/**
 * Set the direction of a balance, applied less removed, beside the direction of the soil test between two comparable samplings. `least`
 * is the least significant change between the two, in the test's unit: a smaller change has no direction. Nothing is said of how
 * many ppm a balance should have made: three Ohio sites over nine years (Agronomy Journal 2018) speak against it.
 */
export const balanceAndTest = (first: Measurement, last: Measurement, least: number | undefined, net: number): Outcome<BalanceAndTest> => {
  if (first.qualifier || last.qualifier)
    return noAnswer("the laboratory gives only a bound for one of the two results", ["a result as a number"]);
  if (least === undefined) return noAnswer("the noise between two samplings is not known here", ["a least significant change"]);
  const change = last.value - first.value;
  if (Math.abs(change) < least || change === 0) return noAnswer("the change of the test is within its noise", ["a later sampling"]);
  if (net === 0) return noAnswer("a balance of nothing has no direction", []);
  return answer({ test: change < 0 ? "fell" : "rose", agree: net < 0 === change < 0 }, []);
};
