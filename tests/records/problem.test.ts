import fc from "fast-check";
import { expect, it } from "vitest";
import { formatProblems, Problems, RecordError } from "../../src/records/problem.ts";

const at = (line: number, column: number): { line: number; column: number } => ({ line, column });

it("are sorted by file, line and column, not as text", () => {
  const problems = new Problems();
  problems.error("b.yaml", at(1, 1), "", "last");
  problems.error("a.yaml", at(10, 1), "x", "third");
  problems.warn("a.yaml", at(2, 10), "x", "second");
  problems.error("a.yaml", at(2, 9), "x", "first");
  expect(formatProblems(problems.all)).toBe("a.yaml:2:9: x: first\na.yaml:2:10: x: warning: second\na.yaml:10:1: x: third\nb.yaml:1:1: file: last");
  expect([problems.errors.length, problems.warnings.length]).toEqual([3, 1]);
});

it("are told once each", () => {
  const problems = new Problems();
  for (let i = 0; i < 3; i++) problems.error("a.yaml", at(1, 1), "x", "is wrong");
  expect(problems.all).toHaveLength(1);
});

it("take one line each, whatever they hold", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), fc.string({ unit: "binary" }), fc.string({ unit: "binary" }), (file, field, message) => {
      const line = formatProblems([{ file, line: 1, column: 1, field, message, severity: "error" }]);
      expect(line).not.toMatch(/[\0-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e]/);
    }),
    { seed: 1 },
  );
});

// Unicode 15.1, general category Cf: characters that nobody sees, which web pages and word processors leave in a text.
it("show what is not seen in a word", () => {
  const told = (word: string): string => formatProblems([{ file: "a.yaml", line: 1, column: 1, field: word, message: `"${word}"; did you mean west?`, severity: "error" }]);
  expect(told("we\u200bst")).toBe('a.yaml:1:1: we<U+200B>st: "we<U+200B>st"; did you mean west?');
  expect(told("\u00adwest\u2060\ufeff\u200e")).toBe('a.yaml:1:1: <U+00AD>west<U+2060><U+FEFF><U+200E>: "<U+00AD>west<U+2060><U+FEFF><U+200E>"; did you mean west?');
});

it("make an error whose message is the list", () => {
  const problems = new Problems();
  problems.error("a.yaml", at(1, 1), "x", "is wrong");
  expect(new RecordError(problems.all).message).toBe("a.yaml:1:1: x: is wrong");
});
