import { distance } from "fastest-levenshtein";

/** The word meant, when one is close enough to be a slip of the finger; the closest, and the first of equals. */
export const nearMiss = (written: string, allowed: readonly string[]): string | undefined => {
  const most = Math.max(1, Math.floor(written.length / 3));
  let best: string | undefined;
  let bestDistance = most + 1;
  for (const word of allowed) {
    const d = distance(written.toLowerCase(), word.toLowerCase());
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
