/** Blanks, hyphens and capitals that a person puts where an id has them otherwise. */
const bare = (words: string): string => words.toLowerCase().replace(/[\s_-]+/g, "");

/**
 * The one of `allowed` that is meant: "Winter wheat" for winterWheat, "Mehlich-3" for mehlich3. `undefined` where none is, or
 * where two would do; for commands, never for records, which say exactly what they say.
 */
export const choice = (written: string, allowed: readonly string[]): string | undefined => {
  if (allowed.includes(written)) return written;
  const meant = allowed.filter((each) => bare(each) === bare(written));
  return meant.length === 1 ? meant[0] : undefined;
};
