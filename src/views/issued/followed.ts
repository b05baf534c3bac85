import { seasonsWithin } from "../../interpretation/balance/balance.ts";
import { whyNotComparable } from "../../interpretation/comparable.ts";
import { broughtByManure } from "../../interpretation/manure.ts";
import type { Measurement } from "../../interpretation/measurement.ts";
import { measurementLabel, numberLabel } from "../../interpretation/measurement.ts";
import { plain, round } from "../../interpretation/show.ts";
import type { Amount, RateUnit } from "../../interpretation/units.ts";
import { convert, oxidePerElement } from "../../interpretation/units.ts";
import type { AnalyteId, NutrientId } from "../../interpretation/vocabulary.ts";
import { analytes, analyteInSentence, nutrientIds } from "../../interpretation/vocabulary.ts";
import type { Application, Farm, Field, Recommendation, Sampling } from "../../records/model.ts";
import type { FrozenAnswer, FrozenZone } from "../../records/schemas/recommendation.ts";
import { appliedWords, fertilizerPounds } from "../advice/appliedRate.ts";
import { isAnswered } from "../results/awaited.ts";
import { inputsIn } from "./frozenInputs.ts";
import { harvestsBetween } from "./harvestsBetween.ts";
import { zoneMeasurements } from "../results/zoneMeasurements.ts";
import { limeRate, fineRate } from "../units.ts";
import { list, longDate, numberWord } from "../words.ts";
import { onGroundOf } from "../zonesThen.ts";
import type { SpreadOn } from "./spreadOn.ts";
import { spreadOn } from "./spreadOn.ts";

/** What the next test of the same soil said. */
export interface NextTest {
  /** "Soil pH 6.2, then 6.6 on 20 October 2020", or why nothing can be said. */
  readonly text: string;
  /** The later value less the earlier, both as shown; absent where there is no comparable later number. */
  readonly change?: number | undefined;
}

/**
 * How far advice was followed, for counting. Not judged are `open`: more may still be spread; `over crops`: advice for one crop, and several
 * were harvested; `apart`: parts of the ground were not spread alike; and `unrecorded`: a season is missing.
 */
export type FollowedKind = "followed" | "more" | "in part" | "not" | "open" | "over crops" | "apart" | "unrecorded" | "no rate";

/** One nutrient, or lime: advised, applied, and tested again. */
export interface FollowedRow {
  readonly subject: string;
  readonly kind: FollowedKind;
  readonly advised: string;
  readonly applied: string;
  /** What was spread and when; empty where nothing was. */
  readonly spread: string;
  readonly verdict: string;
  readonly next: NextTest | undefined;
}

export interface Followed {
  readonly zone: FrozenZone;
  /** "From 25 July 2019 to the next sampling, 20 October 2020; harvested in that time: alfalfa 2020." */
  readonly period: string;
  readonly rows: readonly FollowedRow[];
}

const analyteOf: Partial<Record<NutrientId, AnalyteId>> = { P2O5: "P", K2O: "K", MgO: "Mg", Na2O: "Na" };

/** lb/ac of a nutrient in one application; manure by all that it holds, whenever it is released. */
const supplied = (application: Application, nutrient: NutrientId): number => {
  const { fertilizer, brings, manure } = application.product;
  if (fertilizer ?? brings) return fertilizerPounds(application, nutrient);
  if (!manure) return 0;
  if (nutrient === "P") return supplied(application, "P2O5") / oxidePerElement.P2O5;
  if (nutrient === "K") return supplied(application, "K2O") / oxidePerElement.K2O;
  return nutrient === "N" || nutrient === "P2O5" || nutrient === "K2O" ? broughtByManure(application, manure, nutrient).value : 0;
};

const sum = (numbers: readonly number[]): number => numbers.reduce((total, n) => total + n, 0);

/** The rate as computed when it was issued; `undefined` where there was none. */
const advisedRate = ({ figures }: FrozenAnswer): Amount<RateUnit> | undefined => {
  const { value, unit } = figures ?? {};
  return typeof value === "number" && typeof unit === "string" ? { value, unit: unit as RateUnit } : undefined;
};

/** A number as it is shown, read back. */
const number = (text: string): number => Number(text.replaceAll(",", ""));

interface Compared {
  readonly advised: number | undefined;
  /** The upper end of a rate that was advised as a range. */
  readonly most: number | undefined;
  readonly applied: number;
  readonly unit: string;
  /** Crops harvested in the time; advice of nutrients is for one. */
  readonly crops: number;
  /** Seasons of the time without a record: more may have been applied in them. */
  readonly missing: readonly number[];
  /** More was spread on a part of the ground alone. */
  readonly apart: boolean;
  /** What was advised may still be spread. */
  readonly open: boolean;
}

