import * as z from "zod";
import { nitrateNumbers, nitrateWords } from "../../interpretation/rules/nitrateFacts.ts";
import type { NitrateNumber, NitrateWord } from "../../interpretation/rules/nitrateFacts.ts";
import {
  analyteIds,
  cropIds,
  finishIds,
  manureSpeciesIds,
  methodIds,
  preparationIds,
  soilCategoryIds,
  soilClassIds,
  soilTestUnits,
  strawIds,
  textureIds,
} from "../../interpretation/vocabulary.ts";
import { unitChoiceIds } from "../../interpretation/unitChoices.ts";
import { passing } from "./passing.ts";
import { statedIndices } from "./statedIndices.ts";
import { currency, date, depth, length, named, percent, rotation, text, yieldAmount } from "./primitives.ts";

const result = z.strictObject({
  value: z.number().min(0),
  qualifier: z.enum(["<", ">"]).optional(),
  unit: z.enum(soilTestUnits),
  method: z.enum(methodIds),
  finish: z.enum(finishIds).optional(),
  preparation: z.enum(preparationIds).optional(),
});

const material = z
  .strictObject({
    name: text,
    stated: statedIndices.optional(),
    analysis: z
      .strictObject({
        cce: z.number().positive().max(180),
        moisture: percent,
        passing,
      })
      .optional(),
    pricePerTon: z.number().nonnegative().optional(),
  })
  .refine((m) => m.stated !== undefined || m.analysis !== undefined, {
    path: ["stated"],
    error: "a liming material needs stated, analysis or both, or no rate of it can be worked out",
  });

const numberFacts = Object.fromEntries(Object.keys(nitrateNumbers).map((fact) => [fact, z.number().nonnegative().optional()])) as Record<
  NitrateNumber,
  z.ZodOptional<z.ZodNumber>
>;
const wordFacts = Object.fromEntries(Object.entries(nitrateWords).map(([fact, { values }]) => [fact, z.enum(values).optional()])) as Record<
  NitrateWord,
  z.ZodOptional<z.ZodEnum>
>;

/** What a nitrogen rule asks of the sampling and of the years before it; a fact that is left out is not known, never taken for nothing. */
const history = z.strictObject({
  ...numberFacts,
  ...wordFacts,
  manure: z
    .array(
      z.strictObject({
        name: text,
        yearsAgo: z.number().int().min(0).max(10).describe("0: for this crop, 1: for the crop of the year before"),
        tonsPerAcre: z.number().nonnegative(),
        nitrogen: z.number().nonnegative().optional().describe("all of it, lb per ton"),
        organicNitrogen: z.number().nonnegative().optional().describe("lb per ton"),
        species: z.enum(manureSpeciesIds).optional(),
        dryMatter: percent.optional(),
      }),
    )
    .optional()
    .describe("an empty list: no manure in this season and the two before; absent: not known"),
});

/** A sample by itself, without a farm: what was found in it, and what a guideline may ask of the place it is from. */
export const sample = z.strictObject({
  guideline: z.union([named, z.array(named).min(1)]).describe("one, or several in order: the first that can answer a question answers it"),
  units: z
    .enum(unitChoiceIds)
    .optional()
    .describe("in which to print rates; absent: as the guideline prints them. garden also means that food is grown by hand there"),
  currency: currency.optional().describe("of the price of the liming material"),
  crop: z.enum(cropIds).optional(),
  yieldGoal: yieldAmount.optional(),
  straw: z.enum(strawIds).optional(),
  rotation: rotation.describe("the crops grown in turn with it"),
  date: date.optional(),
  depth,
  soil: z
    .strictObject({
      texture: z.enum(textureIds).optional(),
      category: z
        .enum(soilCategoryIds)
        .optional()
        .describe(
          "the kind of soil, where a country's guide names them: veryLight, light, medium or heavy in Poland; lightSand, shallow, medium, deepClayey or deepSilty by a meter of the profile in Britain",
        ),
      cec: z.number().positive().max(200).optional().describe("meq/100 g"),
      organicMatter: percent.optional(),
      subsoilPh: z.number().min(3).max(10.5).optional(),
      soilClass: z.enum(soilClassIds).optional().describe("by humic matter, as the laboratory classes the soil"),
    })
    .optional(),
  history: history.optional(),
  targetPh: z.number().min(4).max(8.5).optional(),
  limeDepth: length.optional().describe("the depth lime is worked into; absent: the depth sampled"),
  incorporated: z.boolean().optional().describe("whether lime is worked in; absent: it is, but on turf"),
  material: material.optional().describe("the liming material at hand"),
  results: z.partialRecord(z.enum(analyteIds), result).refine((r) => Object.keys(r).length > 0, "needs at least one result"),
});
export type SampleRecord = z.infer<typeof sample>;
