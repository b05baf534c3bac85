import type { Outcome } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import { tQuantile } from "./distributions.ts";

/** What a place's result changed by since the one before it, in the analyte's unit. */
export interface PlaceChange {
  readonly change: number;
  /** Of that change, by noise alone; 0 where no noise is known. */
  readonly sd: number;
}

/** A move of many places at once: of a laboratory's run, of a year, or of what was done everywhere. */
export interface CommonShift {
  readonly places: number;
  readonly mean: number;
  /** Places that went the way of the mean. */
  readonly along: number;
  /** What chance alone keeps the mean within. */
  readonly least: number;
  readonly beyondChance: boolean;
}

/** With three, Student's t asks for a move that hardly any run makes. */
export const fewestPlaces = 4;

/** Changes that are listed one by one; of more, their sum is told. */
const mostListed = 12;

/**
 * Did places move together? The paired t test of their changes (NIST/SEMATECH e-Handbook of Statistical Methods, 7.3.1.1), at the share of
 * 5 % that each of `tests` looked at in one go may have. Two things keep rounded results from agreeing by
 * luck: the changes are taken to stray by no less than noise makes them, and half of the last printed place, `step`, is added.
 */
export const commonShift = (changes: readonly PlaceChange[], tests: number, step = 0): Outcome<CommonShift> => {
  const places = changes.length;
  if (places < fewestPlaces)
    return noAnswer(`fewer than ${fewestPlaces} zones can be set beside what was found before`, [`${fewestPlaces} zones`]);
  const mean = changes.reduce((sum, c) => sum + c.change, 0) / places;
  const seen = Math.sqrt(changes.reduce((sum, c) => sum + (c.change - mean) ** 2, 0) / (places - 1));
  const noise = Math.sqrt(changes.reduce((sum, c) => sum + c.sd ** 2, 0) / places);
  const sd = Math.max(seen, noise);
  const factor = tQuantile(1 - 0.05 / tests / 2, places - 1);
  const least = (factor * sd) / Math.sqrt(places) + step / 2;
  const along = changes.filter((c) => c.change * mean > 0).length;
  return answer({ places, mean, along, least, beyondChance: Math.abs(mean) > least }, [
    {
      what: "Mean of the zones' changes",
      expression: `${places > mostListed ? plain(mean * places) : `sum of ${changes.map((c) => plain(c.change)).join(", ")}`} ÷ ${places}`,
      result: plain(mean),
    },
    {
      what: "Standard deviation of a zone's change",
      result: plain(sd),
      note: seen >= noise ? "as the changes differ from one another" : `by noise; the changes differ by less, ${plain(seen)}`,
    },
    {
      what: "What chance keeps the mean within",
      expression: `${plain(factor)} × ${plain(sd)} ÷ √${places}${step === 0 ? "" : ` + ${plain(step / 2, 4)}`}`,
      result: plain(least),
      source: { reference: "nist-paired-observations" },
      evidence: "read",
      note: `Student's t of ${places} zones${tests === 1 ? "" : `, at 5 in 100 divided by ${tests}, since ${tests} tests are looked at`}${step === 0 ? "" : "; half of the last printed place is added, because the results are rounded"}`,
    },
  ]);
};