/** The time from the day of issue to the next sampling, if there was one. */
interface Time extends Pick<Compared, "crops" | "missing"> {
  readonly sampled: boolean;
}

interface Verdict {
  readonly kind: FollowedKind;
  readonly words: string;
}

/** Amounts are compared as a person reads them: rounded as shown. */
const verdictOf = ({ advised, most = advised, applied, unit, crops: harvested, missing, apart, open }: Compared): Verdict => {
  if (missing.length > 0 && most !== undefined && applied <= most)
    return { kind: "unrecorded", words: `cannot be told: ${notRecorded(missing)}` };
  if (apart && most !== undefined && applied <= most)
    return { kind: "apart", words: "cannot be told: the parts of its ground were not spread alike" };
  if (advised === undefined || most === undefined) {
    if (applied > 0) return { kind: "no rate", words: "applied without a rate advised" };
    return { kind: "no rate", words: `no rate was advised${missing.length > 0 ? "" : ", and none applied"}` };
  }
  if (most === 0 && applied > 0) return { kind: "more", words: "more than advised: none was called for" };
  if (most === 0)
    return open
      ? { kind: "open", words: "open: none was called for, and none applied so far" }
      : { kind: "followed", words: "followed: none was called for, and none applied" };
  if (applied === 0 && open) return { kind: "open", words: "open: none applied so far" };
  if (applied === 0)
    return advised === 0
      ? { kind: "followed", words: "followed: none had to be applied" }
      : { kind: "not", words: "not followed: none applied" };
  const difference = `${plain(applied > most ? applied - most : advised - applied, 1)} ${unit}`;
  if (harvested > 1) {
    const against = applied > most ? `${difference} more than` : applied < advised ? `${difference} less than` : "as much as";
    return { kind: "over crops", words: `${against} advised for one crop, over ${numberWord(harvested)} crops` };
  }
  if (applied > most) return { kind: "more", words: `followed, with ${difference} more than advised` };
  if (applied < advised && open) return { kind: "open", words: `open: ${difference} less than advised so far` };
  return applied < advised
    ? { kind: "in part", words: `followed in part: ${difference} less than advised` }
    : { kind: "followed", words: "followed" };
};

const notRecorded = (seasons: readonly number[]): string =>
  `${seasons.length === 1 ? "season" : "seasons"} ${list(seasons.map(String))} ${seasons.length === 1 ? "is" : "are"} not recorded`;

const spreadWords = (applications: readonly Application[]): string => list(applications.map(appliedWords));

/** The test of then, the same one as the records have it now, and the later ones. */
interface Tests {
  readonly then: readonly Measurement[];
  readonly corrected: readonly Measurement[];
  readonly later: readonly Measurement[];
}

const nextTest = (analyte: AnalyteId | undefined, { then, corrected, later }: Tests): NextTest | undefined => {
  if (analyte === undefined) return undefined;
  const was = then.find((m) => m.analyte === analyte);
  if (!was) return { text: `${analyteInSentence(analyte)} was not tested then` };
  const right = corrected.find((m) => m.analyte === analyte && m.method === was.method) ?? was;
  const tests = later.filter((m) => m.analyte === analyte);
  if (tests.length === 0) return { text: `${analyteInSentence(analyte)} has not been tested again` };
  const is = tests.find((m) => whyNotComparable(right, m) === undefined);
  if (!is)
    return { text: `${analyteInSentence(analyte)} was tested again, and cannot be compared: ${whyNotComparable(right, tests[0]!)!}` };
  // The difference of the numbers as they are shown, so that a reader who subtracts finds the same.
  const change = right.qualifier || is.qualifier ? undefined : round(number(numberLabel(is)) - number(numberLabel(right)), 3);
  const since = right.value === was.value ? "" : `, corrected since to ${measurementLabel(right)}`;
  const moved = change === undefined ? "" : change === 0 ? " (no change)" : ` (${change > 0 ? "+" : ""}${plain(change)})`;
  return {
    text: `${analytes[analyte].label} ${measurementLabel(was)} then${since}; ${measurementLabel(is)} on ${longDate(is.date)}${moved}`,
    change,
  };
};

/**
 * What was spread on each zone from the day of issue up to the next routine sampling, against what was advised, and what
 * the next comparable tests said. Whether a change is more than the noise between two bags is not judged here.
 */
