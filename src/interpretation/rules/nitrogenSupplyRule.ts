import * as z from "zod";
import { cropIds, methodIds, soilCategoryIds } from "../vocabulary.ts";
import { mineralOnly } from "./mineralOnly.ts";
import { graded, provenance, sourcedDepth, sourcedNumber } from "./sourced.ts";

/** kg N/ha, two ends where a range is printed, `null` where nothing is. */
const printed = z.union([
  z.number().nonnegative(),
  z.tuple([z.number().nonnegative(), z.number().positive()]).refine(([least, most]) => least < most, "must rise"),
  z.null(),
]);
export type Printed = z.infer<typeof printed>;

const table = z
  .strictObject({
    soils: z.array(z.enum(soilCategoryIds)).min(1).optional().describe("absent: every mineral soil"),
    yield: z.number().positive().optional().describe("t/ha that it is printed for"),
    use: z.string().min(1).optional().describe("it is for this use of the crop, and told beside the rate"),
    rates: z.array(printed).min(1).describe("kg N/ha by index, beginning with 0; a range by its two ends, null where none is printed"),
    marked: z.array(z.number().int().nonnegative()).min(1).optional().describe("indexes whose rate the publication marks"),
    ...provenance,
  })
  .check(graded);
export type SupplyTable = z.infer<typeof table>;

const otherYields = z
  .strictObject({
    step: z.number().positive().describe("t/ha of difference that more and less are printed for; less than a step counts in proportion"),
    more: z.number().nonnegative().describe("kg N/ha"),
    less: z.number().nonnegative().describe("kg N/ha"),
    most: z.number().positive().describe("t/ha above which no more is added"),
    ...provenance,
  })
  .check(graded);

const cropOf = z
  .strictObject({
    crops: z.array(z.enum(cropIds)).min(1),
    sown: z.enum(["winter", "spring"]).describe("a crop sown in spring does not stand when the soil is sampled"),
    tables: z.array(table).min(1).describe("several of one soil and use are read along the line between their yields"),
    otherYields: otherYields.optional(),
    cautions: z
      .array(z.strictObject({ crops: z.array(z.enum(cropIds)).min(1).optional(), says: z.string().min(1) }))
      .default([])
      .describe("stand beside the rate"),
  })
  .refine(
    ({ tables, otherYields: other }) => !other || tables.every((t) => t.use !== undefined || t.yield !== undefined),
    "corrects for other yields than the table's, so each table needs its yield",
  );
export type SupplyCrop = z.infer<typeof cropOf>;

const standing = z
  .strictObject({
    crops: z.array(z.enum(cropIds)).min(1),
    by: z.enum(["shoots", "greenAreaIndex"]),
    rows: z
      .array(
        z.strictObject({
          count: z.number().positive(),
          spring: z.number().nonnegative(),
          autumn: z.number().nonnegative().optional().describe("absent: as in spring"),
          to: z.number().positive().optional().describe("the upper end, where a range is printed"),
        }),
      )
      .min(1)
      .refine((all) => all.every((r, i) => i === 0 || r.count > all[i - 1]!.count), "must rise")
      .describe("kg N/ha in the crop; read along the line from nothing through each row"),
    ...provenance,
  })
  .check(graded);

/** Nitrogen by the index of the soil's supply: mineral nitrogen, what the crop holds already and what humus releases; in kg/ha. */
export const nitrogenSupplyRule = z
  .strictObject({
    kind: z.literal("nitrogenSupply"),
    id: z.string(),
    unit: z.literal("kg/ha"),
    methods: z.array(z.enum(methodIds)).min(1).describe("of the mineral nitrogen (mineralN), the usual one first"),
    depth: sourcedDepth.describe("of the sample that holds it; the layers of one are recorded as their sum"),
    autumn: z
      .strictObject({
        months: z.tuple([z.number().int().min(1).max(12), z.number().int().min(1).max(12)]).describe("first and last"),
        depth: sourcedDepth.describe("enough in these months"),
      })
      .optional(),
    rootingDepth: z
      .strictObject({ soils: z.array(z.enum(soilCategoryIds)).min(1), ...provenance })
      .check(graded)
      .optional()
      .describe("soils that are sampled as deep as roots go, be it less than depth"),
    standing: z.array(standing).default([]).describe("nitrogen in the crop by what can be counted in the field"),
    release: z
      .strictObject({
        above: z.number().positive().describe("percent of organic matter"),
        each: z.number().positive().describe("kg N/ha that each percent above it may release"),
        ...provenance,
      })
      .check(graded),
    organicFrom: sourcedNumber.describe("percent of organic matter from which the test is not read"),
    mineralOnly,
    notAfter: z
      .strictObject({ crops: z.array(z.enum(cropIds)).min(1), because: z.string().min(1), ...provenance })
      .check(graded)
      .optional()
      .describe("crops before, after which the test is not read"),
    indexes: z
      .strictObject({ from: z.array(z.number().positive()).min(1).describe("kg N/ha that index 1, 2 ... begin with"), ...provenance })
      .check(graded),
    doubtAbove: sourcedNumber.optional().describe("kg N/ha of supply that the publication would have confirmed"),
    markedSays: z.string().min(1).optional().describe("caution beside a rate that is marked"),
    otherWay: z.string().min(1).optional().describe("said where nothing was tested: how else the publication tells the supply"),
    soilDoubts: z
      .array(z.strictObject({ soils: z.array(z.enum(soilCategoryIds)).min(1), says: z.string().min(1) }))
      .default([])
      .describe("cautions beside every rate on these soils"),
    crops: z
      .array(cropOf)
      .min(1)
      .refine((all) => new Set(all.flatMap((c) => c.crops)).size === all.flatMap((c) => c.crops).length, "names a crop twice"),
    cautions: z.array(z.string().min(1)).default([]).describe("stand beside every rate"),
  })
  .check(({ value, issues }) => {
    value.crops.forEach((crop, i) =>
      crop.tables.forEach(({ rates }, j) => {
        if (rates.length !== value.indexes.from.length + 1)
          issues.push({
            code: "custom",
            input: value,
            path: ["crops", i, "tables", j, "rates"],
            message: `has ${rates.length} rates, and there are ${value.indexes.from.length + 1} indexes`,
          });
      }),
    );
  });
export type NitrogenSupplyRule = z.infer<typeof nitrogenSupplyRule>;

export const cropRow = (rule: NitrogenSupplyRule, crop: SupplyCrop["crops"][number] | undefined): SupplyCrop | undefined =>
  crop === undefined ? undefined : rule.crops.find((c) => c.crops.includes(crop));

/** A crop that gets none whatever the soil supplies, such as beans: nothing has to be tested for it. */
export const needsNone = ({ tables }: SupplyCrop): boolean => tables.every(({ rates }) => rates.every((r) => r === 0));
