/** Letters that Unicode does not part into a base and an accent, as they are typed where the keyboard lacks them. */
const plain: Readonly<Record<string, string>> = { ß: "ss", æ: "ae", œ: "oe", ø: "o", ł: "l", đ: "d", ð: "d", þ: "th", ı: "i" };

/** A text as words to compare: without accents and in lower case, parted at all that is neither letter nor digit. Subscripts count as digits. */
export const fold = (text: string): string[] =>
  text
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[ßæœøłđðþı]/g, (letter) => plain[letter]!)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "");

/** Does every word that was typed begin one of these words? */
export const holdsAll = (words: readonly string[], typed: readonly string[]): boolean =>
  typed.every((each) => words.some((word) => word.startsWith(each)));
