import * as z from "zod";
import { analyteIds, finishIds, methodIds, preparationIds, purposeIds, soilTestUnits } from "../../interpretation/vocabulary.ts";
import { date, depth, label, length, longText, named, rateAmount, text } from "./primitives.ts";

/** How an analyte was measured: method, and finish, preparation and unit where they matter. */
export const measuring = z.strictObject({
  method: z.enum(methodIds),
  finish: z.enum(finishIds).optional(),
  preparation: z.enum(preparationIds).optional(),
  unit: z.enum(soilTestUnits),
});
export type Measuring = z.infer<typeof measuring>;

/** A result: a number, or a number the laboratory only bounds (`<` below detection, `>` above its range). */
const result = z.union([
  z.number().min(0),
  z.strictObject({
    value: z.number().min(0),
    qualifier: z.enum(["<", ">"], {
      // Whoever only means to write a number in a block must not be led to call it a bound.
      error: ({ input }) =>
        input === undefined ? "is missing; allowed: <, >; where the laboratory gave no bound, write the number by itself" : undefined,
    }),
  }),
]);

/** One bag: cores from one zone mixed together, and what the laboratory found in it. */
const composite = z.strictObject({
  label: label.describe("the bag label, as the laboratory has it; quoted"),
  zone: named,
  cores: z.number().int().positive().max(200).optional(),
  results: z.partialRecord(z.enum(analyteIds), result).default({}),
  note: text.optional(),
});

const correction = z.strictObject({
  composite: label,
  analyte: z.enum(analyteIds),
  was: z.number(),
  now: z.number().min(0),
  reason: text,
  date,
});

const handling = z.strictObject({
  tool: text.optional(),
  pail: z.enum(["plastic", "metal"]).optional().describe("what the cores were mixed in"),
  bag: z.enum(["paper", "lined paper", "cloth", "plastic"]).optional().describe("what the soil was sent in"),
  moisture: z.enum(["dry", "moist", "wet"]).optional().describe("of the soil when sampled"),
  keeping: z.enum(["air-dried", "chilled", "frozen", "as taken"]).optional().describe("of the bags on the way"),
  receivedOn: date.optional(),
  reportedOn: date.optional(),
});

/** The laboratory's own report: what it calls it, and the file of it that is kept under reports/. */
const report = z
  .strictObject({
    number: label.optional().describe("as the laboratory has it; quoted"),
    file: z.string().trim().min(1).max(100).optional().describe("a file in the farm's reports folder, such as 2025-10-28.pdf"),
  })
  .refine((r) => r.number !== undefined || r.file !== undefined, "needs number, file or both");

/** What a nitrate rule asks of its sampling beside the result. */
const nitrateTest = z.strictObject({
  cropHeight: length.optional().describe("from the ground to the center of the whorl"),
  hoursToLab: z.number().nonnegative().max(2000).optional().describe("from the last core to the laboratory, or to drying or chilling"),
  rainOfNormal: z.number().nonnegative().max(1000).optional().describe("rain from April 1 to the sampling, percent of normal"),
  daysSinceRain: z.number().nonnegative().max(365).optional().describe("since the last heavy rain"),
  cropNitrogen: rateAmount.optional().describe("nitrogen that the standing crop holds already, where it was estimated or measured"),
  shoots: z.number().nonnegative().max(5000).optional().describe("main shoots and tillers of a standing cereal on a square meter"),
  greenAreaIndex: z
    .number()
    .nonnegative()
    .max(10)
    .optional()
    .describe("of standing oilseed rape: square meters of green on a square meter of ground"),
  plannedNitrogen: rateAmount.optional().describe("the nitrogen that was planned before the test, for rules that adjust it"),
});

/** samplings/<date>.yaml: one sampling event. Added to, never rewritten: a wrong result gets a correction. */
export const sampling = z.strictObject({
  date,
  purpose: z.enum(purposeIds),
  lab: named,
  package: named,
  depth,
  handling: handling.optional(),
  report: report.optional(),
  nitrate: nitrateTest.optional(),
  measured: z.partialRecord(z.enum(analyteIds), measuring).optional().describe("overrides the package, for this event"),
  composites: z.array(composite).min(1),
  corrections: z.array(correction).default([]),
  note: longText.optional(),
});
export type SamplingRecord = z.infer<typeof sampling>;
