const longestId = 60;

/** Latin letters that no accent comes off of. */
const inPlainLetters: Readonly<Record<string, string>> = { ß: "ss", æ: "ae", œ: "oe", ø: "o", ł: "l", đ: "d", ð: "d", þ: "th", ı: "i" };

/** An id made of a name: "Böhmer's Low Field" gives bohmers-low-field, "Großer Kamp" grosser-kamp. Empty where the name has no Latin letter or digit. */
export const idFrom = (name: string): string =>
  name
    .normalize("NFKD")
    .replace(/[\u0300-\u036f'’]/g, "")
    .toLowerCase()
    .replace(/[ßæœøłđðþı]/g, (letter) => inPlainLetters[letter]!)
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, longestId)
    .replace(/^-+|-+$/g, "");
