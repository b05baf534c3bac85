/** Whole sentences: a full stop within a number ends none. */
const sentences = (text: string): string[] => text.split(/(?<=\.) (?=\p{Lu})/u);

export interface SharedWords {
  /** What is said first of every panel, told once for the figure; empty where they begin apart, or there is one panel alone. */
  readonly shared: string;
  /** What is left to say beside each panel. */
  readonly rest: readonly string[];
}

/** Panels that are all told the same first, such as that their samplings are too few, are told it once. */
export const sharedWords = (says: readonly string[]): SharedWords => {
  if (says.length < 2) return { shared: "", rest: says };
  const told = says.map(sentences);
  const [first] = told;
  let alike = 0;
  while (alike < first!.length && told.every((t) => t[alike] === first![alike])) alike += 1;
  return {
    shared: alike === 0 ? "" : first!.slice(0, alike).join(" "),
    rest: told.map((t) => t.slice(alike).join(" ")),
  };
};
