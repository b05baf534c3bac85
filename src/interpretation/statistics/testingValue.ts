import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { alike } from "./dated.ts";

type Shares = Readonly<Record<string, number>>;

export interface TestingQuestion {
  /** What each action brings in each state of the soil, in money an acre. */
  readonly payoff: Readonly<Record<string, Shares>>;
  /** How likely each state is before the test. Adds up to 1. */
  readonly prior: Shares;
  /** For each state, how likely the test says each message. Each adds up to 1. */
  readonly likelihood: Readonly<Record<string, Shares>>;
}

export interface TestingValue {
  /** What the best action brings without the test. */
  readonly without: number;
  /** What it brings on average when the test is heeded. */
  readonly withTest: number;
  /** What the test is worth, fee not taken off: never below zero. */
  readonly ofTest: number;
  /** What a test that never errs would be worth: the most to pay. */
  readonly ofCertainty: number;
}

/** The action that brings most, weighed by how likely each state is (or by how likely it is together with a message). */
const best = (payoff: TestingQuestion["payoff"], weights: Shares): number =>
  Math.max(
    ...Object.values(payoff).map((brings) => Object.entries(weights).reduce((sum, [state, weight]) => sum + weight * brings[state]!, 0)),
  );

/**
 * What a soil test is worth before it is taken: the best action for each message, weighed by how likely the message is, less
 * the best action without one. A test that cannot change what is done is worth nothing, however right it is.
 */
export const testingValue = ({ payoff, prior, likelihood }: TestingQuestion): Outcome<TestingValue> => {
  const total = (shares: Shares): number => Object.values(shares).reduce((a, b) => a + b, 0);
  const states = Object.keys(prior);
  if (states.length === 0 || Object.keys(payoff).length === 0)
    return noAnswer("no state of the soil or no action is given", ["states", "actions"]);
  if (![prior, ...states.map((s) => likelihood[s] ?? {})].every((shares) => alike(total(shares), 1)))
    return noAnswer("the chances given are not whole: each list must add up to 1", ["chances"]);
  if (Object.values(payoff).some((brings) => states.some((s) => brings[s] === undefined)))
    return noAnswer("an action has no payoff for one of the states", ["payoff"]);
  const messages = [...new Set(states.flatMap((s) => Object.keys(likelihood[s]!)))];
  const without = best(payoff, prior);
  const withTest = messages.reduce(
    (sum, m) => sum + best(payoff, Object.fromEntries(states.map((s) => [s, prior[s]! * (likelihood[s]![m] ?? 0)]))),
    0,
  );
  const certain = states.reduce((sum, s) => sum + prior[s]! * best(payoff, { [s]: 1 }), 0);
  const value: TestingValue = { without, withTest, ofTest: withTest - without, ofCertainty: certain - without };
  return answer(value, [
    { what: "Best action without the test, an acre", result: plain(without, 2) },
    { what: "Best action for each message, by how likely the message is", result: plain(withTest, 2) },
    { what: "What the test is worth, an acre", expression: `${plain(withTest, 2)} − ${plain(without, 2)}`, result: plain(value.ofTest, 2) },
  ]);
};
