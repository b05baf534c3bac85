import * as z from "zod";
import { allowedWords, nearMiss } from "../nearMiss.ts";

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

/** A number as people write it: 96, 27,5 or .5. */
const figure = String.raw`\d+(?:[.,]\d+)?|[.,]\d+`;
const alone = new RegExp(`^-?(?:${figure})$`);
/** One number with words, signs or a unit beside it, and no other: "96 ppm", "6.3*", "~96"; a range or a fraction is none. */
const withWords = new RegExp(`^[^\\d<>≤≥-]*?(${figure})\\D*$`);
const bounded = new RegExp(`^([<>≤≥])=?\\s*(${figure})\\D*$`);

const qualifierOf = (sign: string): string => (/[<≤]/.test(sign) ? "<" : ">");

/** As a record writes it, unless its comma may be one for thousands. */
const asRecorded = (written: string): string | undefined =>
  /^\d{1,3},\d{3}$/.test(written) ? undefined : written.replace(",", ".").replace(/^\./, "0.");

/** Quotes of word processors, and blanks that look like a space and are none. */
const curlyQuotes = /["“”„‘’]/g;
export const oddBlank = /[\u00a0\u2000-\u200b\u202f\u3000]/;
export const oddBlankWords = "a blank in it is no plain space, as on web pages; type it anew";

/** More is no figure that anybody wrote. */
const longestFigure = 40;

/** How to write what was probably meant. */
const hint = (expected: string, input: unknown): string => {
  if (expected === "text" && typeof input === "number") return "; put it in quotes";
  if (expected !== "a number" || typeof input !== "string" || input.length > longestFigure) return "";
  const written = input.replace(curlyQuotes, "").trim();
  if (/^-?\d{1,3}(,\d{3})+$/.test(written)) return "; leave the comma out, or write a decimal point";
  if (alone.test(written) && oddBlank.test(input)) return `; ${oddBlankWords}`;
  if (alone.test(written)) return written.includes(",") ? `; write ${written.replace(",", ".")}` : "; leave out the quotes";
  const [, sign] = bounded.exec(written) ?? [];
  if (sign !== undefined) return `; write the number alone, and of a result qualifier: "${qualifierOf(sign)}" beside it`;
  const [, single] = withWords.exec(written) ?? [];
  return single === undefined ? "" : `; write ${asRecorded(single) ?? "the number"} alone`;
};

/** What to write for a result that is no number: a bound, a number with its unit, or nothing that was found. */
const resultHint = (input: unknown): string => {
  if (input !== null && (typeof input !== "string" || input.length > longestFigure)) return "";
  const written = (input ?? "").replace(curlyQuotes, "").trim();
  const [, sign = "", value = ""] = bounded.exec(written) ?? [];
  if (sign !== "") return `; write { value: ${asRecorded(value) ?? "the number"}, qualifier: "${qualifierOf(sign)}" }`;
  if (!/\d/.test(written)) return '; leave the key out where it was not tested, and write a bound as { value: 3, qualifier: "<" }';
  return withWords.test(written) && !alone.test(written) ? `${hint("a number", input)}, in the unit of the laboratory's package` : "";
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
  if (input === undefined) return wrongType(wanted.join(" or "), input);
  const keys = typeof input === "object" && input !== null && !Array.isArray(input) ? Object.keys(input) : undefined;
  const shown = keys && keys.length <= fewKeys ? ["{", ...(keys.length > 0 ? [keys.join(", ")] : []), "}"].join(" ") : kindOf(input);
  const told = wanted.includes("{ value, qualifier }") ? resultHint(input) : "";
  const hints = told || (wanted.map((w) => hint(w, input)).find((h) => h !== "") ?? "");
  return `must be ${[...new Set(wanted)].join(" or ")}, not ${shown}${hints}`;
};

/** Keys of a strict object that has a typo are listed one a line, so that each can be placed at its own key. */
const keySeparator = "\n";

/** A key that took its value along, `{value:180}`, or that an equals sign stands behind. */
const grown = /^([A-Za-z]\w*)\s*[:=]\s*(.*)$/;

const keyHint = (key: string, known: readonly string[], value: unknown): string => {
  if (/^\d+$/.test(key)) return "if the comma before it is a decimal comma, write a point";
  const [, name = "", taken = ""] = grown.exec(key) ?? [];
  if (known.includes(name)) return `write ${name}: ${taken} with a space after the colon`;
  if (value === null && /\s/.test(key) && nearMiss(key, known) === undefined)
    return "if it is the rest of the text before it, put that text in quotes: within { } a comma ends it";
  return allowedWords(key, known);
};

/** Plain words for every way a record can miss its schema. Given to `safeParse` as its error map. */
export const explain: z.core.$ZodErrorMap = (issue) => {
  switch (issue.code) {
    case "invalid_type":
      return wrongType(expectedAt(issue.expected, issue.inst), issue.input);
    case "unrecognized_keys": {
      const known = knownKeys(issue.inst);
      return issue.keys
        .map((key) => `is not a key known here; ${keyHint(key, known, (issue.input as Record<string, unknown>)[key])}`)
        .join(keySeparator);
    }
    case "invalid_value": {
      const values = issue.values.map(String);
      if (issue.input === undefined || issue.input === null) return `${absent(issue.input)}; ${allowedWords("", values)}`;
      // To YAML a bare > begins a text over several lines.
      if (issue.input === "" && values.includes(">")) return 'is empty; allowed: "<", ">", in quotes';
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
        const { discriminator } = issue;
        const given = input?.[discriminator];
        const slip = Object.keys(input ?? {}).find((key) => key !== discriminator && nearMiss(key, [discriminator]) !== undefined);
        const options = "options" in issue && Array.isArray(issue.options) ? issue.options.map(String) : [];
        return given === undefined || given === null
          ? `${absent(given)}${slip === undefined ? "" : `, and ${slip} is not a key known here`}; ${allowedWords("", options)}`
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

/** The keys that the hint of an odd one offers in its place. */
const offered = ({ message }: PlainIssue): readonly string[] =>
  /; did you mean (.+)\?$/.exec(message)?.[1]!.split(/, | or /) ?? /; write (\w+): /.exec(message)?.slice(1) ?? [];

/** A key misspelled is also one missing, and a whole number too large for its key is too large for any: one slip is told once. */
const toldOnce = (issues: readonly PlainIssue[]): readonly PlainIssue[] => {
  const nameOf = ({ path }: PlainIssue): string => String(path.at(-1));
  const home = ({ path }: PlainIssue): string => JSON.stringify(path.slice(0, -1));
  const odd = issues.filter((issue) => issue.atKey);
  return issues.filter((issue) => {
    if (issue.message.endsWith(` ${Number.MAX_SAFE_INTEGER}`)) return issues.filter((other) => sameValue(other, issue)).length === 1;
    return !(
      issue.message.startsWith("is missing") && odd.some((key) => home(key) === home(issue) && offered(key).includes(nameOf(issue)))
    );
  });
};

const sameValue = (a: PlainIssue, b: PlainIssue): boolean => JSON.stringify(a.path) === JSON.stringify(b.path) && !a.atKey && !b.atKey;

/** Flatten zod's issues: one per unknown key, and inside a union the branch that came closest, if one did. */
export const plainIssues = (issues: readonly z.core.$ZodIssue[], prefix: readonly PropertyKey[] = []): readonly PlainIssue[] =>
  toldOnce(
    issues.flatMap((issue) => {
      const path = [...prefix, ...issue.path].map((p) => (typeof p === "symbol" ? String(p) : p));
      if (issue.code === "unrecognized_keys")
        return issue.message.split(keySeparator).map((message, i) => ({ path: [...path, issue.keys[i] ?? ""], message, atKey: true }));
      if (issue.code === "invalid_key") return [{ path, message: issue.issues[0]?.message ?? issue.message, atKey: true }];
      if (issue.code === "invalid_union" && issue.errors.length > 0) {
        const [closest, next] = issue.errors
          .filter((branch) => branch.length > 0 && branch.every((e) => e.path.length > 0 || e.code === "unrecognized_keys"))
          .map((branch) => plainIssues(branch, path))
          .sort((a, b) => a.length - b.length);
        if (closest && closest.length !== next?.length) return closest;
      }
      return [{ path, message: issue.message, atKey: false }];
    }),
  );
