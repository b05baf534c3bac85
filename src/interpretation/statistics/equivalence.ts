import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { alike, mean } from "./dated.ts";
import { tQuantile } from "./distributions.ts";
import type { Margin } from "./margins.ts";
import type { Noise } from "./noise.ts";
import { sdAt } from "./noise.ts";
import type { Precision, Settled } from "./settle.ts";
import { compositesToSettle, ofComposites, ofEvents } from "./settle.ts";
import type { Difference, TwoAreas } from "./twoAreas.ts";
import { byEvent, pooled, summaryOf, testTwoAreas, welch } from "./twoAreas.ts";

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

/** Two areas are called alike, or different, where they are not, this often. */
const areasAlpha = 0.05;

/**
 * Below which p a difference shows where so many analytes are asked: one of four alone keeps two areas apart, and four chances at
 * 5 % make 18. Each is asked at its share (Bonferroni). To be alike all must pass, so that each may be asked at 5 %.
 */
export const differenceAlpha = (among: number): number => areasAlpha / among;

export interface Equivalence {
  readonly situation: Situation;
  readonly verdict: MergeVerdict;
  readonly margin: Margin;
  readonly means: readonly [number, number];
  readonly counts: readonly [number, number];
  readonly test: TwoAreas;
  /** Of how many analytes the two areas were asked. */
  readonly among: number;
  /**
   * `composites`: the spread between the composites of each area. `events`: of the differences from event to event. `noise`: the
   * noise of one result from a table or the farm's duplicates, because results are too few or all agree.
   */
  readonly spreadFrom: "composites" | "events" | "noise";
  /** Where there is not enough data: how many composites would settle it; absent where thirty of each area would not. */
  readonly settle: Settled | undefined;
}

export interface EquivalenceQuestion {
  /** Results of the composites of each area by one method, in the margin's unit: of one sampling event, or one of each event. */
  readonly values: readonly [readonly number[], readonly number[]];
  readonly margin: Outcome<Margin>;
  readonly noise: Outcome<Noise>;
  /** One spread for both areas, only when asked for. */
  readonly pooled?: boolean | undefined;
  /** The results stand in the order of the sampling events, one of each area for each event; then their differences are judged. */
  readonly byEvent?: boolean | undefined;
  /** Of how many analytes the two areas are asked; absent: of this one alone. */
  readonly among?: number | undefined;
}

/** With fewer events the noise of one result knows more than the spread of their differences. */
const fewestEvents = 3;

interface Judged {
  readonly d: Difference;
  readonly precision: Precision;
  readonly spreadFrom: Equivalence["spreadFrom"];
}

const judge = ({ values, noise, pooled: onePooled = false, byEvent: paired = false }: EquivalenceQuestion): Outcome<Judged> => {
  const [a, b] = [summaryOf(values[0]), summaryOf(values[1])];
  const differences = paired ? values[0].map((v, i) => v - values[1][i]!) : [];
  if (paired && a.n !== b.n) return noAnswer("the two areas were not sampled at the same events", ["results of both areas at each event"]);
  const between = summaryOf(differences).sd;
  if (paired && a.n >= fewestEvents && !alike(between, 0))
    return answer({ d: byEvent(differences), precision: ofEvents(between), spreadFrom: "events" }, []);
  if (!paired && a.n > 1 && b.n > 1 && !alike(a.sd + b.sd, 0))
    return answer({ d: onePooled ? pooled(a, b) : welch(a, b), precision: ofComposites([a.sd, b.sd]), spreadFrom: "composites" }, []);
  if (noise.kind === "noAnswer") return noise;
  const precision = ofComposites([sdAt(noise.value, a.mean), sdAt(noise.value, b.mean)]);
  const { error } = precision([a.n, b.n]);
  if (error === 0) return noAnswer("the results are zero, where noise in percent says nothing", ["results above zero"]);
  return answer(
    { d: { difference: a.mean - b.mean, error, df: noise.value.pairs ?? Infinity }, precision, spreadFrom: "noise" },
    noise.steps,
  );
};

export const situationOf = (test: Pick<TwoAreas, "p" | "pEquivalent" | "difference">, margin: number, among = 1): Situation => {
  const different = test.p < differenceAlpha(among);
  if (test.pEquivalent < areasAlpha) return different ? "differentWithinMargin" : "alike";
  return different && Math.abs(test.difference) > margin ? "differentBeyondMargin" : "undecided";
};

/**
 * May two areas share a sample next time, by one analyte? Two one-sided tests at 5 % against the margin (Welch's unless pooled is
 * asked for), or by the differences from event to event. "Not different" never counts as "the same". With a single composite in
 * an area, one or two events, or results that all agree to the printed digit, the noise of one result stands in for the spread,
 * and the answer says so. A statistical convention: no publication with a rule for merging was found.
 */
export const compareAnalyte = (question: EquivalenceQuestion): Outcome<Equivalence> => {
  const { values, margin, among = 1 } = question;
  if (margin.kind === "noAnswer") return margin;
  if (values.some((v) => v.length === 0))
    return noAnswer("a result of one of the areas is only bounded by the laboratory, or missing", ["a result of each area"]);
  const judged = judge(question);
  if (judged.kind === "noAnswer") return judged;
  const { d, precision, spreadFrom } = judged.value;
  const { within } = margin.value;
  const test = testTwoAreas(d, within);
  const situation = situationOf(test, within, among);
  const counts = [values[0].length, values[1].length] as const;
  const settle =
    situation === "undecided" ? compositesToSettle(d.difference, within, counts, precision, differenceAlpha(among)) : undefined;
  const value: Equivalence = {
    situation,
    verdict: verdictOf[situation],
    margin: margin.value,
    means: [mean(values[0]), mean(values[1])],
    counts,
    test,
    among,
    spreadFrom,
    settle,
  };
  return answer(value, [...margin.steps, ...judged.steps, ...stepsOf(value, question.pooled === true)], margin.cautions);
};

/** How the standard error was come by. */
const errorStep = ({ spreadFrom, counts, test }: Equivalence, onePooled: boolean): Pick<Step, "what" | "note"> => {
  if (spreadFrom === "noise")
    return {
      what: "Standard error, from the noise of one result",
      note: "results are too few, or all agree, so their own spread is not known",
    };
  const freedom = `${plain(test.df, 1)} degrees of freedom`;
  if (spreadFrom === "events")
    return { what: "Standard error, from the differences of the sampling events", note: `${counts[0]} events, ${freedom}` };
  return {
    what: `Standard error, ${onePooled ? "one spread for both areas" : "each area with its own spread (Welch)"}`,
    note: `${counts[0]} and ${counts[1]} composites, ${freedom}`,
  };
};

const stepsOf = (found: Equivalence, onePooled: boolean): Step[] => {
  const { means, test, margin, verdict } = found;
  const { difference, error, df, limits90 } = test;
  return [
    { what: "Difference of the means", expression: `${plain(means[0])} − ${plain(means[1])}`, result: plain(difference) },
    { ...errorStep(found, onePooled), result: plain(error) },
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
