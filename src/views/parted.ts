/**
 * Consecutive parts of a list, in its order, each with the sum of its costs at most `most`. An item that costs more by itself has a
 * part to itself. An empty list has no parts.
 */
export const parted = <T>(items: readonly T[], costOf: (item: T) => number, most: number): T[][] => {
  const parts: T[][] = [];
  let spent = Infinity;
  for (const item of items) {
    const cost = costOf(item);
    if (spent + cost > most) {
      parts.push([]);
      spent = 0;
    }
    parts.at(-1)!.push(item);
    spent += cost;
  }
  return parts;
};
