import * as z from "zod";
import { allowedWords } from "../nearMiss.ts";

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
  tuple: "a list",
  object: "a block of keys",
  record: "a block of keys",
};

const date = "a calendar day written YYYY-MM-DD";

/** How to write what was probably meant. */
const hint = (expected: string, input: unknown): string => {
  if (expected === "text" && typeof input === "number") return "; put it in quotes";
  if (expected !== "a number" || typeof input !== "string") return "";
  if (/^\s*-?\d{1,3}(,\d{3})+\s*$/.test(input)) return "; leave the comma out, or write a decimal point";
  if (/^\s*-?\d+(\.\d+)?\s*$/.test(input)) return "; leave out the quotes";
  const bound = /^\s*([<>])\s*\d/.exec(input);
  if (bound) return `; write the number alone, and of a result qualifier: "${bound[1]!}" beside it`;
  return /^\s*-?\d+,\d+\s*$/.test(input) ? `; write ${input.trim().replace(",", ".")}` : "";
};

const wrongType = (expected: string, input: unknown): string =>
  input === undefined ? `is missing; must be ${expected}` : `must be ${expected}, not ${kindOf(input)}${hint(expected, input)}`;

const expectedType = (expected: string): string => expectedWords[expected] ?? expected;

const absent = (input: undefined | null): string => (input === null ? "is empty" : "is missing");

/** Keys that a block may hold; empty where any may stand. */
const knownKeys = (schema: unknown): string[] => {
  if (schema instanceof z.ZodObject) return Object.keys(schema.shape);
  return schema instanceof z.ZodRecord && schema.keyType instanceof z.ZodEnum ? schema.keyType.options.map(String) : [];
};

/** A block by the keys that it may hold: "{ value, unit }". */
const blockOf = ({ shape }: z.ZodObject): string => `{ ${Object.keys(shape).join(", ")} }`;

/** More keys than these are looked up, not read in a message. */
const fewKeys = 6;

/** What should stand where there is something else or nothing. */
const expectedAt = (expected: string, schema: unknown): string => {
  if (schema instanceof z.ZodISODate) return date;
  return schema instanceof z.ZodObject && Object.keys(schema.shape).length <= fewKeys ? blockOf(schema) : expectedType(expected);
};

/** A value that may be one thing or another and is neither, such as a result: a number, or { value, qualifier }. */
const noneOf = (branches: readonly (readonly z.core.$ZodIssue[])[], union: unknown, input: unknown): string => {
  const wanted = branches.flatMap(([first], i) => {
    const branch: unknown = union instanceof z.ZodUnion ? union.options[i] : undefined;
    if (branch instanceof z.ZodObject) return [blockOf(branch)];
    if (first?.code === "invalid_type") return [expectedType(first.expected)];
    return first?.code === "invalid_value" ? first.values.map(String) : [];
  });
  const bound = typeof input === "string" && wanted.includes("a number") ? /^\s*([<>])\s*(\d+(?:\.\d+)?)\s*$/.exec(input) : null;
  if (bound) return `must be a number, not ${kindOf(input)}; write { value: ${bound[2]!}, qualifier: "${bound[1]!}" }`;
  const hints = wanted.map((w) => hint(w, input)).find((h) => h !== "");
  return `${wrongType([...new Set(wanted)].join(" or "), input)}${hints ?? ""}`;
};

/** Keys of a strict object that has a typo are listed one a line, so that each can be placed at its own key. */
const keySeparator = "\n";

/** Plain words for every way a record can miss its schema. Given to `safeParse` as its error map. */
export const explain: z.core.$ZodErrorMap = (issue) => {
  switch (issue.code) {
    case "invalid_type":
      return wrongType(expectedAt(issue.expected, issue.inst), issue.input);
    case "unrecognized_keys": {
      const known = knownKeys(issue.inst);
      return issue.keys
        .map((key) =>
          /^\d+$/.test(key)
            ? "is not a key known here; if the comma before it is a decimal comma, write a point"
            : `is not a key known here; ${allowedWords(key, known)}`,
        )
        .join(keySeparator);
    }
    case "invalid_value": {
      const values = issue.values.map(String);
      if (issue.input === undefined || issue.input === null) return `${absent(issue.input)}; ${allowedWords("", values)}`;
      return values.length === 1
        ? `must be ${values[0]}, not ${kindOf(issue.input)}`
        : `${kindOf(issue.input)} is not known; ${allowedWords(asText(issue.input), values)}`;
    }
    case "invalid_format":
      if (issue.format === "date") return `must be ${date}, not ${kindOf(issue.input)}`;
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
        return given === undefined || given === null
          ? `${absent(given)}; ${allowedWords("", options)}`
          : `${kindOf(given)} is not known; ${allowedWords(asText(given), options)}`;
      }
      return noneOf(issue.errors, issue.inst, issue.input);
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
      return issue.message.split(keySeparator).map((message, i) => ({ path: [...path, issue.keys[i] ?? ""], message, atKey: true }));
    if (issue.code === "invalid_key") return [{ path, message: issue.issues[0]?.message ?? issue.message, atKey: true }];
    if (issue.code === "invalid_union" && issue.errors.length > 0) {
      const inside = issue.errors.filter(
        (branch) => branch.length > 0 && branch.every((e) => e.path.length > 0 || e.code === "unrecognized_keys"),
      );
      const closest = inside.sort((a, b) => a.length - b.length)[0];
      if (closest) return plainIssues(closest, path);
    }
    return [{ path, message: issue.message, atKey: false }];
  });
