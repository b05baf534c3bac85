import { monthNames } from "../interpretation/days.ts";
import { list, listOfPhrases } from "../interpretation/list.ts";

/** Sentences' small parts. No locale: the same words on every machine. */

/** `2025-10-18` to "18 October 2025". */
export const longDate = (date: string): string =>
  `${Number(date.slice(8))} ${monthNames[Number(date.slice(5, 7)) - 1]!} ${date.slice(0, 4)}`;

/** `2025-10-18` to "18 October", where the year stands above. */
export const dayMonth = (date: string): string => `${Number(date.slice(8))} ${monthNames[Number(date.slice(5, 7)) - 1]!}`;

/** `2025-10-18` to "October 2025". */
export const monthYear = (date: string): string => `${monthNames[Number(date.slice(5, 7)) - 1]!} ${date.slice(0, 4)}`;

/** Of sorted days: "2014 to 2025", "2025". */
export const yearSpan = (dates: readonly string[]): string => {
  const [first, last] = [dates[0]!.slice(0, 4), dates.at(-1)!.slice(0, 4)];
  return first === last ? first : `${first} to ${last}`;
};

export { list, listOfPhrases };

/** A capital first letter; "pH" keeps its own. */
export const capital = (text: string): string => (text.startsWith("pH") ? text : `${text.charAt(0).toUpperCase()}${text.slice(1)}`);

const numbers = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

export const numberWord = (n: number): string => numbers[n] ?? String(n);

/** "four fields", "one zone", "23 samplings". */
export const count = (n: number, singular: string, plural = `${singular}s`): string => `${numberWord(n)} ${n === 1 ? singular : plural}`;

/** A sentence with its stop: a name that ends in one, "Old Lab, Inc.", or a title that asks, gets no second. */
export const stopped = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);

/** More names than these are no sentence. */
const mostNamed = 12;

/** Names in a sentence; of more than a sentence can hold, how many there are: "North and South", "23 fields". */
export const listOrCount = (names: readonly string[], singular: string): string =>
  names.length > mostNamed ? count(names.length, singular) : list(names);

/** Some of a field's zones in a sentence: "Knoll and Outwash", "14 of 26 zones". */
export const zonesOrCount = (zones: readonly { readonly name: string }[], of: number): string =>
  zones.length > mostNamed ? `${zones.length} of ${of} zones` : list(zones.map((z) => z.name));

/** Pairs are longer. */
const mostPairs = 6;

/** Pairs of zones as they are `named` in a sentence, or how many they are: "twelve pairs of zones". */
export const pairsOrCount = (pairs: readonly string[], named: string): string =>
  pairs.length > mostPairs ? count(pairs.length, "pair of zones", "pairs of zones") : named;
