import type { Outcome } from "../../interpretation/outcome.ts";
import { amountLabel, withUnit } from "../../interpretation/measurement.ts";
import { plain } from "../../interpretation/show.ts";
import type { Change } from "../../interpretation/statistics/change.ts";
import type { MoreSamplings } from "../../interpretation/statistics/moreSamplings.ts";
import type { JudgedTrend, Trend } from "../../interpretation/statistics/trend.ts";
import type { AnalyteId, SoilTestUnit } from "../../interpretation/vocabulary.ts";
import { analyteInSentence, analytes } from "../../interpretation/vocabulary.ts";
import { capital, count, list, numberWord } from "../words.ts";

export interface Words {
  /** What it comes to, in a farmer's words. */
  readonly says: string;
  /** The numbers behind it, for who wants to check. */
  readonly numbers: readonly string[];
}

export interface Measured {
  readonly analyte: AnalyteId;
  readonly unit: SoilTestUnit;
}

/** "24 ppm", "6.3": a value of the analyte with its unit. */
export const amount = (value: number, { analyte, unit }: Measured): string => withUnit(amountLabel(analyte, value), unit);

/** A difference with its unit: that of two indices is one of points. */
const differenceWithUnit = (number: string, unit: SoilTestUnit): string =>
  unit === "index" ? `${number} index points` : withUnit(number, unit);

/** A difference is shown one place finer than a result, so that a small one does not vanish. */
export const signed = (value: number, { analyte, unit }: Measured, places = analytes[analyte].decimals + 1): string =>
  differenceWithUnit(plain(value, places), unit);

/** No place finer from ten on: of 25.4 ppm nobody asks after the 4. */
const placesOf = (value: number, { analyte }: Measured): number => analytes[analyte].decimals + (Math.abs(value) < 10 ? 1 : 0);
/** The same without its sign. */
export const finely = (value: number, what: Measured): string => signed(Math.abs(value), what, placesOf(value, what));

type Least = Pick<Change, "change" | "least">;
/** Places of the least change, beside the change that is told with it: one more where it would be shown as the same, since 0.4 is not more than 0.4. */
const leastPlaces = ({ change, least }: Least, what: Measured): number => {
  const usual = placesOf(least, what);
  return plain(least, usual) === plain(Math.abs(change), placesOf(change, what)) ? usual + 1 : usual;
};
export const leastBeside = (of: Least, what: Measured): string => signed(of.least, what, leastPlaces(of, what));
/** The same in a table whose change has the unit already. */
export const leastFigure = (of: Least, what: Measured): string => plain(of.least, leastPlaces(of, what));

/** "1 time in 93": a chance as one counts it. */
export const oneIn = (p: number): string =>
  p >= 0.5 ? "at least every other time" : p < 0.0005 ? "less than 1 time in 2,000" : `1 time in ${plain(1 / p, 0)}`;

const year = (x: number): string => String(Math.floor(x));

/** A pH moves so little in a year that ten are counted together; a slope below 1 has two places, or its limits would be those of "0 and 0.2". */
const signedPace = (slope: number, what: Measured): string =>
  what.unit === "pH"
    ? `${signed(slope * 10, what)} in ten years`
    : `${differenceWithUnit(plain(slope, Math.max(Math.abs(slope) < 1 ? 2 : 0, analytes[what.analyte].decimals + 1)), what.unit)} a year`;

/** ", by about 9 ppm a year"; of results that are mostly the same the middle slope is 0, and no pace is told. */
const pace = (slope: number, what: Measured): string => (slope === 0 ? "" : `, by about ${signedPace(Math.abs(slope), what)}`);

/** "p = 0.031", "p below 0.001". */
export const chance = (p: number): string => (p < 0.0005 ? "p below 0.001" : `p = ${plain(p, 3)}`);

/** The first and the newest result stand beside these words. */
const changeWords = (change: Outcome<Change>, { first, last }: Trend, since: string, what: Measured): string => {
  if (amount(first.y, what) === amount(last.y, what)) return `There is no change ${since}.`;
  if (change.kind === "noAnswer") return `Whether the change ${since} is more than noise cannot be said, because ${change.because}.`;
  const { beyondNoise, ofOneDay } = change.value;
  const least = leastBeside(change.value, what);
  return beyondNoise
    ? `The change ${since} is more than noise: two ${ofOneDay ? "bags of one day" : "samplings of an unchanged soil"} seldom differ by over ${least}.`
    : `The change ${since} may be noise: two samplings of an unchanged soil may differ by ${least}.`;
};

/** Years. */
const longestWait = 20;

