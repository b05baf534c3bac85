import * as z from "zod";
import type { NoAnswer, Step } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { Known, NitrateFact, NitrateHistory, NitrateWord } from "./nitrateFacts.ts";
import { factLabel, historyStep, nitrateNumbers, nitrateWords, numberIds, wordIds, wordLabel } from "./nitrateFacts.ts";

const numberTest = z
  .strictObject({
    fact: z.enum(numberIds),
    from: z.number().optional(),
    above: z.number().optional(),
    upTo: z.number().optional(),
    below: z.number().optional(),
  })
  .refine(
    (t) => [t.from, t.above, t.upTo, t.below].some((bound) => bound !== undefined),
    "needs from or above, upTo or below, or one of each",
  );
const wordTest = z
  .strictObject({ fact: z.enum(wordIds), is: z.array(z.string()).min(1).optional(), not: z.array(z.string()).min(1).optional() })
  .refine((t) => (t.is === undefined) !== (t.not === undefined), "needs is or not")
  .check(({ value, issues }) => {
    for (const word of value.is ?? value.not ?? [])
      if (!nitrateWords[value.fact].values.includes(word))
        issues.push({
          code: "custom",
          input: value,
          path: [],
          message: `"${word}" is not known; allowed: ${nitrateWords[value.fact].values.join(", ")}`,
        });
  });
export const factTest = z.union([numberTest, wordTest]);
export type FactTest = z.infer<typeof factTest>;

/** Every test must hold. */
export const nitrateWhen = z.array(factTest).min(1);
export type NitrateWhen = z.infer<typeof nitrateWhen>;

const isNumber = (t: FactTest): t is z.infer<typeof numberTest> => t.fact in nitrateNumbers;
const knownOf = (t: FactTest, history: NitrateHistory): Known<number | string> | undefined => history[t.fact];

/** Does the test hold? `undefined`: the records do not say. */
export const holds = (t: FactTest, history: NitrateHistory): boolean | undefined => {
  const known = knownOf(t, history);
  if (known === undefined) return undefined;
  const { value } = known;
  if (!isNumber(t)) return t.is ? t.is.includes(String(value)) : !t.not!.includes(String(value));
  const n = Number(value);
  return (
    (t.from === undefined || n >= t.from) &&
    (t.above === undefined || n > t.above) &&
    (t.upTo === undefined || n <= t.upTo) &&
    (t.below === undefined || n < t.below)
  );
};

/** "6 to 12 in", "up to 40 lb/ac", "chilled or frozen" */
export const testRange = (t: FactTest): string => {
  if (!isNumber(t)) return `${t.not ? "not " : ""}${(t.is ?? t.not)!.map((w) => wordLabel(t.fact, w)).join(" or ")}`;
  const { unit } = nitrateNumbers[t.fact];
  if (t.from !== undefined && t.upTo !== undefined) return `${plain(t.from)} to ${plain(t.upTo)}${unit}`;
  const bounds = [
    t.from !== undefined && `at least ${plain(t.from)}`,
    t.above !== undefined && `more than ${plain(t.above)}`,
    t.upTo !== undefined && `at most ${plain(t.upTo)}`,
    t.below !== undefined && `less than ${plain(t.below)}`,
  ];
  return `${bounds.filter(Boolean).join(" and ")}${unit}`;
};

/** "the height of the crop is 6 to 12 in" */
export const testLabel = (t: FactTest): string => {
  if (t.fact !== "manuredSinceHarvest" && t.fact !== "manuredBefore") return `${factLabel(t.fact)} is ${testRange(t)}`;
  return `there was ${testRange(t) === "yes" ? "" : "no "}${factLabel(t.fact)}`;
};
export const whenLabel = (tests: NitrateWhen | undefined): string => (tests ?? []).map(testLabel).join(", and ");
/** The facts that conditions ask for and the records hold, each once, as lines of the sum. */
export const historySteps = (tests: readonly FactTest[], history: NitrateHistory): Step[] =>
  [...new Set(tests.map((t) => t.fact))].filter((fact) => history[fact] !== undefined).map((fact) => historyStep(fact, history));

export type RowChoice<T> =
  | { readonly found: T; readonly missing?: undefined }
  | { readonly found?: undefined; readonly missing: NitrateFact | undefined; readonly open: readonly T[] };

/**
 * The first row whose tests all hold. Where a fact that could choose an earlier row is not recorded, none is chosen:
 * `missing` names it and `open` holds every row that may still be the one.
 */
export const chooseRow = <T extends { when?: NitrateWhen | undefined }>(rows: readonly T[], history: NitrateHistory): RowChoice<T> => {
  let missing: NitrateFact | undefined;
  const open: T[] = [];
  for (const row of rows) {
    const verdicts = (row.when ?? []).map((t) => holds(t, history));
    if (verdicts.includes(false)) continue;
    const asks = verdicts.indexOf(undefined);
    if (asks < 0) {
      if (missing === undefined) return { found: row };
      return { missing, open: [...open, row] };
    }
    missing ??= row.when![asks]!.fact;
    open.push(row);
  }
  return { missing, open };
};

/**
 * The rows that the words of a fact lead to where it is not recorded: what all of them say does not hang on it. None where the
 * fact is a number, or where a word of it has no row or leaves another fact open.
 */
export const rowsOfEachWord = <T extends { when?: NitrateWhen | undefined }>(
  rows: readonly T[],
  missing: NitrateFact | undefined,
  history: NitrateHistory,
): T[] => {
  const words = missing !== undefined && missing in nitrateWords ? nitrateWords[missing as NitrateWord].values : [];
  const found = words.map((value) => chooseRow(rows, { ...history, [missing!]: { value } }).found);
  return found.every((row) => row !== undefined) ? found : [];
};

/** The refusal where a row cannot be chosen. */
export const notChosen = (missing: NitrateFact | undefined, pack: string): NoAnswer =>
  missing === undefined
    ? noAnswer(`${pack} has no row for this place`, ["a guideline for this place"])
    : noAnswer(`${factLabel(missing)} is not recorded, and the rate of ${pack} depends on it`, [missing]);
