import * as z from "zod";
import type { NitrateHistory, NitrogenPlace } from "../rules/nitrateFacts.ts";
import { nitrateNumbers, nitrateWords } from "../rules/nitrateFacts.ts";
import { yieldUnits } from "../units.ts";
import type { CropId } from "../vocabulary.ts";
import { cropIds } from "../vocabulary.ts";
import type { Outcome } from "../outcome.ts";
import type { NutrientRate } from "../rules/nutrientRate.ts";
import type { Published, Verdict } from "./check.ts";
import { near, same, valueOf } from "./check.ts";

const numbers = Object.keys(nitrateNumbers) as (keyof typeof nitrateNumbers)[];
const words = Object.keys(nitrateWords) as (keyof typeof nitrateWords)[];

/** What a check value says of the sampling and of the years before it. */
export const history = z.strictObject({
  ...(Object.fromEntries(numbers.map((id) => [id, z.number().optional()])) as Record<(typeof numbers)[number], z.ZodOptional<z.ZodNumber>>),
  ...(Object.fromEntries(words.map((id) => [id, z.string().optional()])) as Record<(typeof words)[number], z.ZodOptional<z.ZodString>>),
});

export const yieldGoal = z.strictObject({ value: z.number(), unit: z.enum(yieldUnits) });
export const crop = z.enum(cropIds);

/** The facts as the rules read them. */
export const historyOf = (given: z.infer<typeof history> | undefined): NitrateHistory =>
  Object.fromEntries(
    Object.entries(given ?? {}).flatMap(([fact, value]: [string, unknown]) => (value === undefined ? [] : [[fact, { value }]])),
  );

export const placeOf = (input: {
  crop?: CropId | undefined;
  history?: z.infer<typeof history> | undefined;
  yieldGoal?: z.infer<typeof yieldGoal> | undefined;
}): NitrogenPlace => ({
  facts: { crop: input.crop ?? "corn" },
  history: historyOf(input.history),
  yieldGoal: input.yieldGoal,
  pack: "the publication",
});

/** A rate in lb N an acre, or that there must be none to read. */
export const rateOrRefusal = z.union([z.strictObject({ rate: z.number() }), z.strictObject({ refused: z.literal(true) })]);

export const rateVerdicts = (outcome: Outcome<NutrientRate>, expected: z.infer<typeof rateOrRefusal>, check: Published): Verdict[] =>
  "rate" in expected
    ? valueOf(outcome, (value) => [near("rate, lb/ac", value.rate.value, expected.rate, check)])
    : [same("answer", outcome.kind, "noAnswer")];
