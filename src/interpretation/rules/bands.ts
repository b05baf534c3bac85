import * as z from "zod";
import type { Outcome, Source, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import type { Measurement } from "../measurement.ts";
import { boundWords, measurementLabel } from "../measurement.ts";
import { pH, plain, round } from "../show.ts";
import { analyteIds } from "../vocabulary.ts";
import { metLabel, conditionSteps, factStep, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { assumptionSteps, limits, outsideLimits } from "./limits.ts";
import { graded, provenance } from "./sourced.ts";
import type { Facts } from "./facts.ts";

/** Where a band stands against the one to be in; never judged by its name, since "high" is the target in some places. */
export const positions = ["below", "within", "above"] as const;
export type Position = (typeof positions)[number];

/** A band begins at `from` (its number included) or just above `above` (its number excluded); the first begins at the bottom. */
export const band = z
  .strictObject({
    name: z.string().min(1),
    position: z.enum(positions).optional().describe("absent: the classes describe and do not judge"),
    from: z.number().optional(),
    above: z.number().optional(),
  })
  .refine((b) => b.from === undefined || b.above === undefined, "has both from and above; keep one");
export type Band = z.infer<typeof band>;

const startOf = (b: Pick<Band, "from" | "above">): number => b.from ?? b.above ?? -Infinity;

export const ascending = (bands: readonly Pick<Band, "from" | "above">[]): boolean =>
  bands.every((b, i) => (i === 0 ? startOf(b) === -Infinity : startOf(b) > startOf(bands[i - 1]!)));

export const bandTable = z
  .strictObject({
    when: when.optional(),
    bands: z.array(band).min(2).refine(ascending, "must rise: the first band without from or above, each later one beginning higher"),
    ...provenance,
  })
  .check(graded);

/** An index worked out from the test and the soil pH in water, which the classes are then of: intercept + perUnit x test + perPh x pH. */
const testIndex = z
  .strictObject({ name: z.string().min(1), intercept: z.number(), perUnit: z.number().positive(), perPh: z.number(), ...provenance })
  .check(graded);

/** Rating by classes. */
export const bandsRule = z.strictObject({
  kind: z.literal("bands"),
  id: z.string(),
  analyte: z.enum(analyteIds),
  limits,
  roundTo: z
    .number()
    .int()
    .min(0)
    .optional()
    .describe("decimals the result is rounded to before it is classed, for classes printed in whole numbers with gaps between"),
  index: testIndex.optional().describe("where the classes are of an index and not of the test itself"),
  tables: z.array(bandTable).min(1),
});
export type BandsRule = z.infer<typeof bandsRule>;

export interface Rating {
  readonly band: string;
  readonly position: Position | undefined;
  /** Rank from the lowest band, 0, up. */
  readonly rank: number;
}

/**
 * The band a number falls in. `bands` must rise. With `roundTo`, the number is first rounded to that many decimals.
 * A number on an edge belongs to the band that begins there with `from`, and to the one below where it begins with `above`.
 */
export const bandOf = (value: number, bands: readonly Band[], roundTo?: number): Rating => {
  const read = roundTo === undefined ? value : round(value, roundTo);
  return ratingAt(
    bands,
    bands.findLastIndex((b) => (b.above === undefined ? read >= startOf(b) : read > b.above)),
  );
};

const ratingAt = (bands: readonly Band[], rank: number): Rating => ({
  band: bands[rank]!.name,
  position: bands[rank]!.position,
  rank,
});

/**
 * The band of a laboratory result, or none. "< 3" has a band only when everything below 3 lies in the lowest one;
 * "> 200" only when 200 lies in the highest.
 */
export const bandOfMeasurement = (
  m: Pick<Measurement, "value" | "qualifier">,
  bands: readonly Band[],
  roundTo?: number,
): Rating | undefined => {
  // What is rounded before it is classed can round up into the next class from half a unit below.
  const half = roundTo === undefined ? 0 : 0.5 / 10 ** roundTo;
  if (m.qualifier === "<") return m.value <= startOf(bands[1]!) - half ? ratingAt(bands, 0) : undefined;
  if (m.qualifier === ">") return m.value >= startOf(bands.at(-1)!) ? ratingAt(bands, bands.length - 1) : undefined;
  return bandOf(m.value, bands, roundTo);
};

/** The class's own note, and that the result was rounded before it was classed, where that changed it. */
export const classNote = (
  m: Pick<Measurement, "value" | "qualifier">,
  roundTo: number | undefined,
  note: string | undefined,
): { note?: string } => {
  const read = roundTo === undefined || m.qualifier ? m.value : round(m.value, roundTo);
  const notes = [read !== m.value && `read as ${plain(read)}, since the printed classes leave gaps between them`, note].filter(Boolean);
  return notes.length > 0 ? { note: notes.join("; ") } : {};
};

/** "low, optimum (from 16), high (above 20)"; a class that is called by its numbers, such as "16 to 20 ppm", needs no edge beside them. */
export const edgeLabel = (bands: readonly Band[]): string =>
  bands
    .map((b) => {
      const edge = b.from ?? b.above;
      if (edge === undefined || /\d/.test(b.name)) return b.name;
      return `${b.name} (${b.from !== undefined ? "from" : "above"} ${plain(edge)})`;
    })
    .join(", ");

/** The result itself, as the first line of every sum; a mean shows the bags it was taken of. */
export const resultStep = (m: Measurement, what: string): Step => {
  if (!m.bags && !m.correction) return { what, result: measurementLabel(m), source: { record: m.origin } };
  const notes = [
    ...(m.bags ?? []).slice(1).map((bag) => `another bag: ${bag.origin.file}:${bag.origin.line}`),
    ...[m, ...(m.bags ?? [])].flatMap(({ correction }) =>
      correction ? [`corrected from ${plain(correction.was)}: ${correction.reason}`] : [],
    ),
  ];
  return {
    what: m.bags ? `${what}, mean of ${m.bags.length} bags` : what,
    ...(m.bags && {
      expression: `(${m.bags.map((bag) => `${bag.qualifier ? `${bag.qualifier} ` : ""}${plain(bag.value)}`).join(" + ")}) ÷ ${m.bags.length}`,
    }),
    result: measurementLabel(m),
    source: { record: m.origin },
    ...(notes.length > 0 && { note: notes.join("; ") }),
  };
};

/** What the classes are of: the test itself, or the rule's index of it. The index rises with the test, so a bound stays a bound. */
const indexOf = (rule: BandsRule, m: Measurement, facts: Facts): Outcome<number> => {
  const { index } = rule;
  if (!index) return answer(m.value, []);
  if (facts.soilPh === undefined) return noAnswer(`the soil pH in water is not known, and the ${index.name} depends on it`, ["soilPh"]);
  const value = index.intercept + index.perUnit * m.value + index.perPh * facts.soilPh;
  return answer(value, [
    factStep("soilPh", facts),
    {
      what: `${index.name[0]!.toUpperCase()}${index.name.slice(1)}`,
      expression: `${plain(index.intercept)} + ${plain(index.perUnit)} × ${plain(m.value)} ${index.perPh < 0 ? "−" : "+"} ${plain(Math.abs(index.perPh))} × ${pH(facts.soilPh)}`,
      result: `${m.qualifier ? `${m.qualifier} ` : ""}${plain(value, 1)}`,
      source: index.source,
      evidence: index.evidence,
      note: index.note,
    },
  ]);
};

/**
 * Rate a result by a guideline's classes.
 * No answer outside the rule's limits, where a fact that decides the table is missing, or where a "<" result spans bands.
 */
export const rateByBands = (rule: BandsRule, m: Measurement, facts: Facts, pack: string): Outcome<Rating> => {
  const outside = outsideLimits(rule.limits, m, facts.crop, pack);
  if (outside) return outside;
  const table = firstMatch(rule.tables, facts);
  if (!table.found)
    return table.missing
      ? noAnswer(`${missingFactLabel(table.missing)} is not known`, [table.missing])
      : noAnswer(`${pack} has no classes for this soil or crop`, ["a guideline for this soil and crop"]);
  const read = indexOf(rule, m, facts);
  if (read.kind === "noAnswer") return read;
  const rating = bandOfMeasurement({ value: read.value, qualifier: m.qualifier }, table.found.bands, rule.roundTo);
  if (!rating) return noAnswer(`${boundWords(m)}, which spans more than one class`, [`${m.analyte} as a number`]);
  const condition = metLabel(table.found.when, facts);
  const source: Source = table.found.source;
  return answer(rating, [
    resultStep(m, "Laboratory result"),
    ...assumptionSteps(rule.limits, m),
    ...conditionSteps(table.found.when, facts),
    ...read.steps,
    {
      what: condition ? `Classes for ${condition}` : "Classes",
      expression: edgeLabel(table.found.bands),
      result: rating.band,
      source,
      evidence: table.found.evidence,
      ...classNote({ value: read.value, qualifier: m.qualifier }, rule.roundTo, table.found.note),
    },
  ]);
};
