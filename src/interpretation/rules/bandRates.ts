import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import { boundWords, measurementLabel } from "../measurement.ts";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { plain } from "../show.ts";
import type { RateUnit } from "../units.ts";
import { analyteIds, crops, nutrientIds, nutrients } from "../vocabulary.ts";
import type { Rating } from "./bands.ts";
import { ascending, bandOfMeasurement, classNote, edgeLabel, positions, resultStep } from "./bands.ts";
import { metLabel, conditionSteps, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { assumptionSteps, limits, outsideLimits } from "./limits.ts";
import type { NutrientRate, RatePlace } from "./nutrientRate.ts";
import { cropRemoval } from "./removal.ts";
import { yieldFor } from "./removalCoefficient.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";
import type { Facts } from "./facts.ts";

const amount = z.number().nonnegative();

const rate = z.union([
  amount,
  z.tuple([amount, amount]).refine(([from, to]) => from < to, "must rise: [20, 40]"),
  z.literal("removal").describe("what the crop takes away"),
]);

const rateClass = z
  .strictObject({
    name: z.string().min(1),
    position: z.enum(positions).optional(),
    from: z.number().optional(),
    above: z.number().optional(),
    rate: rate.optional().describe("absent: the class is known and its rate is not, so there is no answer in it"),
    because: z.string().min(1).optional().describe("why a class has no rate, as a clause after “and”; absent: the rate was not found"),
  })
  .refine((b) => b.from === undefined || b.above === undefined, "has both from and above; keep one")
  .refine((b) => b.rate === undefined || b.because === undefined, "says why there is no rate, and has one");
type RateClass = z.infer<typeof rateClass>;

/** The least and the most a class asks for; nothing is known of removal before the yield is. */
const bounds = ({ rate: r }: RateClass): [number, number] | undefined =>
  typeof r === "number" ? [r, r] : Array.isArray(r) ? r : undefined;

const falling = (classes: readonly RateClass[]): boolean => {
  const known = classes.flatMap((c) => bounds(c) ?? []);
  const lows = known.filter((_, i) => i % 2 === 0);
  const highs = known.filter((_, i) => i % 2 === 1);
  return [lows, highs].every((each) => each.every((n, i) => i === 0 || n <= each[i - 1]!));
};

const rateTable = z
  .strictObject({
    when: when.optional(),
    classes: z
      .array(rateClass)
      .min(2)
      .refine(ascending, "must rise: the first class without from or above, each later one beginning higher")
      .refine(falling, "must not ask for more at a higher test"),
    ...provenance,
  })
  .check(graded);

/** A rate for each class of a soil test, by crop and soil. The classes begin as those of `bands` do. */
export const bandRatesRule = z
  .strictObject({
    kind: z.literal("bandRates"),
    id: z.string(),
    analyte: z.enum(analyteIds),
    nutrient: z.enum(nutrientIds),
    limits,
    unit: z.enum(["lb/ac", "kg/ha", "lb/1000 sq ft", "lb per unit of yield"]),
    roundTo: z
      .number()
      .int()
      .min(0)
      .optional()
      .describe("decimals the result is rounded to before it is classed, for classes printed in whole numbers with gaps between"),
    poundsPerPpm: sourcedNumber
      .optional()
      .describe(
        "lb/ac in one ppm, where the publication prints it for its own depth: a result in ppm is then read by it; absent, one in ppm has no answer",
      ),
    tables: z.array(rateTable).min(1),
  })
  .refine(
    (r) => r.poundsPerPpm === undefined || r.limits.unit === "lb/ac",
    "poundsPerPpm turns ppm into lb/ac; the limits' unit must be lb/ac",
  )
  .refine(
    (r) => r.unit === "lb/ac" || !r.tables.some((t) => t.classes.some((c) => c.rate === "removal")),
    "removal is in lb/ac; the rule's unit must be too",
  );
export type BandRatesRule = z.infer<typeof bandRatesRule>;
type RateTable = BandRatesRule["tables"][number];

/** The table that holds for a place, or why none does. */
export const rateTableFor = (rule: BandRatesRule, facts: Facts, pack: string): Outcome<RateTable> => {
  const table = firstMatch(rule.tables, facts);
  if (table.found) return answer(table.found, []);
  return table.missing
    ? noAnswer(`${missingFactLabel(table.missing)} is not known, and ${pack} sets the rates by it`, [table.missing])
    : noAnswer(`${pack} has no rates for this soil or crop`, ["a guideline for this soil and crop"]);
};

/** The result in the rule's own unit: one in ppm becomes lb/ac by the factor the publication prints, and by no other. */
const inOwnUnit = ({ poundsPerPpm: by }: BandRatesRule, m: Measurement): { read: Measurement; steps: Step[] } => {
  if (m.unit !== "ppm" || !by) return { read: m, steps: [] };
  const read: Measurement = { ...m, value: m.value * by.value, unit: "lb/ac" };
  return {
    read,
    steps: [
      {
        what: "In lb/ac, as the publication counts",
        expression: `${plain(m.value)} × ${plain(by.value)}`,
        result: measurementLabel({ ...read, bags: undefined }),
        source: by.source,
        evidence: by.evidence,
        note: by.note,
      },
    ],
  };
};

/**
 * Rate a result by the rule's classes. Test units in, class out. Edges as in `bands`. Where the publication prints how many
 * lb/ac are in a ppm, a result in ppm is read by it.
 * No answer outside the limits, where a fact that decides the table is missing, or where a "<" spans classes.
 */
export const classByBandRates = (rule: BandRatesRule, m: Measurement, facts: Facts, pack: string): Outcome<Rating> => {
  const { read, steps } = inOwnUnit(rule, m);
  const outside = outsideLimits(rule.limits, read, facts.crop, pack);
  if (outside) return outside;
  const table = rateTableFor(rule, facts, pack);
  if (table.kind === "noAnswer") return table;
  const { when: condition, classes, source, evidence, note } = table.value;
  const rating = bandOfMeasurement(read, classes, rule.roundTo);
  if (!rating) return noAnswer(`${boundWords(m)}, which spans more than one class`, [`${m.analyte} as a number`]);
  const label = metLabel(condition, facts);
  return answer(rating, [
    resultStep(m, "Laboratory result"),
    ...steps,
    ...assumptionSteps(rule.limits, m),
    ...conditionSteps(condition, facts),
    {
      what: label ? `Classes for ${label}` : "Classes",
      expression: edgeLabel(classes),
      result: rating.band,
      source,
      evidence,
      ...classNote(read, rule.roundTo, note),
    },
  ]);
};

/**
 * The rate of the class a result falls in: a number, a range, or what the crop removes. In the rule's unit; a rate per unit
 * of yield is multiplied by the yield goal into lb/ac. Of a range, `rate` is the lower end and `to` the upper: sums and
 * products are worked with the lower, so that no more is bought than the publication asks of every field.
 * No answer outside the limits, in a class whose rate is not known, and without a yield goal where the rate needs one.
 */
export const rateByBandRates = (rule: BandRatesRule, m: Measurement, place: RatePlace): Outcome<NutrientRate> => {
  const { facts, pack } = place;
  const rated = classByBandRates(rule, m, facts, pack);
  if (rated.kind === "noAnswer") return rated;
  const table = rateTableFor(rule, facts, pack);
  if (table.kind === "noAnswer") return table;
  const { classes, source, evidence } = table.value;
  const chosen = classes[rated.value.rank]!;
  const { symbol } = nutrients[rule.nutrient];
  const rating = rated.value;
  if (chosen.rate === undefined)
    return noAnswer(
      `a result of ${measurementLabel(m)} is in the class “${chosen.name}”, and ${chosen.because ?? `what ${pack} gives there was not found`}`,
      [`the rate of ${pack} in the class “${chosen.name}”`],
    );
  if (chosen.rate === "removal") {
    if (!facts.crop) return noAnswer("no crop is planned", ["crop"]);
    if (!place.yieldGoal) return noAnswer("no yield goal is set, and the rate replaces what the crop removes", ["yieldGoal"]);
    if (!place.removal) return noAnswer(`${pack} holds no removal table`, ["removal"]);
    const removed = cropRemoval(place.removal, facts.crop, rule.nutrient, place.yieldGoal, pack, facts.origins?.yieldGoal);
    if (removed.kind === "noAnswer") return removed;
    const last: Step = {
      what: `Rate for ${chosen.name}: replace what the crop removes`,
      result: `${plain(removed.value, 1)} lb ${symbol}/ac`,
      source,
      evidence,
    };
    return answer({ rate: { value: removed.value, unit: "lb/ac" }, rating }, [...rated.steps, ...removed.steps, last]);
  }
  const [from, to] = bounds(chosen)!;
  const span = (a: number, b: number): string => (a === b ? plain(a, 1) : `${plain(a, 1)} to ${plain(b, 1)}`);
  const read: Step = { what: `Rate for ${chosen.name}`, result: `${span(from, to)} ${rateUnitLabel(rule.unit, symbol)}`, source, evidence };
  const done = (a: number, b: number, unit: RateUnit, ...steps: Step[]): Outcome<NutrientRate> =>
    answer({ rate: { value: a, unit }, ...(b > a && { to: b }), rating }, [...rated.steps, read, ...steps]);
  if (rule.unit !== "lb per unit of yield") return done(from, to, rule.unit);
  if (!facts.crop) return noAnswer("no crop is planned", ["crop"]);
  if (to === 0) return done(0, 0, "lb/ac");
  if (!place.yieldGoal) return noAnswer("no yield goal is set, and the rate is for each unit of yield", ["yieldGoal"]);
  const goal = yieldFor(facts.crop, place.yieldGoal);
  if (typeof goal !== "number") return goal;
  const { yieldUnit, per } = crops[facts.crop];
  return done(
    from * goal,
    to * goal,
    "lb/ac",
    { what: "Yield goal", result: `${plain(goal)} ${yieldUnit}`, ...(facts.origins?.yieldGoal && { source: facts.origins.yieldGoal }) },
    {
      what: "Rate for the yield goal",
      expression: `${span(from, to)} lb per ${per} × ${plain(goal)} ${per}/ac`,
      result: `${span(from * goal, to * goal)} lb ${symbol}/ac`,
      source,
      evidence,
    },
  );
};

const rateUnitLabel = (unit: BandRatesRule["unit"], symbol: string): string =>
  unit === "lb per unit of yield" ? `lb ${symbol} per unit of yield` : `${unit} of ${symbol}`;
