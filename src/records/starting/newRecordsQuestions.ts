import { unitChoiceIds } from "../../interpretation/unitChoices.ts";
import type { MethodId } from "../../interpretation/vocabulary.ts";
import { cropIds, purposeIds } from "../../interpretation/vocabulary.ts";
import { choice } from "../choice.ts";
import type { Farm, Field } from "../model.ts";
import { allowedWords } from "../nearMiss.ts";
import { phosphorusMethods } from "./newRecordsFarm.ts";
import { mostZones, zoneIds } from "../zones/zoneNames.ts";
import { idFrom } from "../idFrom.ts";
import { currency, date, text } from "../schemas/primitives.ts";

/** One thing that must be known before a record can be written. */
export interface Question {
  /** The flag that answers it, without its dashes. */
  readonly flag: string;
  readonly ask: string;
  /** What is taken when nothing is given. */
  readonly fallback?: string | undefined;
  /** There is nothing to choose: the fallback is taken and nobody is asked. */
  readonly settled?: boolean | undefined;
  /** The answer as it is recorded, of what a person typed: capitals and blanks where they belong. */
  readonly as?: (answer: string) => string;
  /** Why an answer, as it is recorded, will not do; `undefined` when it will. */
  readonly problem: (answer: string) => string | undefined;
}

const oneOf = (allowed: readonly string[]): Required<Pick<Question, "as" | "problem">> => ({
  as: (answer) => choice(answer, allowed) ?? answer,
  problem: (answer) => (allowed.includes(answer) ? undefined : `"${answer}" is not known here; ${allowedWords(answer, allowed)}`),
});

/** A line of words: nothing that moves the cursor or hides itself. */
const name: Question["problem"] = (answer) =>
  text.safeParse(answer).success && !/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/.test(answer)
    ? undefined
    : "must be one line of 1 to 400 characters";

const nameWithId: Question["problem"] = (answer) =>
  name(answer) ?? (idFrom(answer) === "" ? "needs a Latin letter or a digit, for the names of files" : undefined);

/** "Knoll, Apron" as a list; blanks and empty places do not count. */
export const listed = (answer: string): string[] =>
  answer
    .split(",")
    .map((each) => each.trim())
    .filter((each) => each !== "");

const zoneNames: Question["problem"] = (answer) => {
  const names = listed(answer);
  if (names.length === 0) return "names no zone";
  if (names.length > mostZones) return `names more than ${mostZones} zones, and each needs a letter of its own, A to ZZ`;
  const ids = zoneIds(names);
  const twin = ids.findIndex((each, i) => ids.indexOf(each) < i);
  if (twin >= 0) return `gives two zones the id ${ids[twin]!}`;
  return names.map(name).find((problem) => problem !== undefined);
};

const zones: Question = { flag: "zones", ask: "Its zones, by name, with commas between", fallback: "Whole field", problem: zoneNames };

/** "0-8 in" as a depth. */
export const depthOf = (answer: string): { from: number; to: number; unit: "in" | "cm" } | undefined => {
  const [, from, to, unit] = /^(\d{1,3}(?:\.\d+)?)\s*(?:-|–|to)\s*(\d{1,3}(?:\.\d+)?)\s*(in|cm)$/.exec(answer.trim().toLowerCase()) ?? [];
  return from === undefined || to === undefined || Number(from) >= Number(to) || Number(to) > 300
    ? undefined
    : { from: Number(from), to: Number(to), unit: unit as "in" | "cm" };
};

const calendarDay: Question["problem"] = (answer) =>
  date.safeParse(answer).success ? undefined : `must be a calendar day written YYYY-MM-DD, not "${answer}"`;

/** What a new farm is asked first. `guidelines` are the ids at hand. */
export const farmQuestions = (guidelines: readonly string[]): Question[] => [
  { flag: "name", ask: "The farm's name", problem: name },
  { flag: "units", ask: `Units: ${unitChoiceIds.join(", ")}`, ...oneOf(unitChoiceIds) },
  {
    flag: "currency",
    ask: "Currency, three letters such as USD",
    as: (answer) => answer.toUpperCase(),
    problem: (answer) => (currency.safeParse(answer).success ? undefined : "must be a three-letter ISO 4217 code, such as USD"),
  },
  {
    flag: "guidelines",
    ask: "Guidelines in order, by id, with commas between (npm run -s interpret -- --guidelines lists them)",
    as: (answer) => listed(answer).map(oneOf(guidelines).as).join(", "),
    problem: (answer) => {
      const ids = listed(answer);
      const problems = ids.flatMap((each) => oneOf(guidelines).problem(each) ?? []);
      return ids.length === 0 ? "names no guideline" : problems.length > 0 ? problems.join("; ") : undefined;
    },
  },
];

