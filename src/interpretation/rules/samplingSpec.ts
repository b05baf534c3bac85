import * as z from "zod";
import { lengthUnits } from "../units.ts";
import { purposeIds } from "../vocabulary.ts";
import { samplingWhen } from "./samplingWhen.ts";
import { graded, provenance } from "./sourced.ts";

const rising = (r: { least?: number | undefined; most?: number | undefined }): boolean =>
  (r.least ?? 0) <= (r.most ?? Infinity) && (r.least ?? r.most) !== undefined;
const row = { when: samplingWhen.optional(), ...provenance };
const areaUnit = z.enum(["acre", "ha"]);

const coresRow = z
  .strictObject({ ...row, least: z.number().int().positive().optional(), most: z.number().int().positive().optional() })
  .check(graded)
  .refine(rising, "needs least, most or both, and must rise");
const depthRow = z
  .strictObject({
    ...row,
    from: z.number().nonnegative().default(0),
    to: z.number().positive(),
    toMost: z.number().positive().optional().describe("the deeper end, where a range is printed"),
    unit: z.enum(lengthUnits),
  })
  .check(graded)
  .refine((d) => d.from < d.to && d.to < (d.toMost ?? Infinity), "must end below where it begins");
const areaRow = z
  .strictObject({
    ...row,
    least: z.number().positive().optional().describe("the smaller end, where a range is printed"),
    most: z.number().positive(),
    unit: areaUnit,
  })
  .check(graded)
  .refine(rising, "must rise");
const byAreaRow = z
  .strictObject({
    ...row,
    unit: areaUnit,
    rows: z
      .array(z.tuple([z.number().positive(), z.number().positive(), z.number().int().positive()]))
      .min(1)
      .describe("area from, area to, composites"),
  })
  .check(graded)
  .refine(
    ({ rows }) => rows.every(([from, to], i) => from < to && (i === 0 || from > rows[i - 1]![1])),
    "must rise: each row from a smaller to a larger area, beginning after the one before",
  );
const yearsRow = z
  .strictObject({
    ...row,
    least: z.number().positive().optional().describe("the shorter end, where a range is printed"),
    most: z.number().positive(),
  })
  .check(graded)
  .refine(rising, "must rise");

/** What the crop, the day and the bags must keep to, with the unit each is stated in; `task`: as one line of a checklist, around the value. */
export const samplingBounds = {
  hoursToLab: { label: "Longest way to the laboratory", unit: "h", task: ["Have it at the laboratory within", ""] },
  hoursToDrying: { label: "Longest time until it is dried", unit: "h", task: ["Dry the soil within", ""] },
  daysUnchilled: { label: "Longest time without cooling", unit: "days", task: ["Leave it uncooled no longer than", ""] },
  dryingTemperature: { label: "Warmest air to dry it in", unit: "°F", task: ["Dry the soil in air no warmer than", ""] },
  keepingTemperature: { label: "Warmest place for a moist bag", unit: "°F", task: ["Keep a moist bag no warmer than", ""] },
  cropHeightLeast: { label: "Shortest crop", unit: "in", task: ["Not before the crop is", " tall"] },
  cropHeightMost: { label: "Tallest crop", unit: "in", task: ["Not after the crop is", " tall"] },
  daysAfterRain: { label: "Shortest time after heavy rain", unit: "days", task: ["After heavy rain wait", ""] },
} as const;
export type SamplingBoundId = keyof typeof samplingBounds;

const boundRow = z
  .strictObject({
    what: z.enum(Object.keys(samplingBounds) as [SamplingBoundId, ...SamplingBoundId[]]),
    value: z.number().positive(),
    otherwise: z.string().optional().describe("what to do where it cannot be kept"),
    ...provenance,
  })
  .check(graded);
const distanceRow = z
  .strictObject({ from: z.string().min(1), value: z.number().positive(), unit: z.enum(["ft", "m"]), ...provenance })
  .check(graded);
const statementRow = z
  .strictObject({
    about: z.enum(["timing", "place", "depth", "tool", "container", "bag", "frequency"]),
    statement: z.string().min(1),
    ...provenance,
  })
  .check(graded);

/** What a publication says of taking a sample for one purpose. Whatever it is silent on is left out. */
export const samplingSpecRule = z
  .strictObject({
    kind: z.literal("samplingSpec"),
    id: z.string(),
    purpose: z.enum(purposeIds),
    cores: z.array(coresRow).min(1).optional().describe("cores in one composite"),
    depths: z.array(depthRow).min(1).optional(),
    areas: z.array(areaRow).min(1).optional().describe("the largest area one composite may stand for"),
    composites: z.array(byAreaRow).min(1).optional().describe("composites by the area of the field, where the publication has a table"),
    years: z.array(yearsRow).min(1).optional().describe("years between two samplings"),
    sameCrop: z.strictObject(provenance).check(graded).optional().describe("the publication wants each sampling taken after the same crop"),
    bounds: z.array(boundRow).min(1).optional().describe("what the crop, the day and the bags must keep to"),
    distances: z.array(distanceRow).min(1).optional().describe("what to stay away from, and how far"),
    statements: z.array(statementRow).min(1).optional(),
  })
  .refine(
    (s) => [s.cores, s.depths, s.areas, s.composites, s.years, s.sameCrop, s.bounds, s.distances, s.statements].some(Boolean),
    "says nothing; leave it out",
  );
export type SamplingSpecRule = z.infer<typeof samplingSpecRule>;

type Rows<K extends keyof SamplingSpecRule> = NonNullable<SamplingSpecRule[K]> extends readonly (infer R)[] ? R : never;
export type AreaRow = Rows<"areas">;
export type ByAreaRow = Rows<"composites">;
export type BoundRow = Rows<"bounds">;
export type DistanceRow = Rows<"distances">;
export type StatementRow = Rows<"statements">;