export const followed = ({ record }: Recommendation, farm: Farm, field: Field): Followed[] =>
  record.zones.map((zone): Followed => {
    const since = field.samplings.filter((s) => s.date > record.sampling.date && s.date >= record.issued && s.purpose !== "nitrate");
    const later = since.filter((s) => isAnswered(s, zone.zone));
    const sampled = field.samplings.find((s) => s.id === record.sampling.id);
    const tests: Tests = {
      then: inputsIn(zone).results,
      corrected: sampled ? zoneMeasurements(sampled, zone.zone) : [],
      later: later.flatMap((s) => zoneMeasurements(s, zone.zone)),
    };
    // Of a zone that was drawn anew, what was done on all of its ground counts; the tests of others are not its own.
    const end = since.find((s) => s.purpose === "routine" && onGroundOf(field, zone.zone, answeredZones(s)));
    const within = (date: string): boolean => date >= record.issued && (!end || date <= end.date);
    const loads = spreadOn(field, zone.zone, within);
    const until = end?.date ?? farm.today;
    const { taken, undated } = harvestsBetween(field, zone.zone, record.issued, until);
    const time: Time = {
      crops: taken.length,
      missing: seasonsWithin(record.issued, until).filter((year) => !field.seasons.some((s) => s.season === year)),
      sampled: end !== undefined,
    };
    const harvested = taken.length > 0 ? `Harvested in that time: ${list(taken)}.` : "No harvest is recorded in that time.";
    const unsure = undated.length > 0 ? ` The day of the harvest of ${list(undated)} is not recorded.` : "";
    const span = end ? `to the next sampling, ${longDate(end.date)}` : `to ${longDate(farm.today)}; it has not been sampled again`;
    const rows = zone.answers.flatMap((answer): FollowedRow[] => {
      if (answer.question === "lime") return [limeRow(answer, loads, tests, record.units, time)];
      const nutrient =
        answer.kind === "rate" || answer.kind === "nitrogen" ? nutrientIds.find((id) => id.toLowerCase() === answer.question) : undefined;
      return nutrient ? [nutrientRow(answer, nutrient, loads, tests, record.units, time)] : [];
    });
    return { zone, period: `From ${longDate(record.issued)} ${span}. ${harvested}${unsure}`, rows };
  });

const answeredZones = (s: Sampling): string[] => s.composites.map((c) => c.zone).filter((id) => isAnswered(s, id));

const limeRow = (
  answer: FrozenAnswer,
  { whole, apart }: SpreadOn,
  tests: Tests,
  units: Farm["units"],
  { missing, sampled }: Time,
): FollowedRow => {
  const isLime = (a: Application): boolean => a.product.lime !== undefined;
  const limes = whole.filter(isLime);
  const rate = advisedRate(answer);
  const applied = limeRate({ value: sum(limes.map((a) => convert(a.rate.value, a.rate.unit, "ton/ac"))), unit: "ton/ac" }, units);
  const advised = rate && limeRate(rate, units);
  const others = limes.filter((a) => a.product.id !== answer.figures?.["material"]);
  const verdict = verdictOf({
    advised: advised && number(advised.value),
    most: undefined,
    applied: number(applied.value),
    unit: applied.unit,
    crops: 1,
    missing,
    apart: apart.some(isLime),
    open: !sampled,
  });
  return {
    subject: "Lime",
    advised: advised ? (answer.shown ?? `${advised.value} ${advised.unit}`) : "no rate",
    applied: limes.length === 0 ? `0 ${applied.unit}` : `${applied.value} ${applied.unit}`,
    spread: spreadWords([...limes, ...apart.filter(isLime)]),
    kind: verdict.kind,
    verdict:
      others.length > 0 && rate !== undefined && rate.value > 0
        ? `${verdict.words}; some of it was another material than advised`
        : verdict.words,
    next: nextTest("pH", tests),
  };
};

const nutrientRow = (
  answer: FrozenAnswer,
  nutrient: NutrientId,
  { whole, apart }: SpreadOn,
  tests: Tests,
  units: Farm["units"],
  time: Time,
): FollowedRow => {
  const holds = (a: Application): boolean => supplied(a, nutrient) > 0;
  const holding = whole.filter(holds);
  const rate = advisedRate(answer);
  const applied = fineRate({ value: sum(holding.map((a) => supplied(a, nutrient))), unit: "lb/ac" }, units);
  const advised = rate && fineRate(rate, units);
  const to = answer.figures?.["to"];
  const most = rate && typeof to === "number" ? fineRate({ ...rate, value: to }, units) : undefined;
  const verdict = verdictOf({
    advised: advised && number(advised.value),
    most: most && number(most.value),
    applied: number(applied.value),
    unit: applied.unit,
    ...time,
    apart: apart.some(holds),
    open: !time.sampled && time.crops === 0,
  });
  return {
    subject: answer.subject,
    advised: rate ? (answer.shown ?? "no rate") : "no rate",
    applied: `${applied.value} ${applied.unit}`,
    spread: spreadWords([...holding, ...apart.filter(holds)]),
    kind: verdict.kind,
    verdict: verdict.words,
    next: nextTest(analyteOf[nutrient] ?? (nutrient in analytes ? (nutrient as AnalyteId) : undefined), tests),
  };
};
