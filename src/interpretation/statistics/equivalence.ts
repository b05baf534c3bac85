import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { alike } from "./dated.ts";
import { tQuantile } from "./distributions.ts";
import type { Margin } from "./margins.ts";
import type { Noise } from "./noise.ts";
import { sdAt } from "./noise.ts";
import type { Settled } from "./settle.ts";
import { compositesToSettle } from "./settle.ts";
import type { Difference, TwoAreas } from "./twoAreas.ts";
import { pooled, summaryOf, testTwoAreas, welch } from "./twoAreas.ts";

/**
 * `alike`: surely within the margin, and no difference shows. `differentWithinMargin`: a difference shows, and is surely within
 * the margin. `differentBeyondMargin`: a difference shows, and it is larger than the margin. `undecided`: none of these.
 */
export type Situation = "alike" | "differentWithinMargin" | "differentBeyondMargin" | "undecided";
export type MergeVerdict = "may be sampled together next time" | "keep apart" | "not enough data";

export const verdictOf: Readonly<Record<Situation, MergeVerdict>> = {
  alike: "may be sampled together next time",
  differentWithinMargin: "may be sampled together next time",
  differentBeyondMargin: "keep apart",
  undecided: "not enough data",
};

/** Both tests are made at this level. */
export const equivalenceAlpha = 0.05;

export interface Equivalence {
  readonly situation: Situation;
  readonly verdict: MergeVerdict;
  readonly margin: Margin;
  readonly means: readonly [number, number];
  readonly counts: readonly [number, number];
  readonly test: TwoAreas;
  /** `composites`: the spread between the composites of each area. `noise`: the noise of one result from a table or the farm's duplicates, because an area has a single composite or its composites all agree. */
  readonly spreadFrom: "composites" | "noise";
  /** Where there is not enough data: how many composites would settle it; absent where thirty of each area would not. */
  readonly settle: Settled | undefined;
}

export interface EquivalenceQuestion {
  /** Results of the composites of each area, of one sampling event and one method, in the margin's unit. */
  readonly values: readonly [readonly number[], readonly number[]];
  readonly margin: Outcome<Margin>;
  readonly noise: Outcome<Noise>;
  /** One spread for both areas, only when asked for. */
  readonly pooled?: boolean | undefined;
}

const byNoise = (means: readonly [number, number], counts: readonly [number, number], noise: Noise): { d: Difference; sds: [number, number] } => {
  const sds = means.map((m) => sdAt(noise, m)) as [number, number];
  return { d: { difference: means[0] - means[1], error: Math.sqrt(sds[0] ** 2 / counts[0] + sds[1] ** 2 / counts[1]), df: noise.pairs ?? Infinity }, sds };
};

export const situationOf = (test: Pick<TwoAreas, "p" | "pEquivalent" | "difference">, margin: number): Situation => {
  const different = test.p < equivalenceAlpha;
  if (test.pEquivalent < equivalenceAlpha) return different ? "differentWithinMargin" : "alike";
  return different && Math.abs(test.difference) > margin ? "differentBeyondMargin" : "undecided";
};

/**
 * May two areas share a sample next time, by one analyte? Two one-sided tests at 5 % against the margin (Welch's unless pooled is
 * asked for). "Not different" never counts as "the same". With a single composite in an area, or composites that all agree to
 * the printed digit, the noise of one result stands in for the spread, and the answer says so. A statistical convention: no
 * publication with a rule for merging was found.
 */
export const compareAnalyte = ({ values, margin, noise, pooled: onePooled = false }: EquivalenceQuestion): Outcome<Equivalence> => {
  if (margin.kind === "noAnswer") return margin;
  if (values.some((v) => v.length === 0)) return noAnswer("one of the areas has no result", ["a result of each area"]);
  const [a, b] = [summaryOf(values[0]), summaryOf(values[1])];
  const [means, counts] = [[a.mean, b.mean] as const, [a.n, b.n] as const];
  const spread = a.n > 1 && b.n > 1 && !alike(a.sd + b.sd, 0);
  if (!spread && noise.kind === "noAnswer") return noise;
  const { d, sds } = spread || noise.kind === "noAnswer" ? { d: onePooled ? pooled(a, b) : welch(a, b), sds: [a.sd, b.sd] as [number, number] } : byNoise(means, counts, noise.value);
  if (d.error === 0) return noAnswer("the results are zero, where noise in percent says nothing", ["results above zero"]);
  const { within } = margin.value;
  const test = testTwoAreas(d, within);
  const situation = situationOf(test, within);
  const settle = situation === "undecided" ? compositesToSettle(d.difference, within, sds, counts) : undefined;
  const value: Equivalence = { situation, verdict: verdictOf[situation], margin: margin.value, means, counts, test, spreadFrom: spread ? "composites" : "noise", settle };
  const from = spread ? [] : noise.kind === "answer" ? noise.steps : [];
  return answer(value, [...margin.steps, ...from, ...stepsOf(value, onePooled)], margin.cautions);
};

const stepsOf = ({ means, counts, test, margin, spreadFrom, verdict }: Equivalence, onePooled: boolean): Step[] => {
  const { difference, error, df, limits90 } = test;
  return [
    { what: "Difference of the means", expression: `${plain(means[0])} − ${plain(means[1])}`, result: plain(difference) },
    {
      what: spreadFrom === "noise" ? "Standard error, from the noise of one result" : `Standard error, ${onePooled ? "one spread for both areas" : "each area with its own spread (Welch)"}`,
      result: plain(error),
      note: spreadFrom === "noise" ? "an area has a single composite, or its composites all agree, so its own spread is not known" : `${counts[0]} and ${counts[1]} composites, ${plain(df, 1)} degrees of freedom`,
    },
    {
      what: "Limits of the difference, 90 in 100: two one-sided tests at 5%",
      expression: `${plain(difference)} ± ${plain(tQuantile(0.95, df))} × ${plain(error)}`,
      result: `${plain(limits90[0])} to ${plain(limits90[1])}`,
      source: { reference: "equivalence-in-agriculture-1997" },
      evidence: "secondary",
    },
    { what: `Within ±${plain(margin.within)}?`, result: verdict },
  ];
};
