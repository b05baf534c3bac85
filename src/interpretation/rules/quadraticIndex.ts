import * as z from "zod";
import type { Measurement } from "../measurement.ts";
import { boundWords } from "../measurement.ts";
import type { Outcome, Step } from "../outcome.ts";
import { answer, noAnswer } from "../outcome.ts";
import { belowZero, plain } from "../show.ts";
import { analyteIds, crops, nutrientIds, nutrients } from "../vocabulary.ts";
import { resultStep } from "./bands.ts";
import { conditionSteps, firstMatch, missingFactLabel, when } from "./conditions.ts";
import { assumptionSteps, limits, outsideLimits } from "./limits.ts";
import type { NutrientRate, RatePlace } from "./nutrientRate.ts";
import { graded, provenance, sourcedNumber } from "./sourced.ts";

/** rate = a x index² + b x index + c */
const equation = z
  .strictObject({
    number: z.number().int().positive().describe("the publication's own number"),
    a: z.number().positive(),
    b: z.number().negative(),
    c: z.number().positive(),
    unit: z.enum(["lb/ac", "lb/1000 sq ft"]),
  })
  .describe("a parabola that opens upward and falls at index 0");
export type QuadraticEquation = z.infer<typeof equation>;

const row = z.strictObject({ when: when.optional(), equation: z.number().int().positive(), ...provenance }).check(graded);

/** A nutrient rate by a parabola in a soil-test index, the equation chosen by crop and soil. */
export const quadraticIndexRule = z
  .strictObject({
    kind: z.literal("quadraticIndex"),
    id: z.string(),
    nutrient: z.enum(nutrientIds),
    analyte: z.enum(analyteIds),
    limits,
    equations: z.array(equation).min(1),
    spread: sourcedNumber.optional().describe("how far either side of the result the publication lets a rate lie"),
    rows: z.array(row).min(1),
    ...provenance,
  })
  .check(graded)
  .refine((r) => new Set(r.equations.map((e) => e.number)).size === r.equations.length, {
    path: ["equations"],
    error: "has one number twice",
  })
  .refine((r) => r.rows.every((each) => r.equations.some((e) => e.number === each.equation)), {
    path: ["rows"],
    error: "names an equation that is not in equations",
  });
export type QuadraticIndexRule = z.infer<typeof quadraticIndexRule>;

export interface CurveRead {
  readonly rate: number;
  /** What the bare equation gives, before it is kept above zero and short of its vertex. */
  readonly raw: number;
  /** The index at which the parabola turns, beyond which it would rise again. */
  readonly vertex: number;
}

/**
 * The rate an equation gives for an index, in the equation's unit: never below zero, and at and beyond the vertex the
 * vertex's own value, since past it the parabola would rise with the index.
 */
export const rateOnCurve = ({ a, b, c }: QuadraticEquation, index: number): CurveRead => {
  const at = (x: number): number => a * x * x + b * x + c;
  const vertex = -b / (2 * a);
  const rate = Number(at(Math.min(index, vertex)).toPrecision(12));
  // An equation that meets zero exactly leaves the computer's dust there.
  return { rate: rate < 1e-9 ? 0 : rate, raw: Number(at(index).toPrecision(12)), vertex };
};

/** The equation's number for a place, where the rule has one. */
const equationFor = (rule: QuadraticIndexRule, facts: RatePlace["facts"]) => firstMatch(rule.rows, facts);

/**
 * Rate in the equation's unit, from a result in the rule's index.
 * No answer outside the limits, for a crop without an equation, where the soil class that chooses the equation is not
 * known, or where the laboratory gives only a bound and the rate is not zero at it.
 */
export const rateByQuadraticIndex = (rule: QuadraticIndexRule, m: Measurement, { facts, pack }: RatePlace): Outcome<NutrientRate> => {
  const outside = outsideLimits(rule.limits, m, facts.crop, pack);
  if (outside) return outside;
  const chosen = equationFor(rule, facts);
  if (!chosen.found)
    return chosen.missing
      ? noAnswer(`${missingFactLabel(chosen.missing)} is not known, and ${pack} chooses the equation by it`, [chosen.missing])
      : noAnswer(`${pack} has no equation for ${facts.crop ? crops[facts.crop].label : "this place"}`, [
          `a guideline for ${facts.crop ? crops[facts.crop].label : "this place"}`,
        ]);
  const { found } = chosen;
  const used = rule.equations.find((e) => e.number === found.equation)!;
  const { rate, raw, vertex } = rateOnCurve(used, m.value);
  if (m.qualifier && !(m.qualifier === ">" && rate === 0))
    return noAnswer(`${boundWords(m)}, and the rate needs a number`, [`${m.analyte} as a number`]);
  const { symbol } = nutrients[rule.nutrient];
  const ofRow = { source: found.source, evidence: found.evidence, note: found.note };
  const past = m.value > vertex;
  const notes = [
    past && `past ${plain(vertex, 1)} the curve would rise again, so it is read there`,
    rule.spread && rate > 0 && `the publication lets the rate lie ${plain(rule.spread.value)} ${used.unit} either side`,
    rule.note,
  ].filter(Boolean);
  const x = past ? vertex : m.value;
  const bare = past ? rateOnCurve(used, vertex).raw : raw;
  const steps: Step[] = [
    resultStep(m, "Laboratory result"),
    ...assumptionSteps(rule.limits, m),
    ...conditionSteps(found.when, facts),
    { what: "Equation for this crop and soil", result: `number ${used.number}`, ...ofRow },
    {
      what: `Rate by equation ${used.number}`,
      expression: `${plain(used.a, 4)} × ${plain(x)}² − ${plain(-used.b, 3)} × ${plain(x)} + ${plain(used.c)}`,
      result: `${belowZero(bare, 2)}${plain(rate, 2)} ${used.unit === "lb/ac" ? `lb ${symbol}/ac` : `lb ${symbol}/1000 sq ft`}`,
      source: rule.source,
      evidence: rule.evidence,
      ...(notes.length > 0 && { note: notes.join("; ") }),
    },
  ];
  return answer({ rate: { value: rate, unit: used.unit } }, steps);
};
