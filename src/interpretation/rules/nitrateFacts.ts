import type { Source, Step } from "../outcome.ts";
import { plain } from "../show.ts";
import type { Amount, YieldUnit } from "../units.ts";
import { cropIds, crops, textureIds, textures } from "../vocabulary.ts";
import type { Facts } from "./facts.ts";

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
  fertilizerOnlyYears: { label: "the number of years on fertilizer nitrogen alone", unit: "" },
  organicMatter: { label: "the organic matter", unit: " %" },
  plannedNitrogen: { label: "the nitrogen rate planned before the test", unit: " lb/ac" },
  standDensity: { label: "the legume stand", unit: " plants/sq ft" },
  standPercent: { label: "the legume stand", unit: " %" },
  regrowth: { label: "the legume's fall regrowth", unit: " in" },
  cropNitrogen: { label: "the nitrogen in the crop when sampled", unit: " kg/ha" },
  shoots: { label: "the number of shoots of the cereal when sampled", unit: " per m²" },
  greenAreaIndex: { label: "the green area index of the crop when sampled", unit: "" },
  previousYield: { label: "the yield of the crop before", unit: " bu/ac" },
} as const;
export type NitrateNumber = keyof typeof nitrateNumbers;
export const numberIds = Object.keys(nitrateNumbers) as [NitrateNumber, ...NitrateNumber[]];

const keepings = ["air-dried", "chilled", "frozen", "as taken"] as const;
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
export const wordIds = Object.keys(nitrateWords) as [NitrateWord, ...NitrateWord[]];
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

/** "the height of the crop" */
export const factLabel = (fact: NitrateFact): string =>
  (fact in nitrateNumbers ? nitrateNumbers[fact as NitrateNumber] : nitrateWords[fact as NitrateWord]).label;

/** "corn", "silt loam", or the word as it stands */
export const wordLabel = (fact: NitrateWord, value: string): string => {
  if (fact === "previousCrop") return (crops as Record<string, { label: string }>)[value]!.label;
  return fact === "texture" ? (textures as Record<string, string>)[value]! : value;
};

/** A fact's value with its unit: "9 in", "1 day", "chilled" */
export const shownFact = (fact: NitrateFact, value: number | string): string => {
  if (typeof value === "string") return wordLabel(fact as NitrateWord, value);
  const { unit } = nitrateNumbers[fact as NitrateNumber];
  return `${plain(value, 1)}${value === 1 ? unit.replace(/(day|hour)s$/, "$1") : unit}`;
};

export const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** A line of the sum for a fact of the history that the rule used. */
export const historyStep = (fact: NitrateFact, history: NitrateHistory): Step => {
  const known = history[fact]!;
  return {
    what: capital(factLabel(fact)),
    result: shownFact(fact, known.value),
    ...(known.source && { source: known.source }),
    note: known.note,
  };
};

/** Pounds of nitrogen an acre, never below nothing, and what the sum says when it is. */
export const atLeastNothing = (value: number): number => (value <= 0 ? 0 : value);
