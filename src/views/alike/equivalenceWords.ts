import type { Outcome } from "../../interpretation/outcome.ts";
import { plain, round } from "../../interpretation/show.ts";
import type { AnalyteCompared, AreasCompared } from "../../interpretation/statistics/areas.ts";
import type { Equivalence } from "../../interpretation/statistics/equivalence.ts";
import { differenceAlpha } from "../../interpretation/statistics/equivalence.ts";
import { analyteInSentence, analytes } from "../../interpretation/vocabulary.ts";
import type { Measured, Words } from "../trends/trendWords.ts";
import { amount, chance, signed } from "../trends/trendWords.ts";
import type { OneClass } from "./oneClass.ts";
import { capital, count, list, numberWord } from "../words.ts";

type Names = readonly [string, string];

const settleWords = ({ settle, test, margin, spreadFrom }: Equivalence, names: Names): string => {
  if (!settle) {
    const thirty = spreadFrom === "events" ? "thirty samplings" : "thirty samples of each area";
    const near = Math.abs(Math.abs(test.difference) - margin.within) < test.error;
    return near
      ? `The difference seen is so near the limit that even ${thirty} would seldom settle it.`
      : `Even ${thirty} would seldom settle it while results stray so far.`;
  }
  const wanted =
    spreadFrom === "events" ? `${count(settle.more[0], "more sampling")} of both areas together` : moreSamples(settle.more, names);
  return `${capital(wanted)} would settle it four times out of five, if the difference stays as it is.`;
};

/** "two more samples of each area", "one more sample of Knoll and three more samples of Apron" */
const moreSamples = (more: readonly [number, number], names: Names): string => {
  if (more[0] === more[1]) return `${count(more[0], "more sample")} of each area`;
  return list(names.flatMap((name, i) => (more[i]! > 0 ? `${count(more[i]!, "more sample")} of ${name}` : [])));
};

const because = (found: Equivalence, what: Measured, names: Names): string => {
  const name = capital(analyteInSentence(what.analyte));
  // By Morgan most phosphorus is below ten, where 2.4 and 1.6 would both be 2.
  const places = (value: number): number => Math.max(analytes[what.analyte].decimals, value < 10 ? 1 : 0);
  const mean = (value: number): string => amount(round(value, places(value)), what);
  const seen = `${mean(found.means[0])} on ${names[0]} and ${mean(found.means[1])} on ${names[1]}`;
  const limit = signed(found.margin.within, what);
  switch (found.situation) {
    case "alike":
      return `${name} is alike: ${seen}, and the difference is surely less than ${limit}.`;
    case "differentWithinMargin":
      return `${name} differs a little, ${seen}, but surely by less than ${limit}, which is too little to farm by.`;
    case "differentBeyondMargin":
      return `${name} differs: ${seen}. The difference is more than chance and, as seen, over ${limit}.`;
    case "undecided":
      return `${name} is open: ${seen}. The results stray too far to say whether the areas differ by less than ${limit}.`;
  }
};

/** For who farms by classes: what the limit leaves open or keeps apart may be one soil to the guideline. */
const oneClassWords = (found: OneClass | undefined): string[] =>
  found ? [`Both are surely ${found.name} by ${found.by} all the same.`] : [];

/** One analyte of two areas: what it comes to, and the numbers behind it. `oneClass`: the class that both surely have. */
export const analyteWords = ({ analyte, outcome }: AnalyteCompared, names: Names, oneClass?: OneClass): Words => {
  if (outcome.kind === "noAnswer")
    return {
      says: [`${capital(analyteInSentence(analyte))} is open, because ${outcome.because}.`, ...oneClassWords(oneClass)].join(" "),
      numbers: [],
    };
  const found = outcome.value;
  const what: Measured = { analyte, unit: found.margin.unit };
  const { test, counts, spreadFrom, among } = found;
  const says = [
    because(found, what, names),
    ...oneClassWords(oneClass),
    ...(found.situation === "undecided" ? [settleWords(found, names)] : []),
    ...(spreadFrom === "noise"
      ? ["Judged by the noise of one sample, because too few samples were taken to know how far the areas' own results stray."]
      : []),
  ].join(" ");
  const compared =
    spreadFrom === "events"
      ? capital(count(counts[0], "sampling"))
      : `${capital(count(counts[0], "composite"))} and ${count(counts[1], "composite")}`;
  const shows = among === 1 ? "" : `, which shows below ${plain(differenceAlpha(among), 4)}, since ${numberWord(among)} tests are asked`;
  const numbers = [
    `Difference ${signed(test.difference, what)}, limits ${signed(test.limits90[0], what)} to ${signed(test.limits90[1], what)}, 90 in 100, against ${signed(found.margin.within, what)} either way (two one-sided tests at 5%, ${chance(test.pEquivalent)}; no difference at all, ${chance(test.p)}${shows}).`,
    `${compared}${test.df === Infinity ? "" : `, ${plain(test.df, 1)} degrees of freedom`}.`,
  ];
  return { says, numbers };
};

const named = (compared: readonly AnalyteCompared[]): string => list(compared.map((a) => analyteInSentence(a.analyte)));
const verdictOn = ({ outcome }: AnalyteCompared): Equivalence["verdict"] =>
  outcome.kind === "answer" ? outcome.value.verdict : "not enough data";

export const isAlike = (compared: AnalyteCompared): boolean => verdictOn(compared) === "may be sampled together next time";

/** What keeps two areas from being called alike: results, of which more may come, or a limit, without which none help. */
const openWords = (analytes: readonly AnalyteCompared[]): string => {
  const open = analytes.filter((a) => verdictOn(a) === "not enough data");
  const [unlimited, unsettled] = [open.filter((a) => a.lacks), open.filter((a) => !a.lacks)];
  if (unsettled.length === 0)
    return `no limit is known by which to call them alike in ${named(unlimited)}. More bags would not change that, a limit of your own would.`;
  const limits = unlimited.length === 0 ? "" : `, and no limit is known for ${named(unlimited)}`;
  return `there is not enough data on ${named(unsettled)} to call them alike${limits}.`;
};

/** The answer over every analyte. `byClass`: both areas surely have one class by an analyte that is open or keeps them apart. */
export const areasWords = (compared: Outcome<AreasCompared>, names: Names, byClass = false): Words => {
  const both = `${names[0]} and ${names[1]}`;
  if (compared.kind === "noAnswer")
    return { says: `Whether ${both} may share a sample cannot be said, because ${compared.because}.`, numbers: [] };
  const { verdict, analytes } = compared.value;
  const apart = analytes.filter((a) => verdictOn(a) === "keep apart");
  const says =
    verdict === "may be sampled together next time"
      ? `${capital(both)} may be sampled together next time: they are alike in ${named(analytes)}.`
      : verdict === "keep apart"
        ? `Keep ${both} apart: they differ in ${named(apart)}.`
        : `Keep ${both} apart for now: ${openWords(analytes)}`;
  const lacking = analytes.flatMap(({ lacks }) => lacks ?? []);
  const numbers = [
    ...(verdict === "may be sampled together next time"
      ? ["To keep one history of merged zones, let both end on the day of that sampling and a new one begin; npm run redraw writes it."]
      : []),
    ...(lacking.length > 0 ? [`To set one, extend soil-variability in a guideline of your own: ${list(lacking)}.`] : []),
    ...(byClass
      ? ["Where you farm by the class alone, you may set a wider limit: extend soil-variability in a guideline of your own."]
      : []),
    "A rule of thumb in statistics, not a published rule for merging areas: none was found.",
    ...compared.cautions,
  ];
  return { says, numbers };
};
