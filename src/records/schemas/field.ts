import * as z from "zod";
import { unitChoiceIds } from "../../interpretation/unitChoices.ts";
import { avoidedKindIds } from "../../interpretation/sampling/planHandling.ts";
import { tillageIds } from "../../interpretation/rules/samplingWhen.ts";
import { cropIds, soilClassIds, soilCategoryIds, strawIds, textureIds } from "../../interpretation/vocabulary.ts";
import { date, id, length, longText, named, rateAmount, rotation, text, year, yieldAmount } from "./primitives.ts";

const soil = z.strictObject({
  name: text.optional().describe("soil series or a description"),
  texture: z.enum(textureIds).optional(),
  category: z
    .enum(soilCategoryIds)
    .optional()
    .describe(
      "the kind of soil, where a country's guide names them: veryLight, light, medium or heavy in Poland; lightSand, shallow, medium, deepClayey or deepSilty by a meter of the profile in Britain",
    ),
  cec: z.number().positive().max(200).optional().describe("meq/100 g; used where the laboratory did not report it"),
  organicMatter: z.number().min(0).max(100).optional().describe("percent; used where the laboratory did not report it"),
  subsoilPh: z.number().min(3).max(10.5).optional(),
  soilClass: z
    .enum(soilClassIds)
    .optional()
    .describe("by humic matter, as the laboratory classes the soil; some lime and fertilizer rates depend on it"),
});

const zone = z
  .strictObject({
    letter: z.string().regex(/^[A-Z]{1,2}$/, "must be one or two capital letters, such as A or AB"),
    name: text,
    soil: soil.optional().describe("overrides the field's soil, fact by fact"),
    since: date
      .optional()
      .describe("the day from which it is a zone, where it was drawn anew by merging or splitting others; nothing before it is its own"),
    formerly: z.array(named).min(1).optional().describe("the zones whose ground it took over; each of them has until"),
    until: date.optional().describe("the day from which it is no zone any more; its samplings, crops and applications stay in the history"),
  })
  .refine((z) => z.formerly === undefined || z.since !== undefined, {
    path: ["formerly"],
    error: "needs since, the day the zone was drawn",
  })
  .refine((z) => z.since === undefined || z.until === undefined || z.since < z.until, { path: ["until"], error: "is not after since" });

/** Fertilizer the planter puts down: touching the seed, or in a band beside it. */
const starter = z.strictObject({
  product: named.describe("a fertilizer of farm.yaml"),
  rate: rateAmount,
  placement: z.enum(["withSeed", "band"]),
  rowSpacing: length.describe("the distance between rows"),
});

const plannedCrop = z.strictObject({
  season: year,
  crop: z.enum(cropIds),
  yieldGoal: yieldAmount.optional(),
  straw: z.enum(strawIds).optional().describe("what becomes of the straw; some rates depend on it"),
  starter: starter.optional(),
  zones: z.array(named).min(1).optional().describe("absent: the whole field"),
});

const targetPh = z.strictObject({
  value: z.number().min(4).max(8.5),
  reason: text.describe("why this pH, in a few words; printed where it is used"),
});

const position = z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90)]);

/** Ground that stands for nothing but itself: a road whose dust limes the soil, an old fence row, where a pile of lime or manure lay. */
const avoided = z
  .strictObject({
    what: text.describe("what it is, as the plan is to call it"),
    kind: z.enum(avoidedKindIds).optional().describe("the distance is the one that a guideline prints for it"),
    distance: z
      .strictObject({ value: z.number().positive().max(2000), unit: z.enum(["ft", "m"]) })
      .optional()
      .describe("how far cores stay away"),
    where: z
      .array(position)
      .min(1)
      .max(500)
      .describe("longitude and latitude in degrees (WGS 84): one position for a spot, more for a line"),
  })
  .refine((a) => a.kind !== undefined || a.distance !== undefined, {
    path: ["distance"],
    error: "is missing; give a distance, or a kind whose distance a guideline prints",
  });

/** field.yaml: one field, its zones and what is planned on it. */
export const field = z.strictObject({
  name: text,
  tenure: z.strictObject({ kind: z.enum(["owned", "rented", "managed"]), from: text.optional(), since: date.optional() }).optional(),
  soil: soil.optional(),
  zones: z
    .record(id, zone)
    .refine((zones) => Object.keys(zones).length > 0, "needs at least one zone")
    .refine(
      (zones) => Object.keys(zones).length === 0 || Object.values(zones).some((each) => each.until === undefined),
      "needs at least one zone without until: the others are history",
    ),
  boundary: z.strictObject({ walked: date.optional(), note: text.optional() }).optional(),
  guidelines: z.array(named).min(1).optional().describe("overrides the farm's, for this field"),
  targetPh: targetPh.optional(),
  limeDepth: length.optional().describe("the depth lime is worked into; absent: the depth sampled"),
  units: z.enum(unitChoiceIds).optional().describe("overrides the farm's, for this field; garden counts by 1,000 sq ft"),
  tillage: z.enum(tillageIds).default("tilled"),
  avoid: z.array(avoided).max(50).default([]).describe("what cores stay away from"),
  rotation: rotation.describe("the crops grown in turn; some guidelines set levels by them"),
  plan: z.array(plannedCrop).default([]),
  note: longText.optional(),
});
export type FieldRecord = z.infer<typeof field>;