/** And then; `extractant` is what the chosen guidelines read phosphorus by. */
export const farmDetails = (extractant: MethodId | undefined): Question[] => [
  { flag: "lab", ask: "The laboratory's name", problem: nameWithId },
  {
    flag: "extractant",
    ask: `By what it extracts phosphorus: ${phosphorusMethods.join(", ")}`,
    fallback: extractant,
    ...oneOf(phosphorusMethods),
  },
  { flag: "field", ask: "The first field's name", problem: nameWithId },
  zones,
];

/** What a new field is asked; `ids` are taken. */
export const fieldQuestions = (ids: readonly string[]): Question[] => [
  {
    flag: "name",
    ask: "The field's name",
    problem: (answer) =>
      nameWithId(answer) ?? (ids.includes(idFrom(answer)) ? `gives the id ${idFrom(answer)}, which another field has` : undefined),
  },
  zones,
];

/** One of a list; where it holds a single one, that is taken. */
const choiceOf = (flag: string, ask: string, ids: readonly string[], fallback?: string): Question => ({
  flag,
  ask: `${ask}: ${ids.join(", ")}`,
  ...oneOf(ids),
  fallback: fallback ?? (ids.length === 1 ? ids[0] : undefined),
  settled: ids.length === 1,
});

const ofField = (farm: Farm): Question =>
  choiceOf(
    "field",
    "Which field",
    farm.fields.map((f) => f.id),
  );

/** What a new season is asked. */
export const seasonQuestions = (farm: Farm): Question[] => [
  ofField(farm),
  {
    flag: "year",
    ask: "Which year",
    problem: (answer) => (/^(19|20|21)\d\d$/.test(answer) ? undefined : `must be a year such as 2025, not "${answer}"`),
  },
  { flag: "crop", ask: "Which crop", ...oneOf(cropIds) },
];

/** What a new sampling is asked first: whose it is, and what for. `planned` is the day of the plan that it is taken by. */
export const samplingQuestions = (farm: Farm, planned?: string): Question[] => [
  ofField(farm),
  { flag: "date", ask: `The day of sampling, YYYY-MM-DD${planned === undefined ? "" : `, planned for ${planned}`}`, problem: calendarDay },
  { flag: "purpose", ask: `Purpose: ${purposeIds.join(", ")}`, fallback: "routine", ...oneOf(purposeIds) },
];

/** And then, with the field's newest sampling of that purpose to go by; `planned` is the depth of the plan, such as "0-8 in". */
export const samplingDetails = (farm: Farm, field: Field | undefined, purpose: string, planned: string | undefined): Question[] => {
  const before = field?.samplings.findLast((s) => s.purpose === purpose);
  const labs = [...farm.labs.keys()];
  return [
    choiceOf("lab", "Laboratory", labs, before?.lab.id),
    {
      flag: "depth",
      ask: "Depth, such as 0-8 in or 0-15 cm",
      fallback: planned,
      problem: (answer) => (depthOf(answer) ? undefined : `must be written like 0-8 in or 0-15 cm, not "${answer}"`),
    },
    {
      flag: "bags",
      ask: "Bags from each zone",
      fallback: "1",
      problem: (answer) => (/^[1-9]$/.test(answer) ? undefined : `must be a number from 1 to 9, not "${answer}"`),
    },
  ];
};

/** The packages of the laboratory that was chosen. */
export const packageQuestion = (farm: Farm, field: Field | undefined, purpose: string, lab: string): Question => {
  const offered = Object.keys(farm.labs.get(lab)!.packages);
  const before = field?.samplings.findLast((s) => s.purpose === purpose && s.lab.id === lab)?.packageId;
  return choiceOf("package", "Package", offered, before ?? choice(purpose, offered));
};
