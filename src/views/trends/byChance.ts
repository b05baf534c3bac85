import { count, numberWord } from "../words.ts";

/** Each change and each trend is told at one in twenty. Of fewer than these half of one is to be expected, and nothing is told. */
const fewestTold = 10;

/** Of so many statements about soil where nothing changes, how many are wrong; absent where too few are made to expect one. */
const wrongByChance = (judged: number): number | undefined => (judged < fewestTold ? undefined : Math.round(judged / 20));

/** "Of 28 changes told here, two are more than noise; where nothing changes, about one would be by chance alone."; nothing of few changes, or where none is. */
export const changesByChance = (judged: number, found: number): string => {
  const wrong = wrongByChance(judged);
  return wrong === undefined || found === 0
    ? ""
    : `Of ${count(judged, "change")} told here, ${numberWord(found)} ${found === 1 ? "is" : "are"} more than noise; where nothing changes, about ${numberWord(wrong)} would be by chance alone.`;
};

/** "where nothing changes, up to one of 24 is called so by chance"; nothing of few trends, or where none is called rising or falling. */
export const trendsByChance = (judged: number, found: number): string => {
  const wrong = wrongByChance(judged);
  return wrong === undefined || found === 0
    ? ""
    : `where nothing changes, up to ${numberWord(wrong)} of ${judged} ${wrong === 1 ? "is" : "are"} called so by chance`;
};
