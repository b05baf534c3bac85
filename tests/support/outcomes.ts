import { expect } from "vitest";
import type { Answer, Outcome } from "../../src/interpretation/outcome.ts";

/** The answer, or a failure that prints why there was none. */
export const answered = <T>(outcome: Outcome<T>): Answer<T> => {
  if (outcome.kind === "noAnswer") throw new Error(`no answer, because ${outcome.because}`);
  return outcome;
};

/** Words a clause may begin with in capitals: names of guidelines and of nothing else. */
const properName = /^(Tri-State|Kansas|Iowa|Oregon|RB209|Teagasc|Ontario|Minnesota|Wisconsin|Nebraska|Rutgers|Connecticut|UMass|Illinois|Montana|Penn State|North Carolina|Vermont|South Dakota|Oklahoma|Arkansas|Cornell|soil chemistry)\b/;
const verb = /\b(is|are|was|were|has|have|gives|holds|says|sets|rates|spans|read|depends|extracted)\b/;

/** A refusal that reads on from "No potash rate, because ", says what `clause` looks for, and names what is missing by its id. */
export const expectRefusal = (outcome: Outcome<unknown>, clause: RegExp, ...missing: string[]): void => {
  if (outcome.kind === "answer") throw new Error(`an answer, ${JSON.stringify(outcome.value)}, where none can be given`);
  const { because } = outcome;
  expect(because).toMatch(clause);
  expect(because).toMatch(verb);
  if (!properName.test(because)) expect(because).toMatch(/^[a-z]/);
  expect(because).not.toMatch(/[.:;,]$|undefined|NaN|\[object/);
  expect(outcome.missing).toEqual(missing);
};
