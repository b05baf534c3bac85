/** Letters without their accents and in lower case, so that "Ängen" stands beside "angle". */
const plainLetters = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

/** The order of names in a list: letters without regard to case and accents, numbers by their size ("Field 2" before "Field 10"). */
export const compareNames = (a: string, b: string): number => {
  const [left, right] = [a, b].map((name) => plainLetters(name).match(/\d+|\D+/g) ?? []);
  for (const [i, part] of left!.entries()) {
    const other = right![i];
    if (other === undefined) return 1;
    if (part === other) continue;
    const difference = Number(part) - Number(other);
    if (Number.isFinite(difference) && difference !== 0) return difference;
    return part < other ? -1 : 1;
  }
  return left!.length - right!.length || (a < b ? -1 : a > b ? 1 : 0);
};
