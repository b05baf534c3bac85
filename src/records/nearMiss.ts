import { distance } from "fastest-levenshtein";

/** Two neighboring letters in the wrong order are one slip, not two. */
const swapped = (a: string, b: string): boolean => {
  const i = a.split("").findIndex((letter, at) => letter !== b[at]);
  return a.length === b.length && i >= 0 && a.slice(0, i) + a.charAt(i + 1) + a.charAt(i) + a.slice(i + 2) === b;
};

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
    const d = swapped(small, other) ? 1 : distance(small, other);
    if (d < bestDistance) {
      best = word;
      bestDistance = d;
    }
  }
  return best;
};

/** "did you mean bufferPh?" or, where nothing is close, "allowed: a, b, c". Long lists are cut. */
export const allowedWords = (written: string, allowed: readonly string[]): string => {
  const meant = nearMiss(written, allowed);
  if (meant !== undefined) return `did you mean ${meant}?`;
  if (allowed.length === 0) return "there are none yet";
  const shown = allowed.slice(0, 20);
  return `allowed: ${shown.join(", ")}${allowed.length > shown.length ? ` and ${allowed.length - shown.length} more` : ""}`;
};