const moreWords = (more: Outcome<MoreSamplings> | undefined, today = -Infinity): string | undefined => {
  if (more?.kind !== "answer") return undefined;
  const { more: wanted, interval, until } = more.value;
  // Such a slope is seen a hundred times as often where the soil changes as where it does not: that it did not show is no word against it.
  if (wanted === 0)
    return "The slope seen is more than such noise alone would often make, yet the results do not keep to it well enough to call it a trend: the soil may be changing, or results stray farther than reckoned.";
  // Nobody waits that long, or asks in which year: the sentence says how little there is to see instead of asking for more.
  if (wanted * interval > longestWait) return `So small a slope would take more than ${longestWait} years of sampling to show.`;
  // Counted on from the last sampling: where nothing was sampled for long, that year may lie behind.
  const when = until < today ? "" : `, until about ${plain(until, 0).replace(",", "")},`;
  const every = interval < 1.5 ? "" : ` about ${plain(interval, 0)} years apart`;
  return `If the slope seen is real, ${count(wanted, "more sampling")}${every}${when} would show it four times out of five.`;
};

const slopeNumbers = ({ slope, interval, mannKendall, leastSquares }: JudgedTrend, what: Measured): string[] => [
  `Slope ${signedPace(slope, what)}, 95 in 100 between ${signedPace(interval.from, what)} and ${signedPace(interval.to, what)} (Theil-Sen${interval.validity === "stated" ? "" : ", limits approximate with fewer than ten samplings"}).`,
  `If nothing changed, so strong a direction would come up ${oneIn(mannKendall.p)} (Mann-Kendall, ${mannKendall.method}, ${chance(mannKendall.p)}).`,
  ...(leastSquares ? [`By least squares the slope would be ${signedPace(leastSquares.slope, what)}.`] : []),
];

/** The day a trend is told of, in years; and whether its zone is none any more, so that nobody will sample it again. */
export interface Told {
  readonly today?: number;
  readonly ended?: boolean;
}

/** What a trend comes to, and the numbers behind it. */
export const trendWords = (trend: Outcome<Trend>, what: Measured, { today, ended = false }: Told = {}): Words => {
  if (trend.kind === "noAnswer") return { says: `No trend, because ${trend.because}.`, numbers: [] };
  const found = trend.value;
  const name = capital(analyteInSentence(what.analyte));
  const since = ended ? `from ${year(found.first.x)} to ${year(found.last.x)}` : `since ${year(found.first.x)}`;
  const more = ended || found.finding === "no variation" ? undefined : found.more;
  switch (found.finding) {
    case "no variation":
      return {
        says: `${name} was ${amount(found.first.y, what)} at ${found.samplings === 2 ? "both samplings" : `all ${count(found.samplings, "sampling")}`} ${since}: it did not vary.`,
        numbers: [],
      };
    case "too few samplings": {
      const says = `Too few samplings to tell a trend of ${analyteInSentence(what.analyte)}: ${numberWord(found.samplings)}${ended ? "" : " so far"}, and five are the fewest that can show one. ${changeWords(found.change, found, since, what)}`;
      return {
        says: [says, moreWords(more, today)].filter(Boolean).join(" "),
        numbers: [`Slope seen ${signedPace(found.slope, what)}; it is not yet told from chance.`],
      };
    }
    case "no detectable trend": {
      if (found.withinLaboratories !== undefined)
        return {
          says: `${name} ${ended ? "showed" : "shows"} no trend ${since} beyond the ${finely(found.withinLaboratories, what)} by which two laboratories may differ.`,
          numbers: slopeNumbers(found, what),
        };
      const says = `${name} ${ended ? "showed" : "shows"} no detectable trend ${since}, in ${count(found.samplings, "sampling")}. That does not prove it stood still.`;
      return { says: [says, moreWords(more, today)].filter(Boolean).join(" "), numbers: slopeNumbers(found, what) };
    }
    default:
      return {
        says: `${name} ${ended ? "was" : "is"} ${found.finding} ${since}${pace(found.slope, what)}.`,
        numbers: slopeNumbers(found, what),
      };
  }
};

/** The same as a phrase for a table that names the first year itself: "falling by about 9 ppm a year, in six samplings". */
export const trendPhrase = (trend: Outcome<Trend>, what: Measured): string => {
  if (trend.kind === "noAnswer") return `not known, because ${trend.because}`;
  const found = trend.value;
  const over = `in ${count(found.samplings, "sampling")}`;
  switch (found.finding) {
    case "no variation":
      return `did not vary ${over}`;
    case "too few samplings": {
      if (found.change.kind === "noAnswer") return `only ${count(found.samplings, "sampling")}, too few for a trend`;
      const { change, beyondNoise } = found.change.value;
      return beyondNoise
        ? `${change < 0 ? "fell" : "rose"} by ${finely(change, what)}, more than noise, ${over}`
        : `no change beyond noise, but only ${count(found.samplings, "sampling")}`;
    }
    case "no detectable trend":
      return found.withinLaboratories === undefined
        ? `no detectable trend ${over}`
        : `no trend beyond what laboratories differ by, ${over}`;
    default:
      return `${found.finding}${pace(found.slope, what).replace(",", "")}, ${over}`;
  }
};

/** A result whose true value may lie in the next class. `edges`: those within the noise of one result. */
export const edgeWords = (edges: readonly number[], what: Measured): string | undefined =>
  edges.length === 0
    ? undefined
    : `The class changes at ${list(edges.map((e) => amount(e, what)))}, within the noise of one sample: it could lie on either side.`;
