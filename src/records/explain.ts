import * as z from "zod";
import { allowedWords } from "./nearMiss.ts";

const asText = (value: unknown): string => (typeof value === "string" || typeof value === "number" ? `${value}` : "");

/** What a person sees in the file, in their words. */
const kindOf = (value: unknown): string => {
  if (value === undefined) return "nothing";
  if (value === null) return "an empty value";
  if (typeof value === "string") return `the text "${value.length > 40 ? `${value.slice(0, 40)}…` : value}"`;
  if (typeof value === "number" || typeof value === "boolean") return `${value}`;
  return Array.isArray(value) ? "a list" : "a block of keys";
};

const expectedWords: Record<string, string> = {
  string: "text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list",
  object: "a block of keys",
  record: "a block of keys",
};

const wrongType = (expected: string, input: unknown): string => {
  if (input === undefined) return `is missing; must be ${expectedWords[expected] ?? expected}`;
  const base = `must be ${expectedWords[expected] ?? expected}, not ${kindOf(input)}`;
  if (expected === "number" && typeof input === "string" && /^\s*[<>]/.test(input)) return `${base}; write { value: 3, qualifier: "<" }`;
  if (expected === "number" && typeof input === "string" && /^-?\d+,\d+$/.test(input.trim())) return `${base}; write a decimal point`;
  if (expected === "string" && typeof input === "number") return `${base}; put it in quotes`;
  return base;
};

/** Keys of a strict object that has a typo are listed one a line, so that each can be placed at its own key. */
export const keySeparator = "\n";

/** Plain words for every way a record can miss its schema. Given to `safeParse` as its error map. */
export const explain: z.core.$ZodErrorMap = (issue) => {
  switch (issue.code) {
    case "invalid_type":
      return wrongType(issue.expected, issue.input);
    case "unrecognized_keys": {
      const shape = issue.inst instanceof z.ZodObject ? Object.keys(issue.inst.shape) : [];
      return issue.keys.map((key) => `is not a key known here; ${allowedWords(key, shape)}`).join(keySeparator);
    }
    case "invalid_value": {
      const values = issue.values.map(String);
      if (issue.input === undefined) return `is missing; ${allowedWords("", values)}`;
      return values.length === 1
        ? `must be ${values[0]}, not ${kindOf(issue.input)}`
        : `${kindOf(issue.input)} is not known; ${allowedWords(asText(issue.input), values)}`;
    }
    case "invalid_format":
      if (issue.format === "date") return `must be a calendar day written YYYY-MM-DD, not ${kindOf(issue.input)}`;
      return undefined;
    case "too_small":
      if (issue.origin === "string") return "must not be empty";
      if (issue.origin === "array") return `needs at least ${issue.minimum} ${issue.minimum === 1 ? "entry" : "entries"}`;
      return `${kindOf(issue.input)} is too small; must be ${issue.inclusive ? "at least" : "more than"} ${issue.minimum}`;
    case "too_big":
      if (issue.origin === "string") return `is too long; at most ${issue.maximum} characters`;
      if (issue.origin === "array") return `has too many entries; at most ${issue.maximum}`;
      return `${kindOf(issue.input)} is too large; must be at most ${issue.maximum}`;
    case "invalid_key":
      return issue.issues[0]?.message ?? "is not a usable key";
    case "invalid_union":
      if (issue.discriminator !== undefined) {
        const input = issue.input as Record<string, unknown> | undefined;
        const given = input?.[issue.discriminator];
        const options = "options" in issue && Array.isArray(issue.options) ? issue.options.map(String) : [];
        return given === undefined
          ? `is missing; ${allowedWords("", options)}`
          : `${kindOf(given)} is not known; ${allowedWords(asText(given), options)}`;
      }
      return undefined;
    default:
      return undefined;
  }
};

export interface PlainIssue {
  readonly path: readonly (string | number)[];
  readonly message: string;
  /** The issue is about the key itself, not its value. */
  readonly atKey: boolean;
}

/** Flatten zod's issues: one per unknown key, and inside a union the branch that came closest. */
export const plainIssues = (issues: readonly z.core.$ZodIssue[], prefix: readonly PropertyKey[] = []): PlainIssue[] =>
  issues.flatMap((issue) => {
    const path = [...prefix, ...issue.path].map((p) => (typeof p === "symbol" ? String(p) : p));
    if (issue.code === "unrecognized_keys")
      return issue.message
        .split(keySeparator)
        .map((message, i) => ({ path: [...path, issue.keys[i] ?? ""], message, atKey: true }));
    if (issue.code === "invalid_key") return [{ path, message: issue.issues[0]?.message ?? issue.message, atKey: true }];
    if (issue.code === "invalid_union" && issue.errors.length > 0) {
      const inside = issue.errors.filter((branch) => branch.length > 0 && branch.every((e) => e.path.length > 0));
      const closest = inside.sort((a, b) => a.length - b.length)[0];
      if (closest) return plainIssues(closest, path);
    }
    return [{ path, message: issue.message, atKey: false }];
  });
