import * as z from "zod";
import type { NoAnswer, Source, Step } from "../outcome.ts";
import { noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { Amount, YieldUnit } from "../units.ts";
import { cropIds, crops, textureIds, textures } from "../vocabulary.ts";
import type { Facts } from "./conditions.ts";
import { graded, provenance } from "./sourced.ts";

/** What a nitrogen rule may ask that is a number: label, and the unit it is asked in. */
export const nitrateNumbers = {
  cores: { label: "the number of cores in the bag", unit: "" },
  cropHeight: { label: "the height of the crop", unit: " in" },
  hoursToLab: { label: "the time to the laboratory", unit: " hours" },
  daysSinceRain: { label: "the time since heavy rain", unit: " days" },
  rainOfNormal: { label: "the rain since April 1 against normal", unit: " %" },
  earlyNitrogen: { label: "the fertilizer nitrogen before the test", unit: " lb/ac" },
  manureYears: { label: "the number of manured years among the five before", unit: "" },
  sinceSod: { label: "the number of years since sod", unit: "" },
  fertilizerOnlyYears: { label: "the number of years before with fertilizer as the only source of nitrogen", unit: "" },
  organicMatter: { label: "the organic matter", unit: " %" },
  plannedNitrogen: { label: "the nitrogen rate planned before the test", unit: " lb/ac" },
  standDensity: { label: "the legume stand", unit: " plants/sq ft" },
  standPercent: { label: "the legume stand", unit: " %" },
  regrowth: { label: "the legume's fall regrowth", unit: " in" },
  previousYield: { label: "the yield of the crop before", unit: " bu/ac" },
} as const;
export type NitrateNumber = keyof typeof nitrateNumbers;
const numberIds = Object.keys(nitrateNumbers) as [NitrateNumber, ...NitrateNumber[]];

export const keepings = ["air-dried", "chilled", "frozen", "as taken"] as const;
const yesNo = ["yes", "no"] as const;

/** What a nitrogen rule may ask that is one of a few words. */
export const nitrateWords = {
  keeping: { label: "the keeping of the bags", values: keepings as readonly string[] },
  manuredSinceHarvest: { label: "manure since the last harvest", values: yesNo as readonly string[] },
  manuredBefore: { label: "manure in the three years before the last harvest", values: yesNo as readonly string[] },
  previousCrop: { label: "the crop before", values: cropIds as readonly string[] },
  texture: { label: "the soil texture", values: textureIds as readonly string[] },
} as const;
export type NitrateWord = keyof typeof nitrateWords;
const wordIds = Object.keys(nitrateWords) as [NitrateWord, ...NitrateWord[]];
export type NitrateFact = NitrateNumber | NitrateWord;

export interface Known<T> {
  readonly value: T;
  readonly source?: Source | undefined;
  /** "counted in the seasons 2020 to 2024" */
  readonly note?: string | undefined;
}

/** What is known of the sampling and of the years before it. A fact that the records lack is absent, never guessed. */
export type NitrateHistory = Readonly<Partial<Record<NitrateNumber, Known<number>> & Partial<Record<NitrateWord, Known<string>>>>>;

/** What a nitrogen rule may ask beside the nitrate test. */
export interface NitrogenPlace {
  readonly facts: Facts;
  readonly history: NitrateHistory;
  readonly yieldGoal: Amount<YieldUnit> | undefined;
  /** The pack's short name. */
  readonly pack: string;
}

const numberTest = z
  .strictObject({
    fact: z.enum(numberIds),
    from: z.number().optional(),
    above: z.number().optional(),
    upTo: z.number().optional(),
    below: z.number().optional(),
  })
  .refine((t) => [t.from, t.above, t.upTo, t.below].some((bound) => bound !== undefined), "needs from or above, upTo or below, or one of each");
const wordTest = z
  .strictObject({ fact: z.enum(wordIds), is: z.array(z.string()).min(1).optional(), not: z.array(z.string()).min(1).optional() })
  .refine((t) => (t.is === undefined) !== (t.not === undefined), "needs is or not")
  .check(({ value, issues }) => {
    for (const word of value.is ?? value.not ?? [])
      if (!nitrateWords[value.fact].values.includes(word))
        issues.push({ code: "custom", input: value, path: [], message: `"${word}" is not known; allowed: ${nitrateWords[value.fact].values.join(", ")}` });
  });
export const factTest = z.union([numberTest, wordTest]);
export type FactTest = z.infer<typeof factTest>;

/** Every test must hold. */
export const nitrateWhen = z.array(factTest).min(1);
export type NitrateWhen = z.infer<typeof nitrateWhen>;

/**
 * What a publication asks of the test before its rate may be read. A `condition` that fails or is not recorded gives no
 * rate; an `advice` that fails or is not recorded is a caution beside the rate.
 */
export const precondition = z
  .strictObject({
    weight: z.enum(["condition", "advice"]),
    anyOf: z.array(factTest).min(1).describe("one of these must hold"),
    by: z.string().min(1).optional().describe("who asks it, where that is not the publication of the pack; then it can only be advice"),
    ...provenance,
  })
  .check(graded)
  .refine((p) => p.by === undefined || p.weight === "advice", "names another publication, so it can only be advice");
export type Precondition = z.infer<typeof precondition>;

const isNumber = (t: FactTest): t is z.infer<typeof numberTest> => t.fact in nitrateNumbers;
const knownOf = (t: FactTest, history: NitrateHistory): Known<number | string> | undefined => history[t.fact];

/** Does the test hold? `undefined`: the records do not say. */
export const holds = (t: FactTest, history: NitrateHistory): boolean | undefined => {
  const known = knownOf(t, history);
  if (known === undefined) return undefined;
  const { value } = known;
  if (!isNumber(t)) return t.is ? t.is.includes(String(value)) : !t.not!.includes(String(value));
  const n = Number(value);
  return (t.from === undefined || n >= t.from) && (t.above === undefined || n > t.above) && (t.upTo === undefined || n <= t.upTo) && (t.below === undefined || n < t.below);
};

const wordLabel = (fact: NitrateWord, value: string): string =>
  fact === "previousCrop" ? (crops as Record<string, { label: string }>)[value]!.label : fact === "texture" ? (textures as Record<string, string>)[value]! : value;

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

export const factLabel = (fact: NitrateFact): string => (fact in nitrateNumbers ? nitrateNumbers[fact as NitrateNumber] : nitrateWords[fact as NitrateWord]).label;

/** "the height of the crop is 6 to 12 in" */
export const testLabel = (t: FactTest): string => {
  if (t.fact !== "manuredSinceHarvest" && t.fact !== "manuredBefore") return `${factLabel(t.fact)} is ${testRange(t)}`;
  return `there was ${testRange(t) === "yes" ? "" : "no "}${factLabel(t.fact)}`;
};
export const whenLabel = (tests: NitrateWhen | undefined): string => (tests ?? []).map(testLabel).join(", and ");
export const preconditionLabel = (p: Precondition): string => p.anyOf.map(testLabel).join(", or ");

const shown = (fact: NitrateFact, value: number | string): string =>
  typeof value === "number" ? `${plain(value, 1)}${value === 1 ? nitrateNumbers[fact as NitrateNumber].unit.replace(/(day|hour)s$/, "$1") : nitrateNumbers[fact as NitrateNumber].unit}` : wordLabel(fact as NitrateWord, value);

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** A line of the sum for a fact of the history that the rule used. */
export const historyStep = (fact: NitrateFact, history: NitrateHistory): Step => {
  const known = history[fact]!;
  return { what: capital(factLabel(fact)), result: shown(fact, known.value), ...(known.source && { source: known.source }), ...(known.note && { note: known.note }) };
};

/** The facts that conditions ask for and the records hold, each once, as lines of the sum. */
export const historySteps = (tests: readonly FactTest[], history: NitrateHistory): Step[] =>
  [...new Set(tests.map((t) => t.fact))].filter((fact) => history[fact] !== undefined).map((fact) => historyStep(fact, history));

export interface Checked {
  readonly refused: NoAnswer | undefined;
  readonly cautions: readonly string[];
  readonly steps: readonly Step[];
}

/**
 * Hold the sampling and its history against what the publication asks, before any rate. The first condition that fails
 * refuses and says which; then the first that is not recorded refuses and names what is missing.
 */
export const checkPreconditions = (all: readonly Precondition[], history: NitrateHistory, pack: string): Checked => {
  const cautions: string[] = [];
  const steps: Step[] = [];
  let failed: NoAnswer | undefined;
  let unknown: NoAnswer | undefined;
  for (const p of all) {
    const verdicts = p.anyOf.map((t) => holds(t, history));
    const passing = verdicts.indexOf(true);
    if (passing >= 0) {
      if (p.weight === "advice") continue;
      const t = p.anyOf[passing]!;
      steps.push({ ...historyStep(t.fact, history), expression: `asked for: ${testRange(t)}`, source: p.source, evidence: p.evidence });
      continue;
    }
    const open = p.anyOf.filter((_, i) => verdicts[i] === undefined);
    const [only] = p.anyOf;
    const asked = `${p.by ?? pack} asks ${p.anyOf.length > 1 ? `that ${preconditionLabel(p)}` : `for ${testRange(only!)}`}`;
    if (open.length > 0) {
      const because = `${open.map((t) => factLabel(t.fact)).join(" and ")} ${open.length > 1 ? "are" : "is"} not recorded, and ${asked}`;
      if (p.weight === "condition") unknown ??= noAnswer(because, open.map((t) => t.fact));
      else cautions.push(`${capital(because)}.`);
      continue;
    }
    const t = p.anyOf[0]!;
    const because = `${factLabel(t.fact)} is ${shown(t.fact, history[t.fact]!.value)}, and ${asked}`;
    if (p.weight === "condition") failed ??= noAnswer(because, [`a nitrate test where ${preconditionLabel(p)}`]);
    else cautions.push(`${capital(because)}.`);
  }
  return { refused: failed ?? unknown, cautions, steps };
};

export type RowChoice<T> = { readonly found: T; readonly missing?: undefined } | { readonly found?: undefined; readonly missing: NitrateFact | undefined; readonly open: readonly T[] };

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

/** The refusal where a row cannot be chosen. */
export const notChosen = (missing: NitrateFact | undefined, pack: string): NoAnswer =>
  missing === undefined
    ? noAnswer(`${pack} has no row for this place`, ["a guideline for this place"])
    : noAnswer(`${factLabel(missing)} is not recorded, and the rate of ${pack} depends on it`, [missing]);

/** Pounds of nitrogen an acre, never below nothing, and what the sum says when it is. */
export const atLeastNothing = (value: number): number => (value <= 0 ? 0 : value);
