import { distance } from "fastest-levenshtein";
import { alsoCalled } from "./alsoCalled.ts";

/** Two neighboring letters in the wrong order are one slip, not two. */
const swapped = (a: string, b: string): boolean => {
  const i = a.split("").findIndex((letter, at) => letter !== b[at]);
  return a.length === b.length && i >= 0 && a.slice(0, i) + a.charAt(i + 1) + a.charAt(i) + a.slice(i + 2) === b;
};

/** What is measured, before the stroke: "m3" of "m³/ha". */
const measuredIn = (word: string): string => word.normalize("NFKC").split("/")[0]!.trim();

/** "t/ha" for "dt/ha" would be ten times as much, and "meq/100 g" for "mg/100 g" another thing altogether. */
const otherAmount = (a: string, b: string): boolean => (a.includes("/") || b.includes("/")) && measuredIn(a) !== measuredIn(b);

/** Longer words than any in use are not compared. */
const longestWord = 80;

/** The word meant, when one is close enough to be a slip of the finger; the closest, and the first of equals. */
export const nearMiss = (written: string, allowed: readonly string[]): string | undefined => {
  if (written.length > longestWord) return undefined;
  const small = written.toLowerCase();
  // Some of the word must be right: "x" is no slip for "y", and nothing at all is none for "<".
  const most = Math.min(Math.max(1, Math.floor(small.length / 3)), small.length - 1);
  let best: string | undefined;
  let bestDistance = most + 1;
  for (const word of allowed) {
    const other = word.toLowerCase();
    if (otherAmount(small, other)) continue;
    const d = swapped(small, other) ? 1 : distance(small, other);
    if (d < bestDistance) {
      best = word;
      bestDistance = d;
    }
  }
  return best;
};

/** Letters and digits alone: "tri-state" is part of "us-tristate-974-2020". */
const bare = (word: string): string => word.toLowerCase().replace(/[^\p{L}\p{N}]/gu, "");

/** Where words begin within an id: winter|Barley, us-|iowa-|lime. */
const wordStarts = (word: string): number[] => [...word.matchAll(/\p{Lu}|(?<![\p{L}\p{N}])[\p{L}\p{N}]/gu)].map((m) => m.index);

/** The words that hold what was written from a word's beginning on; of a letter or two, nearly all would. */
const holding = (written: string, allowed: readonly string[]): string[] => {
  const part = written.length > longestWord ? "" : bare(written);
  return part.length < 3 ? [] : allowed.filter((word) => wordStarts(word).some((from) => bare(word.slice(from)).startsWith(part)));
};

/** What else a word is called: in another country, or by the name of what an id stands for. */
export type Names = (word: string) => readonly string[];
const elsewhereCalled: Names = (word) => (Object.hasOwn(alsoCalled, word) ? alsoCalled[word]! : []);

const calledSo = (written: string, allowed: readonly string[], names: Names): string[] => {
  const called = bare(written);
  return called === "" ? [] : allowed.filter((word) => names(word).some((name) => bare(name) === called));
};

/** Letters of Cyrillic and Greek that look like Latin ones. */
const lookalikes: ReadonlyMap<string, string> = new Map(
  (
    [
      ["АВЕЅІЈКМНОРСТХаеіјорсух", "ABESIJKMHOPCTXaeijopcyx"],
      ["ΑΒΕΖΗΙΚΜΝΟΡΤΥΧο", "ABEZHIKMNOPTYXo"],
    ] as const
  ).flatMap(([others, latin]) => others.split("").map((letter, i) => [letter, latin[i]!] as const)),
);

const inLatin = (word: string): string => Array.from(word, (letter) => lookalikes.get(letter) ?? letter).join("");

/**
 * "did you mean bufferPh?" or, where nothing is close, "allowed: a, b, c". The words that hold what was written go first, and
 * a few of them are offered instead of one that is merely close; long lists are cut.
 */
export const allowedWords = (written: string, allowed: readonly string[], names: Names = elsewhereCalled): string => {
  const latin = inLatin(written);
  if (latin !== written && allowed.includes(latin)) return `a letter in it only looks like a Latin one; did you mean ${latin}?`;
  const called = calledSo(written, allowed, names);
  const held = [...new Set([...called, ...holding(written, allowed)])];
  if (held.length > 1 && held.length <= 5) return `did you mean ${held.slice(0, -1).join(", ")} or ${held.at(-1)!}?`;
  const meant = called[0] ?? nearMiss(written, allowed) ?? (held.length === 1 ? held[0] : undefined);
  if (meant !== undefined) return `did you mean ${meant}?`;
  return allowedList([...new Set([...held, ...allowed])]);
};

/** "allowed: a, b, c", where what was written is no slip of the pen; a long list is cut. */
export const allowedList = (allowed: readonly string[]): string => {
  if (allowed.length === 0) return "there are none yet";
  const shown = allowed.slice(0, 20);
  return `allowed: ${shown.join(", ")}${allowed.length > shown.length ? ` and ${allowed.length - shown.length} more` : ""}`;
};
