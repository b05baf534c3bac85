/** Letters that fit between a plot and the edge of its panel, at 11.5 px. */
const room = 12;
/** Height of a line of a class's name. */
export const bandNameLine = 12;

/** The name of a class beside a plot, in lines short enough for the panel's edge: "very strongly acid" takes three, or two. */
export const bandNameLines = (name: string): string[] => {
  const lines: string[] = [];
  for (const word of name.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= room) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
};
