/** "a", "a and b", "a, b and c". */
export const list = (items: readonly string[], last = "and"): string =>
  items.length < 2 ? (items[0] ?? "") : `${items.slice(0, -1).join(", ")} ${last} ${items.at(-1)!}`;

/** The same of phrases, where one with an "and" of its own needs a comma before the last: "a and b on c, and d on e". */
export const listOfPhrases = (phrases: readonly string[]): string =>
  phrases.length > 1 && phrases.some((phrase) => phrase.includes(" and "))
    ? `${phrases.slice(0, -1).join(", ")}, and ${phrases.at(-1)!}`
    : list(phrases);
